package valve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

func TestSettingsMeetTheTable(t *testing.T) {
	v := fanCoilValve()
	for _, row := range fanCoilConfig().Settings {
		for _, set := range []valve.PressureIndependent{
			must(v.WithMark(row.Mark)), must(v.WithFlow(row.Flow)), must(v.WithFlow(row.Flow * (1 + 1e-14))),
		} {
			assert.InEpsilon(t, row.Mark, set.Mark(), 1e-12)
			assert.InEpsilon(t, float64(row.Flow), float64(set.SetFlow()), 1e-12)
			assert.InEpsilon(t, float64(row.MinPressure), float64(set.MinPressure()), 1e-12)
		}
	}
}

// Between marks the flow is linear in the mark, and the least pressure follows p = 12 kPa +
// 4 kPa·(q/0.1 l/s)², from which the table was made.
func TestSettingsBetweenTheMarks(t *testing.T) {
	for mark, litres := range map[float64]float64{35: 0.0375, 60: 0.06, 75: 0.075, 99: 0.099} {
		set := must(fanCoilValve().WithMark(mark))
		assert.InDelta(t, litres, set.SetFlow().In(units.LitrePerSecond), 1e-15)
		assert.InDelta(t, 12+4*math.Pow(litres/0.1, 2), set.MinPressure().In(units.Kilopascal), 1e-12)
	}
}

func TestSettingsBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyIndependent(t)
		set, err := v.WithMark(rapid.Float64Range(1, 5).Draw(t, "mark"))
		require.NoError(t, err)
		byFlow, err := v.WithFlow(set.SetFlow())
		require.NoError(t, err)
		assert.InEpsilon(t, set.Mark(), byFlow.Mark(), 1e-12)
		row, err := v.SettingFor(set.SetFlow())
		require.NoError(t, err)
		assert.Equal(t, byFlow.Mark(), row.Mark)
		assert.Equal(t, byFlow.MinPressure(), row.MinPressure)
		water := must(v.WithDensity(valve.ReferenceDensity))
		assert.Equal(t, must(water.WithFlow(row.Flow)).SetFlow(), row.Flow, "the row is that of the table, whatever the liquid")
		assert.InEpsilon(t, float64(row.Flow), float64(set.SetFlow())*math.Sqrt(float64(v.Density()/valve.ReferenceDensity)), 1e-14)
		byPressure, ok := v.WithMinPressure(set.MinPressure())
		require.True(t, ok)
		assert.InEpsilon(t, set.Mark(), byPressure.Mark(), 1e-9, "the least pressure is flat where the flow is small")

		other, err := v.WithMark(min(set.Mark()+rapid.Float64Range(1e-3, 4).Draw(t, "step"), 5))
		require.NoError(t, err)
		if other.Mark() > set.Mark() {
			assert.Greater(t, other.SetFlow(), set.SetFlow())
			assert.Greater(t, other.MinPressure(), set.MinPressure())
		}
	})
}

func TestWithMinPressure(t *testing.T) {
	v := independentOf(t, []float64{0.02, 0.05, 0.08, 0.1}, []float64{16, 22, 18, 24})
	for kilopascals, mark := range map[float64]float64{16: 1, 30: 4, 24: 4, 18: 3} {
		set, ok := v.WithMinPressure(units.Pressure(kilopascals) * units.Kilopascal)
		require.True(t, ok)
		assert.InDelta(t, mark, set.Mark(), 1e-12, "%v kPa", kilopascals)
	}
	between, ok := v.WithMinPressure(17 * units.Kilopascal)
	require.True(t, ok)
	assert.InDelta(t, 17, between.MinPressure().In(units.Kilopascal), 1e-12)
	assert.True(t, between.Mark() > 1 && between.Mark() < 2)
	_, ok = v.WithMinPressure(15 * units.Kilopascal)
	assert.False(t, ok)
	_, ok = v.WithMinPressure(units.Pressure(math.NaN()))
	assert.False(t, ok)
}

func TestSettingsOutsideTheTable(t *testing.T) {
	v := fanCoilValve()
	for _, q := range []units.Flow{0.02 * units.LitrePerSecond, 0.11 * units.LitrePerSecond, -1, units.Flow(math.NaN())} {
		_, err := v.WithFlow(q)
		var unreachable *valve.UnreachableError
		require.ErrorAs(t, err, &unreachable)
		assert.InDelta(t, 0.025, unreachable.Least.In(units.LitrePerSecond), 1e-15)
		assert.InDelta(t, 0.1, unreachable.Greatest.In(units.LitrePerSecond), 1e-15)
	}
	for _, mark := range []float64{19, 101, math.NaN(), math.Inf(1)} {
		_, err := v.WithMark(mark)
		assert.ErrorContains(t, err, "a mark of 20 … 100")
	}
}
