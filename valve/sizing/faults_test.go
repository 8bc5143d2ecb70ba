package sizing_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// fields lists the fields of the faults in an error, which must all be
// *units.FieldError of this package.
func fields(t *testing.T, err error) []string {
	t.Helper()
	require.ErrorIs(t, err, units.ErrInvalid)
	list := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		list = joined.Unwrap()
	}
	var names []string
	for _, e := range list {
		var f *units.FieldError
		require.ErrorAs(t, e, &f)
		assert.Equal(t, "sizing", f.Package)
		names = append(names, f.Field)
	}
	return names
}

func TestEachFaultIsNamed(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, test := range []struct {
		name  string
		spoil func(*sizing.Case)
		want  []string
	}{
		{"empty", func(c *sizing.Case) { *c = sizing.Case{} }, []string{
			"Liquid.Density", "Liquid.Viscosity", "Liquid.VapourPressure", "Inlet", "Outlet", "Valve.Diameter", "Valve.FL", "Valve.Fd"}},
		{"no density", func(c *sizing.Case) { c.Liquid.Density = 0 }, []string{"Liquid.Density"}},
		{"infinite density", func(c *sizing.Case) { c.Liquid.Density = units.Density(inf) }, []string{"Liquid.Density"}},
		{"no viscosity", func(c *sizing.Case) { c.Liquid.Viscosity = -1 }, []string{"Liquid.Viscosity"}},
		{"pv = p1", func(c *sizing.Case) { c.Liquid.VapourPressure = c.Inlet }, []string{"Liquid.VapourPressure"}},
		{"pv > pc", func(c *sizing.Case) { c.Liquid.CriticalPressure = units.Absolute(70 * units.Kilopascal) }, []string{"Liquid.VapourPressure"}},
		{"pv NaN", func(c *sizing.Case) { c.Liquid.VapourPressure = units.Absolute(units.Pressure(nan)) }, []string{"Liquid.VapourPressure"}},
		{"pc below vacuum", func(c *sizing.Case) { c.Liquid.CriticalPressure = units.Absolute(-1) }, []string{"Liquid.CriticalPressure"}},
		{"pc NaN", func(c *sizing.Case) { c.Liquid.CriticalPressure = units.Absolute(units.Pressure(nan)) }, []string{"Liquid.CriticalPressure"}},
		{"p2 = p1", func(c *sizing.Case) { c.Outlet = c.Inlet }, []string{"Outlet"}},
		{"p2 > p1", func(c *sizing.Case) { c.Outlet = units.Absolute(700 * units.Kilopascal) }, []string{"Outlet"}},
		{"p2 vacuum", func(c *sizing.Case) { c.Outlet = units.Absolute(0) }, []string{"Outlet"}},
		{"p1 infinite", func(c *sizing.Case) { c.Inlet = units.Absolute(units.Pressure(inf)) }, []string{"Inlet"}},
		{"no valve", func(c *sizing.Case) { c.Valve.Diameter = 0 }, []string{"Valve.Diameter"}},
		{"FL in percent", func(c *sizing.Case) { c.Valve.FL = 90 }, []string{"Valve.FL"}},
		{"FL NaN", func(c *sizing.Case) { c.Valve.FL = nan }, []string{"Valve.FL"}},
		{"no Fd", func(c *sizing.Case) { c.Valve.Fd = 0 }, []string{"Valve.Fd"}},
		{"xFz 1", func(c *sizing.Case) { c.Valve.XFz = 1 }, []string{"Valve.XFz"}},
		{"holes below 0", func(c *sizing.Case) { c.Valve.Holes = -1 }, []string{"Valve.Holes"}},
		{"hole diameter NaN", func(c *sizing.Case) { c.Valve.HoleDiameter = units.Length(nan) }, []string{"Valve.HoleDiameter"}},
		{"hole diameter infinite", func(c *sizing.Case) { c.Valve.HoleDiameter = units.Length(inf) }, []string{"Valve.HoleDiameter"}},
		{"small inlet pipe", func(c *sizing.Case) { c.InletPipe = 149 * units.Millimetre }, []string{"InletPipe"}},
		{"small outlet pipe", func(c *sizing.Case) { c.OutletPipe = 149 * units.Millimetre }, []string{"OutletPipe"}},
		{"outlet pipe NaN", func(c *sizing.Case) { c.OutletPipe = units.Length(nan) }, []string{"OutletPipe"}},
		{"two faults", func(c *sizing.Case) { c.Valve.FL, c.Liquid.Density = 2, -1 }, []string{"Liquid.Density", "Valve.FL"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := example1()
			test.spoil(&c)
			r, err := sizing.Size(1, c)
			assert.Equal(t, test.want, fields(t, err))
			assert.Equal(t, sizing.Result{}, r)
			_, err = sizing.Flow(1, c)
			assert.Equal(t, test.want, fields(t, err))
			_, err = sizing.CavitationAt(1, c)
			assert.Equal(t, test.want, fields(t, err))
		})
	}
}

func TestFlowAndKvMustBePositive(t *testing.T) {
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := sizing.Size(units.Flow(bad), example1())
		assert.Equal(t, []string{"Flow"}, fields(t, err))
		_, err = sizing.Flow(units.FlowCoefficient(bad), example1())
		assert.Equal(t, []string{"Kv"}, fields(t, err))
		_, err = sizing.CavitationAt(units.FlowCoefficient(bad), example1())
		assert.Equal(t, []string{"Kv"}, fields(t, err))
	}
}

func TestFlowBeyondTheReducersIsRefused(t *testing.T) {
	c := example1()
	c.Valve.Diameter = 50 * units.Millimetre
	c.InletPipe, c.OutletPipe = 150*units.Millimetre, 150*units.Millimetre
	_, err := sizing.Size(360*units.CubicMetrePerHour, c)
	assert.Equal(t, []string{"Flow"}, fields(t, err))
	// By hand: Σζ = 1.5·(8/9)² = 1.1852, √(N2·d⁴/Σζ) = 91.86, √(4.6·999.10/965.4) = 2.1819.
	most := 91.86 * 2.1819 * units.CubicMetrePerHour
	assert.ErrorContains(t, err, "less than 55.67 l/s")
	_, err = sizing.Size(most*1.001, c)
	require.Error(t, err)
	_, err = sizing.Size(most*0.999, c)
	require.NoError(t, err)
}

func TestKvBeyondTheOutletPipeIsRefused(t *testing.T) {
	c := example1()
	c.Valve.Diameter = 50 * units.Millimetre
	c.OutletPipe = 70 * units.Millimetre
	_, err := sizing.Flow(150*units.Kv, c)
	assert.Equal(t, []string{"Kv"}, fields(t, err))
	_, err = sizing.CavitationAt(150*units.Kv, c)
	assert.Equal(t, []string{"Kv"}, fields(t, err))
	_, err = sizing.Flow(140*units.Kv, c)
	require.NoError(t, err)
}

func TestNumbersOutOfFloat64AreRefused(t *testing.T) {
	c := example1()
	c.Liquid.Density = 1e-300
	_, err := sizing.Size(1e200, c)
	assert.Equal(t, []string{"Case"}, fields(t, err))
}

func TestCaseSurvivesJSON(t *testing.T) {
	c := example1()
	c.InletPipe = 200 * units.Millimetre
	text, err := json.Marshal(c)
	require.NoError(t, err)
	var back sizing.Case
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Empty(t, cmp.Diff(c, back, cmp.Comparer(func(a, b units.AbsolutePressure) bool { return a == b })))

	r, err := sizing.Size(360*units.CubicMetrePerHour, c)
	require.NoError(t, err)
	text, err = json.Marshal(r)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"Regime":"turbulent"`)
}

// FuzzSize looks for a panic, a NaN or an error that is not a FieldError.
func FuzzSize(f *testing.F) {
	f.Add(0.1, 965.4, 70100.0, 22.12e6, 3.26e-7, 680e3, 220e3, 0.15, 0.9, 0.46, 0.0, 0.0)
	f.Add(11.1, 867.4, 11683.0, 22.12e6, 88.0, 680e3, 110e3, 10.34, 0.9, 0.1533, 10.78, 415.0) // above what any Kv passes
	f.Add(1e-9, 1.0, 1.0, 0.0, 1.0, 3.0, 2.0, 1e-3, 1.0, 1.0, 2e-3, 1e-3)
	f.Fuzz(func(t *testing.T, x, rho, pv, pc, nu, p1, p2, d, fl, fd, d1, d2 float64) {
		absolute := func(p float64) units.AbsolutePressure { return units.Absolute(units.Pressure(p)) }
		c := sizing.Case{
			Liquid: sizing.Liquid{Density: units.Density(rho), VapourPressure: absolute(pv), CriticalPressure: absolute(pc), Viscosity: units.KinematicViscosity(nu)},
			Inlet:  absolute(p1), Outlet: absolute(p2),
			Valve:     sizing.Valve{Diameter: units.Length(d), FL: fl, Fd: fd},
			InletPipe: units.Length(d1), OutletPipe: units.Length(d2),
		}
		sized, err := sizing.Size(units.Flow(x), c)
		sane(t, sized, err)
		if err == nil {
			back, err := sizing.Flow(sized.Kv, c)
			require.NoError(t, err)
			require.InEpsilon(t, x, float64(back.Flow), 1e-10, "%+v of %+v", sized, c)
		}
		passed, err := sizing.Flow(units.FlowCoefficient(x), c)
		sane(t, passed, err)
	})
}

func sane(t *testing.T, r sizing.Result, err error) {
	t.Helper()
	var fault *units.FieldError
	if err != nil {
		require.True(t, errors.As(err, &fault), "%v", err)
		return
	}
	for _, x := range []float64{float64(r.Kv), float64(r.Flow), r.Rev, r.FF, r.FL, r.FLP, r.FP, r.FR,
		float64(r.PressureDrop), float64(r.ChokedPressureDrop), float64(r.SizingDrop)} {
		require.True(t, x > 0 && !math.IsInf(x, 0), "%+v", r)
	}
}
