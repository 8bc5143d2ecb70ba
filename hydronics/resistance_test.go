package hydronics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

func TestResistanceAtItsDesignPoint(t *testing.T) {
	r, err := hydronics.ResistanceAt(0.12*units.LitrePerSecond, 24*units.Kilopascal)
	require.NoError(t, err)
	assert.InEpsilon(t, 24e3, float64(r.Pressure(0.12*units.LitrePerSecond)), 1e-14)
	assert.InEpsilon(t, 6e3, float64(r.Pressure(0.06*units.LitrePerSecond)), 1e-14)
	assert.InEpsilon(t, -6e3, float64(r.Pressure(-0.06*units.LitrePerSecond)), 1e-14)
}

func TestResistanceRefuses(t *testing.T) {
	for _, bad := range []struct {
		q  units.Flow
		dp units.Pressure
	}{{0, 1}, {-1, 1}, {1, -1}, {units.Flow(math.NaN()), 1}, {1, units.Pressure(math.Inf(1))}} {
		_, err := hydronics.ResistanceAt(bad.q, bad.dp)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
}

// Kirchhoff's laws, term by term: in series the pressures add up at one flow, in
// parallel the flows at one pressure.
func TestSeriesAndParallelObeyTheSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := rapid.Float64Range(1e9, 1e14)
		a, b := hydronics.Resistance(draw.Draw(t, "a")), hydronics.Resistance(draw.Draw(t, "b"))
		q := units.Flow(rapid.Float64Range(1e-5, 1e-2).Draw(t, "q"))
		dp := units.Pressure(rapid.Float64Range(10, 1e6).Draw(t, "dp"))
		if sum := a.Pressure(q) + b.Pressure(q); sum > 10 && a.Pressure(q) > 1 && b.Pressure(q) > 1 {
			assert.InEpsilon(t, float64(sum), float64(hydronics.Series(a, b).Pressure(q)), 1e-12)
		}
		assert.InEpsilon(t, float64(a.Flow(dp)+b.Flow(dp)), float64(hydronics.Parallel(a, b).Flow(dp)), 1e-12)
	})
}

func TestNoResistance(t *testing.T) {
	assert.Zero(t, hydronics.Series())
	assert.True(t, math.IsInf(float64(hydronics.Parallel()), 1))
	none := hydronics.Resistance(0)
	assert.Zero(t, none.Pressure(units.LitrePerSecond))
	assert.Zero(t, none.Flow(0))
	assert.True(t, math.IsInf(float64(none.Flow(1)), 1))
	assert.Zero(t, hydronics.Parallel(none, 1e12))
}

func TestResistanceIsAStrictlyIncreasingLaw(t *testing.T) {
	const r = hydronics.Resistance(1e12)
	last := r.Flow(-10)
	for dp := -10.0; dp <= 10; dp += 0.01 {
		q := r.Flow(units.Pressure(dp))
		if dp > -10 {
			require.Greater(t, q, last)
		}
		require.InDelta(t, dp, float64(r.Pressure(q)), 1e-11)
		last = q
	}
	const h = 1e-5
	for _, dp := range []float64{0, 0.3, 2, 1e4} {
		slope := float64(r.Flow(units.Pressure(dp+h))-r.Flow(units.Pressure(dp-h))) / (2 * h)
		assert.InEpsilon(t, slope, r.Slope(units.Pressure(dp)), 1e-4)
	}
}

// Outside check: a valve and a fixed resistance in series, solved at 40 digits by
// another tool.
func TestBranchAgainstRecording(t *testing.T) {
	c := reference.Compare(t, "installed")
	for row := range c.Rows() {
		density := units.Density(row.Float("rho_kg_m3"))
		val, err := valve.NewTwoWay(valve.TwoWayConfig{
			Kvs: units.FlowCoefficient(row.Float("Kvs")), Curve: valve.Linear(math.Inf(1)), ClosingTravel: 1e-6,
			Stroke: 5 * units.Millimetre, Density: density,
		})
		require.NoError(t, err)
		total := units.Pressure(row.Float("dp_total_Pa"))
		kvRest := units.FlowCoefficient(row.Float("Kv_rest"))
		rest, err := hydronics.ResistanceAt(valve.FlowThrough(kvRest, total, density), total)
		require.NoError(t, err)
		q := hydronics.BranchFlow(val, rest, row.Float("phi"), total)
		c.Check(row, "q_m3_s", float64(q))

		authority, err := hydronics.CircuitAuthority(val, rest, units.Flow(row.Float("q_open_m3_s")), total)
		require.NoError(t, err)
		c.Check(row, "authority", authority.Open)
		c.Check(row, "authority", authority.Design)
	}
	c.Require(1e-11)
}
