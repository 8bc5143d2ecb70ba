package pipe_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

func TestColebrookAgainstFortyDigits(t *testing.T) {
	c := reference.Compare(t, "friction")
	for row := range c.Rows() {
		f, err := pipe.Colebrook(row.Float("Re"), row.Float("eD"))
		require.NoError(t, err)
		c.Check(row, "f", f)
		c.Check(row, "f_fluids", f)
		blended, err := pipe.FrictionFactor(row.Float("Re"), row.Float("eD"))
		require.NoError(t, err)
		c.Check(row, "f", blended)
	}
	c.Require(2e-15, "f")
	c.Require(1e-12, "f_fluids")
}

// TestColebrookPublished compares with the check values that the project was
// given, each to its last printed digit.
func TestColebrookPublished(t *testing.T) {
	for _, c := range []struct{ re, roughness, want float64 }{
		{1e5, 1e-4, 0.01851387}, {1e5, 0, 0.01798977}, {1e6, 1e-3, 0.01994347},
	} {
		f, err := pipe.Colebrook(c.re, c.roughness)
		require.NoError(t, err)
		assert.InDelta(t, c.want, f, 0.5e-8)
	}
}

func TestLaminarFriction(t *testing.T) {
	c := reference.Compare(t, "friction_laminar")
	for row := range c.Rows() {
		f, err := pipe.FrictionFactor(row.Float("Re"), 0.01)
		require.NoError(t, err)
		c.Check(row, "f", f)
	}
	c.Require(2e-15)
}

func TestPressureOfStraightPipe(t *testing.T) {
	c := reference.Compare(t, "friction_drop")
	for row := range c.Rows() {
		p, err := pipe.New(pipe.Config{
			Length:    units.Length(row.Float("L_m")) * units.Metre,
			Bore:      units.Length(row.Float("D_m")) * units.Metre,
			Roughness: units.Length(row.Float("roughness_m")) * units.Metre,
			Density:   units.Density(row.Float("rho_kg_m3")) * units.KilogramPerCubicMetre,
			Viscosity: units.DynamicViscosity(row.Float("mu_Pa_s")) * units.PascalSecond,
		})
		require.NoError(t, err)
		v := units.Velocity(row.Float("v_m_s")) * units.MetrePerSecond
		q := v.Flow(units.CircleArea(p.Config().Bore))
		c.Check(row, "dp_Pa", float64(p.Pressure(q)))
		c.Check(row, "dp_Pa", float64(p.Gradient(q).Over(p.Config().Length)))
		c.Check(row, "v_m_s", float64(p.Velocity(q)))
	}
	c.Require(1e-15, "v_m_s")
	c.Require(1e-12)
}

func TestBends(t *testing.T) {
	c := reference.Compare(t, "fittings_bends")
	for row := range c.Rows() {
		bore := units.Length(row.Float("D_m")) * units.Metre
		radius := units.Length(row.Float("radius_ratio")) * bore
		loss, err := pipe.Bend(units.Angle(row.Float("angle_rad"))*units.Radian, radius, bore, row.Float("f"))
		require.NoError(t, err)
		c.Check(row, "K", loss.Constant)
	}
	c.Require(1e-13)
}

func TestSuddenChanges(t *testing.T) {
	laws := map[string]func(from, to units.Length) (pipe.Loss, error){
		"contraction": pipe.SuddenContraction, "expansion": pipe.SuddenExpansion,
	}
	c := reference.Compare(t, "fittings_changes")
	for row := range c.Rows() {
		from, to := units.Length(row.Float("D1_m")), units.Length(row.Float("D2_m"))
		loss, err := laws[row.Text("fitting")](from, to)
		require.NoError(t, err)
		c.Check(row, "K", loss.Constant)
	}
	c.Require(1e-12)
}

func TestReducers(t *testing.T) {
	laws := map[string]func(from, to units.Length, angle units.Angle, f float64) (pipe.Loss, error){
		"contraction": pipe.GradualContraction, "expansion": pipe.GradualExpansion,
	}
	const f = 0.02 // that of the recording
	c := reference.Compare(t, "fittings_cones")
	for row := range c.Rows() {
		from, to := units.Length(row.Float("D1_m")), units.Length(row.Float("D2_m"))
		loss, err := laws[row.Text("fitting")](from, to, units.Angle(row.Float("angle_rad")), f)
		require.NoError(t, err)
		c.Check(row, "K", loss.Constant)
	}
	c.Require(1e-11)
}

// TestEnds takes a vessel as a bore without end.
func TestEnds(t *testing.T) {
	vessel := units.Length(math.Inf(1))
	inlet, err := pipe.SuddenContraction(vessel, units.Metre)
	require.NoError(t, err)
	outlet, err := pipe.SuddenExpansion(units.Metre, vessel)
	require.NoError(t, err)
	got := map[string]float64{"entrance-sharp Rennels": inlet.Constant, "exit any": outlet.Constant}
	c := reference.Compare(t, "fittings_ends")
	for row := range c.Rows() {
		k, ok := got[row.Text("fitting")+" "+row.Text("method")]
		assert.True(t, ok, row)
		c.Check(row, "K", k)
	}
	c.Require(0.005) // recorded to two digits
	assert.Equal(t, len(got), c.Len())
}

// TestLossOfKv allows 1e-4 on the library's Kv for its rounded density.
func TestLossOfKv(t *testing.T) {
	c := reference.Compare(t, "fittings_kv")
	for row := range c.Rows() {
		kv := row.Float("Kv")
		loss, err := pipe.LossOfKv(units.FlowCoefficient(kv)*units.Kv, units.Length(row.Float("D_m"))*units.Metre)
		require.NoError(t, err)
		c.Check(row, "K", loss.Constant)
		c.Check(row, "Kv_fluids", kv*math.Sqrt(loss.Constant/row.Float("K")))
	}
	c.Require(1.1e-4, "Kv_fluids")
	c.Require(1e-13)
}

func TestFittings(t *testing.T) {
	seen := map[pipe.Fitting]bool{}
	c := reference.Compare(t, "fittings_3k")
	for row := range c.Rows() {
		var f pipe.Fitting
		require.NoError(t, f.UnmarshalText([]byte(row.Text("fitting"))))
		loss, err := f.Loss(units.Length(row.Float("nominal_in")) * units.Inch)
		require.NoError(t, err)
		c.Check(row, "K", loss.At(row.Float("Re")))
		seen[f] = true
	}
	assert.Len(t, seen, len(pipe.Fittings()), "a fitting without a recorded value")
	c.Require(1e-14)
}

func TestRebase(t *testing.T) {
	c := reference.Compare(t, "fittings_basis")
	for row := range c.Rows() {
		loss := pipe.Loss{Constant: row.Float("K1")}
		got := loss.Rebase(units.Length(row.Float("D1_m")), units.Length(row.Float("D2_m")))
		c.Check(row, "K2", got.Constant)
	}
	c.Require(1e-14)
}

// TestRoughness allows for the rounding of Moody's feet to three digits.
func TestRoughness(t *testing.T) {
	c := reference.Compare(t, "pipe_roughness")
	for row := range c.Rows() {
		var m pipe.Material
		require.NoError(t, m.UnmarshalText([]byte(row.Text("material"))))
		c.Check(row, "roughness_m", float64(m.Roughness()))
	}
	c.Require(4e-3)
}

func TestASMEDimensions(t *testing.T) {
	tables := map[string][]pipe.Size{"40": pipe.ASMEB3610Schedule40(), "80": pipe.ASMEB3610Schedule80()}
	c := reference.Compare(t, "pipe_sizes")
	for row := range c.Rows() {
		schedule := row.Text("schedule")
		require.NotEmpty(t, tables[schedule])
		size := tables[schedule][0]
		tables[schedule] = tables[schedule][1:]
		c.Check(row, "nominal_in", size.Nominal.In(units.Inch))
		c.Check(row, "outside_m", float64(size.Outside))
		c.Check(row, "wall_m", float64(size.Wall))
		c.Check(row, "inside_m", float64(size.Bore()))
	}
	c.Require(1e-13)
	assert.Empty(t, tables["40"])
	assert.Empty(t, tables["80"])
}
