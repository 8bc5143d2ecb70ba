package pipe_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

// recorded reads a table of this package's testdata.
func recorded(t *testing.T, name string) reference.Table {
	t.Helper()
	file, err := os.Open("testdata/" + name + ".csv")
	require.NoError(t, err)
	defer file.Close()
	table, err := reference.Parse(name, file)
	require.NoError(t, err)
	return table
}

// agree checks a value against a recorded one and keeps the worst difference.
func agree(t *testing.T, worst *float64, row reference.Row, got, want, tolerance float64) {
	t.Helper()
	diff := reference.RelDiff(got, want)
	*worst = max(*worst, diff)
	assert.LessOrEqual(t, diff, tolerance, "got %v, want %v for %v", got, want, row)
}

func TestColebrookAgainstFortyDigits(t *testing.T) {
	var worst, library float64
	for row := range reference.Must(t, "friction").Rows() {
		f, err := pipe.Colebrook(row.Float("Re"), row.Float("eD"))
		require.NoError(t, err)
		agree(t, &worst, row, f, row.Float("f"), 2e-15)
		agree(t, &library, row, f, row.Float("f_fluids"), 1e-12)
		blended, err := pipe.FrictionFactor(row.Float("Re"), row.Float("eD"))
		require.NoError(t, err)
		agree(t, &worst, row, blended, row.Float("f"), 2e-15)
	}
	t.Logf("worst relative difference: %.2g from 40 digits, %.2g from the library", worst, library)
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
	var worst float64
	for row := range reference.Must(t, "friction_laminar").Rows() {
		f, err := pipe.FrictionFactor(row.Float("Re"), 0.01)
		require.NoError(t, err)
		agree(t, &worst, row, f, row.Float("f"), 2e-15)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

func TestPressureOfStraightPipe(t *testing.T) {
	var worst float64
	for row := range reference.Must(t, "friction_drop").Rows() {
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
		agree(t, &worst, row, float64(p.Pressure(q)), row.Float("dp_Pa"), 1e-12)
		agree(t, &worst, row, float64(p.Gradient(q).Over(p.Config().Length)), row.Float("dp_Pa"), 1e-12)
		agree(t, &worst, row, float64(p.Velocity(q)), row.Float("v_m_s"), 1e-15)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

func TestBends(t *testing.T) {
	var worst float64
	for row := range reference.Must(t, "fittings_bends").Rows() {
		bore := units.Length(row.Float("D_m")) * units.Metre
		radius := units.Length(row.Float("radius_ratio")) * bore
		loss, err := pipe.Bend(units.Angle(row.Float("angle_rad"))*units.Radian, radius, bore, row.Float("f"))
		require.NoError(t, err)
		agree(t, &worst, row, loss.Constant, row.Float("K"), 1e-13)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

func TestSuddenChanges(t *testing.T) {
	laws := map[string]func(from, to units.Length) (pipe.Loss, error){
		"contraction": pipe.SuddenContraction, "expansion": pipe.SuddenExpansion,
	}
	var worst float64
	for row := range reference.Must(t, "fittings_changes").Rows() {
		from, to := units.Length(row.Float("D1_m")), units.Length(row.Float("D2_m"))
		loss, err := laws[row.Text("fitting")](from, to)
		require.NoError(t, err)
		agree(t, &worst, row, loss.Constant, row.Float("K"), 1e-12)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

func TestReducers(t *testing.T) {
	laws := map[string]func(from, to units.Length, angle units.Angle, f float64) (pipe.Loss, error){
		"contraction": pipe.GradualContraction, "expansion": pipe.GradualExpansion,
	}
	const f = 0.02 // that of the recording
	var worst float64
	for row := range reference.Must(t, "fittings_cones").Rows() {
		from, to := units.Length(row.Float("D1_m")), units.Length(row.Float("D2_m"))
		loss, err := laws[row.Text("fitting")](from, to, units.Angle(row.Float("angle_rad")), f)
		require.NoError(t, err)
		agree(t, &worst, row, loss.Constant, row.Float("K"), 1e-11)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

// TestEnds takes a vessel as a bore without end.
func TestEnds(t *testing.T) {
	vessel := units.Length(math.Inf(1))
	inlet, err := pipe.SuddenContraction(vessel, units.Metre)
	require.NoError(t, err)
	outlet, err := pipe.SuddenExpansion(units.Metre, vessel)
	require.NoError(t, err)
	got := map[string]float64{"entrance-sharp Rennels": inlet.Constant, "exit any": outlet.Constant}
	found := 0
	for row := range reference.Must(t, "fittings_ends").Rows() {
		if k, ok := got[row.Text("fitting")+" "+row.Text("method")]; ok {
			assert.InDelta(t, row.Float("K"), k, 0.005, "%v", row) // recorded to two digits
			found++
		}
	}
	assert.Equal(t, len(got), found)
}

// TestLossOfKv allows 2e-4 on K for the library's rounded density.
func TestLossOfKv(t *testing.T) {
	var worst float64
	for row := range reference.Must(t, "fittings_kv").Rows() {
		kv := units.FlowCoefficient(row.Float("Kv")) * units.Kv
		loss, err := pipe.LossOfKv(kv, units.Length(row.Float("D_m"))*units.Metre)
		require.NoError(t, err)
		agree(t, &worst, row, loss.Constant, row.Float("K"), 2.1e-4)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

func TestFittings(t *testing.T) {
	var worst float64
	seen := map[pipe.Fitting]bool{}
	for row := range recorded(t, "fittings_3k").Rows() {
		var f pipe.Fitting
		require.NoError(t, f.UnmarshalText([]byte(row.Text("fitting"))))
		loss, err := f.Loss(units.Length(row.Float("nominal_in")) * units.Inch)
		require.NoError(t, err)
		agree(t, &worst, row, loss.At(row.Float("Re")), row.Float("K"), 1e-14)
		seen[f] = true
	}
	assert.Len(t, seen, len(pipe.Fittings()), "a fitting without a recorded value")
	t.Logf("worst relative difference: %.2g", worst)
}

func TestRebase(t *testing.T) {
	var worst float64
	for row := range recorded(t, "basis").Rows() {
		loss := pipe.Loss{Constant: row.Float("K1")}
		got := loss.Rebase(units.Length(row.Float("D1_m")), units.Length(row.Float("D2_m")))
		agree(t, &worst, row, got.Constant, row.Float("K2"), 1e-14)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

// TestRoughness allows for the rounding of Moody's feet to three digits.
func TestRoughness(t *testing.T) {
	var worst float64
	for row := range recorded(t, "roughness").Rows() {
		var m pipe.Material
		require.NoError(t, m.UnmarshalText([]byte(row.Text("material"))))
		agree(t, &worst, row, float64(m.Roughness()), row.Float("roughness_m"), 4e-3)
	}
	t.Logf("worst relative difference: %.2g", worst)
}

func TestASMEDimensions(t *testing.T) {
	tables := map[string][]pipe.Size{"40": pipe.ASMEB3610Schedule40(), "80": pipe.ASMEB3610Schedule80()}
	for row := range recorded(t, "asme_b3610").Rows() {
		schedule := row.Text("schedule")
		require.NotEmpty(t, tables[schedule])
		size := tables[schedule][0]
		tables[schedule] = tables[schedule][1:]
		assert.InDelta(t, row.Float("nominal_in"), size.Nominal.In(units.Inch), 1e-12, "%v", row)
		assert.InDelta(t, row.Float("outside_m"), float64(size.Outside), 1e-9, "%v", row)
		assert.InDelta(t, row.Float("wall_m"), float64(size.Wall), 1e-9, "%v", row)
		assert.InDelta(t, row.Float("inside_m"), float64(size.Bore()), 1e-9, "%v", row)
	}
	assert.Empty(t, tables["40"])
	assert.Empty(t, tables["80"])
}
