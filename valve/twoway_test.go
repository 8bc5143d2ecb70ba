package valve_test

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// anyCurve draws a law with parameters as data sheets have them.
func anyCurve(t *rapid.T) valve.Characteristic {
	ratio := rapid.Float64Range(10, 200).Draw(t, "ratio")
	return rapid.SampledFrom([]valve.Characteristic{
		valve.Linear(ratio), valve.Linear(math.Inf(1)), valve.EqualPercentage(ratio), valve.Parabolic(),
		valve.QuickOpening(1 + ratio/200), ballCurve(), valve.Custom(cube{}),
	}).Draw(t, "curve")
}

func anyTwoWay(t *rapid.T) valve.TwoWay {
	v, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs:     units.FlowCoefficient(math.Pow(10, rapid.Float64Range(-2, 3).Draw(t, "lg Kvs"))),
		Stroke:  10 * units.Millimetre,
		Curve:   anyCurve(t),
		Leakage: units.Ratio(rapid.SampledFrom([]float64{0, 1e-4, 1e-3, 5e-3}).Draw(t, "leakage")),
		Density: units.Density(rapid.Float64Range(800, 1200).Draw(t, "density")),
	})
	require.NoError(t, err)
	return v
}

func anyPressure(t *rapid.T, label string) units.Pressure {
	dp := math.Pow(10, rapid.Float64Range(-4, 6).Draw(t, "lg "+label))
	if rapid.Bool().Draw(t, label+" backwards") {
		dp = -dp
	}
	return units.Pressure(dp)
}

// Values of the laws by the project's designers, to the digits they give.
func TestRelativeCoefficient(t *testing.T) {
	for _, c := range []struct {
		curve  valve.Characteristic
		h, phi float64
	}{
		{valve.EqualPercentage(50), 0.1, 0.02958}, {valve.EqualPercentage(50), 0.25, 0.05318},
		{valve.EqualPercentage(50), 0.5, 0.14142}, {valve.EqualPercentage(50), 0.75, 0.37606},
		{valve.EqualPercentage(50), 0.9, 0.67624}, {valve.EqualPercentage(25), 0.5, 0.2},
	} {
		v := must(valve.NewTwoWay(twoWayConfig(c.curve)))
		assert.InDelta(t, c.phi, v.RelativeCoefficient(c.h), 5e-6, "%v at %v", c.curve, c.h)
	}
}

func TestEndsAreExact(t *testing.T) {
	for _, curve := range []valve.Characteristic{valve.Linear(50), valve.EqualPercentage(50), valve.Parabolic(), valve.QuickOpening(2), ballCurve(), valve.Custom(cube{})} {
		cfg := twoWayConfig(curve)
		cfg.Leakage = 1e-4
		cfg.ClosingTravel = 0.05
		v := must(valve.NewTwoWay(cfg))
		for _, h := range []float64{0, -1, math.Inf(-1)} {
			assert.InDelta(t, 1e-4, v.RelativeCoefficient(h), 0)
		}
		for _, h := range []float64{1, 2, math.Inf(1)} {
			assert.InDelta(t, 1, v.RelativeCoefficient(h), 0)
			assert.InDelta(t, 1, v.TravelFor(h), 0)
		}
		for _, phi := range []float64{1e-4, 1e-5, 0, -1} {
			assert.InDelta(t, 0, v.TravelFor(phi), 0)
		}
	}
}

func TestClosingRegion(t *testing.T) {
	cfg := twoWayConfig(valve.EqualPercentage(50))
	cfg.ClosingTravel, cfg.Leakage = 0.1, 0.001
	v := must(valve.NewTwoWay(cfg))
	joint := math.Pow(50, -0.9)
	assert.InDelta(t, joint, v.RelativeCoefficient(0.1), 1e-16)
	assert.InDelta(t, (joint+0.001)/2, v.RelativeCoefficient(0.05), 1e-16, "half way on the straight line")
	assert.InDelta(t, 0.05, v.TravelFor((joint+0.001)/2), 1e-15)
	assert.InDelta(t, 1/joint, v.InherentRangeability(), 1e-12)
}

func TestClosingTravelDefaults(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*valve.TwoWayConfig)
		want   float64
	}{
		"plain":                          {func(*valve.TwoWayConfig) {}, valve.DefaultClosingTravel},
		"stated":                         {func(c *valve.TwoWayConfig) { c.ClosingTravel = 0.003 }, 0.003},
		"from rangeability 25 of 50":     {func(c *valve.TwoWayConfig) { c.Rangeability = 25 }, 1 - math.Log(25)/math.Log(50)},
		"rangeability equal to the law":  {func(c *valve.TwoWayConfig) { c.Curve, c.Rangeability = valve.EqualPercentage(33.3), 33.3 }, valve.DefaultClosingTravel},
		"leakage of class II, parabolic": {func(c *valve.TwoWayConfig) { c.Curve, c.Leakage = valve.Parabolic(), 0.005 }, 0.1},
	} {
		cfg := twoWayConfig(valve.EqualPercentage(50))
		c.change(&cfg)
		v, err := valve.NewTwoWay(cfg)
		require.NoError(t, err, name)
		assert.InDelta(t, c.want, v.ClosingTravel(), 1e-15, name)
	}
}

func TestTravelUndoesCoefficient(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyTwoWay(t)
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		assert.InDelta(t, h, v.TravelFor(v.RelativeCoefficient(h)), 1e-12)
	})
}

func TestCoefficientRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyTwoWay(t)
		a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
		if b-a > 1e-6 {
			assert.Greater(t, v.RelativeCoefficient(b), v.RelativeCoefficient(a))
		}
	})
}

// The definition of Kv, and Av of the same valve by pint: q = Av·√(Δp/ρ).
func TestFlowAgainstReference(t *testing.T) {
	c := reference.Compare(t, "kv")
	for row := range c.Rows() {
		cfg := twoWayConfig(valve.Linear(50))
		cfg.Kvs = units.FlowCoefficient(row.Float("Cv")) * units.Cv
		cfg.Density = 1053.7
		v := must(valve.NewTwoWay(cfg))
		want := row.Float("Av_m2") * math.Sqrt(31700/1053.7)
		c.Note(row, "flow", reference.RelDiff(float64(v.GreatestFlow(31.7*units.Kilopascal)), want), "")
		c.Note(row, "pressure", reference.RelDiff(float64(v.Pressure(1, units.Flow(want))), 31700), "")
	}
	c.Require(2e-15, "pressure") // the square doubles the roundings of the recorded numbers
	c.Require(1e-15)
	unit := twoWayConfig(valve.Linear(50))
	unit.Kvs = 1
	assert.InDelta(t, 1, must(valve.NewTwoWay(unit)).GreatestFlow(units.Bar).In(units.CubicMetrePerHour), 1e-15)
}

func TestFlowPressureAndSlopeAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyTwoWay(t)
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		dp := anyPressure(t, "dp")
		q := v.Flow(h, dp)
		assert.Less(t, reference.RelDiff(float64(v.Pressure(h, q)), float64(dp)), 4e-15)
		assert.InDelta(t, float64(-q), float64(v.Flow(h, -dp)), 0, "odd")
		d := dp * 1e-5
		quotient := float64(v.Flow(h, dp+d)-v.Flow(h, dp-d)) / float64(2*d)
		assert.Less(t, reference.RelDiff(quotient, v.Slope(h, dp)), 1e-4)
		assert.Positive(t, v.Slope(h, 0))
	})
}

func TestFlowRisesWithPressureEvenShut(t *testing.T) {
	v := coilValve()
	last := v.Flow(0, -1e5)
	for dp := units.Pressure(-1e5); dp < 1e5; dp += 1001 {
		if q := v.Flow(0, dp); dp > -1e5 {
			assert.Greater(t, q, last)
			last = q
		}
	}
	assert.Zero(t, v.Flow(0, 0))
	assert.Zero(t, v.Pressure(0, 0))
}

func TestTwoWayTravelForFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyTwoWay(t)
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		dp := anyPressure(t, "dp")
		back, err := v.TravelForFlow(v.Flow(h, dp), dp)
		require.NoError(t, err)
		assert.InDelta(t, h, back, 1e-12)
	})
}

func TestTwoWayTravelForFlowAtTheLimits(t *testing.T) {
	v := coilValve()
	dp := 20 * units.Kilopascal
	greatest := v.GreatestFlow(dp)
	for name, c := range map[string]struct {
		q    units.Flow
		dp   units.Pressure
		want float64
	}{
		"nothing":               {0, dp, 0},
		"nothing, no pressure":  {0, 0, 0},
		"less than the leakage": {greatest * 1e-10, dp, 0},
		"all":                   {greatest, dp, 1},
		"all but for rounding":  {greatest * (1 + 1e-13), dp, 1},
		"backwards":             {-greatest, -dp, 1},
	} {
		h, err := v.TravelForFlow(c.q, c.dp)
		require.NoError(t, err, name)
		assert.InDelta(t, c.want, h, 1e-15, name)
	}
	for name, c := range map[string]struct {
		q  units.Flow
		dp units.Pressure
	}{
		"too much":    {greatest * 1.001, dp},
		"no pressure": {greatest, 0},
		"uphill":      {-greatest, dp},
		"NaN":         {units.Flow(math.NaN()), dp},
		"NaN dp":      {greatest, units.Pressure(math.NaN())},
	} {
		_, err := v.TravelForFlow(c.q, c.dp)
		require.ErrorIs(t, err, valve.ErrUnreachable, name)
		var unreachable *valve.UnreachableError
		require.ErrorAs(t, err, &unreachable)
		if name == "too much" {
			assert.InDelta(t, float64(greatest), float64(unreachable.Greatest), 0)
			assert.Contains(t, err.Error(), "0.7826 l/s")
		}
	}
}

func TestTwoWayDensity(t *testing.T) {
	v := coilValve()
	heavy := must(v.WithDensity(4 * valve.ReferenceDensity / 3))
	assert.InEpsilon(t, math.Sqrt(0.75), float64(heavy.Flow(0.4, 2e4)/v.Flow(0.4, 2e4)), 1e-15)
	assert.InDelta(t, float64(valve.ReferenceDensity), float64(v.Density()), 0)
	_, err := v.WithDensity(-1)
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestTwoWayConfigAndEqual(t *testing.T) {
	cfg := twoWayConfig(valve.EqualPercentage(50))
	v := must(valve.NewTwoWay(cfg))
	assert.Empty(t, cmp.Diff(cfg, v.Config()))
	assert.Empty(t, cmp.Diff(v, must(valve.NewTwoWay(cfg))))
	other := cfg
	other.Leakage = 0.001
	assert.False(t, v.Equal(must(valve.NewTwoWay(other))))
	assert.False(t, v.Equal(valve.TwoWay{}))
	assert.True(t, valve.TwoWay{}.Equal(valve.TwoWay{}))
	assert.Equal(t, []any{valve.PushToClose, cfg.Stroke, cfg.Angle, cfg.SeatArea, cfg.SpringForce, cfg.MaxPressure, cfg.Kvs, 1.0},
		[]any{v.Stem(), v.Stroke(), v.Angle(), v.SeatArea(), v.SpringForce(), v.MaxPressure(), v.Kvs(), v.GreatestUsableTravel()})
}

func TestTwoWayFaults(t *testing.T) {
	nan := math.NaN()
	for field, change := range map[string]func(*valve.TwoWayConfig){
		"Kvs":           func(c *valve.TwoWayConfig) { c.Kvs = 0 },
		"Stem":          func(c *valve.TwoWayConfig) { c.Stem = 9 },
		"Stroke":        func(c *valve.TwoWayConfig) { c.Stroke = units.Length(nan) },
		"Angle":         func(c *valve.TwoWayConfig) { c.Angle = units.Degree },
		"Curve":         func(c *valve.TwoWayConfig) { c.Curve = valve.Characteristic{} },
		"Rangeability":  func(c *valve.TwoWayConfig) { c.Rangeability = 1 },
		"ClosingTravel": func(c *valve.TwoWayConfig) { c.ClosingTravel = 0.6 },
		"Leakage":       func(c *valve.TwoWayConfig) { c.Leakage = -0.001 },
		"MaxPressure":   func(c *valve.TwoWayConfig) { c.MaxPressure = units.Pressure(math.Inf(1)) },
		"SeatArea":      func(c *valve.TwoWayConfig) { c.SeatArea = -1 },
		"SpringForce":   func(c *valve.TwoWayConfig) { c.SpringForce = -1 },
		"Density":       func(c *valve.TwoWayConfig) { c.Density = 20 },
	} {
		cfg := twoWayConfig(valve.EqualPercentage(50))
		change(&cfg)
		v, err := valve.NewTwoWay(cfg)
		assert.Equal(t, []string{field}, faulty(err))
		assert.True(t, v.Equal(valve.TwoWay{}))
	}
	cfg := twoWayConfig(valve.Parabolic())
	cfg.Leakage, cfg.ClosingTravel = 0.01, 0.05
	_, err := valve.NewTwoWay(cfg)
	require.ErrorContains(t, err, "less than the coefficient where the closing region ends, 0.25 %")
	cfg = twoWayConfig(valve.EqualPercentage(50))
	cfg.Rangeability = 60
	_, err = valve.NewTwoWay(cfg)
	require.ErrorContains(t, err, "2 … 50, the theoretical ratio")
	_, err = valve.NewTwoWay(valve.TwoWayConfig{Stem: valve.Rotary, Stroke: units.Millimetre, Density: 1, Kvs: units.FlowCoefficient(nan)})
	assert.ElementsMatch(t, []string{"Kvs", "Angle", "Stroke", "Density", "Curve"}, faulty(err))
}

// faulty returns the fields of all faults in an error.
func faulty(err error) []string {
	var fields []string
	var fault *units.FieldError
	switch joined, ok := err.(interface{ Unwrap() []error }); {
	case ok:
		for _, e := range joined.Unwrap() {
			fields = append(fields, faulty(e)...)
		}
	case errors.As(err, &fault) && fault.Package == "valve":
		fields = append(fields, fault.Field)
	}
	return fields
}

func TestZeroTwoWay(t *testing.T) {
	var v valve.TwoWay
	assert.True(t, math.IsNaN(float64(v.Flow(0.5, 1e4))))
	assert.True(t, math.IsNaN(float64(v.Pressure(0.5, 1e-4))))
	assert.True(t, math.IsNaN(v.RelativeCoefficient(0.5)))
	assert.True(t, math.IsNaN(v.TravelFor(0.5)))
	_, err := v.TravelForFlow(1e-4, 1e4)
	require.ErrorIs(t, err, valve.ErrUnreachable)
	_, err = v.WithDensity(1000)
	require.ErrorIs(t, err, units.ErrInvalid)
}

func TestTwoWayNaN(t *testing.T) {
	v, nan := coilValve(), math.NaN()
	for _, x := range []float64{
		v.RelativeCoefficient(nan), v.TravelFor(nan), float64(v.Flow(nan, 1)), float64(v.Flow(0.5, units.Pressure(nan))),
		float64(v.Pressure(nan, 1)), float64(v.Pressure(0.5, units.Flow(nan))), v.Slope(nan, 1), v.Slope(0.5, units.Pressure(nan)),
	} {
		assert.True(t, math.IsNaN(x))
	}
}

func TestNoAllocations(t *testing.T) {
	two, indep := coilValve(), fanCoilValve()
	for _, v := range []valve.Valve{two, indep} {
		assert.Zero(t, testing.AllocsPerRun(100, func() {
			sink = v.Flow(0.4, 3e4) + v.Flow(0.4, -0.1) + units.Flow(v.Pressure(0.4, 1e-5)) + units.Flow(v.Slope(0.4, 3e4))
			h, _ := v.TravelForFlow(1e-5, 3e4)
			sink += units.Flow(h + v.TravelFor(0.3) + v.RelativeCoefficient(0.3))
		}))
	}
	assert.Zero(t, testing.AllocsPerRun(100, func() { _ = indep.Regime(0.4, 3e4) }))
}

func TestCoefficientIsTheShareOfKvs(t *testing.T) {
	v, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: 6.3 * units.Kv, Stroke: 15 * units.Millimetre, Curve: valve.EqualPercentage(50)})
	require.NoError(t, err)
	assert.InDelta(t, 6.3*0.14142, v.Coefficient(0.5).In(units.Kv), 1e-4, "R0^(h−1), IEC 60534-2-4")
	assert.Equal(t, 6.3*units.Kv, v.Coefficient(1))
}
