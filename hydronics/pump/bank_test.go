package pump_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/pump"
	"github.com/indexrun/indexrun/units"
)

func mustParallel(t require.TestingT, pumps ...pump.Pump) pump.Bank {
	b, err := pump.Parallel(pumps...)
	require.NoError(t, err)
	return b
}

func drawPumps(t *rapid.T) []pump.Pump {
	pumps := []pump.Pump{drawPump(t, "first"), drawPump(t, "second")}
	if rapid.Bool().Draw(t, "third") {
		pumps = append(pumps, pumps[0])
	}
	return pumps
}

func TestParallelFlowsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pumps := drawPumps(t)
		bank := mustParallel(t, pumps...)
		head := units.Pressure(rapid.Float64Range(0, 0.999).Draw(t, "head")) * bank.ShutOff()
		q := bank.Flow(head)
		var sum units.Flow
		for i, p := range pumps {
			state := bank.Pump(i, q)
			sum += state.Flow
			if p.ShutOff() > head*(1+1e-9) {
				assert.InDelta(t, float64(p.Flow(head)), float64(state.Flow), 1e-6*float64(p.Runout()))
				assert.NotEqual(t, pump.NoFlow, state.Status)
			}
			if p.ShutOff() < head*(1-1e-9) {
				assert.Equal(t, pump.NoFlow, state.Status)
			}
		}
		assert.InDelta(t, float64(q), float64(sum), 1e-5*float64(pumps[0].Runout()+pumps[1].Runout()))
		assert.InDelta(t, float64(head), float64(bank.Head(q)), 1e-12*float64(bank.ShutOff()))
	})
}

func TestBankIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pumps := drawPumps(t)
		series, err := pump.Series(pumps...)
		require.NoError(t, err)
		for _, bank := range []pump.Bank{mustParallel(t, pumps...), series, mustParallel(t, pumps[0], pumps[0])} {
			end := bank.Flow(0)
			before := bank.Head(-0.5 * end)
			for x := -0.45; x < 1.5; x += 0.05 {
				q := units.Flow(x) * end
				require.Less(t, bank.Head(q), before)
				require.Negative(t, bank.HeadSlope(q))
				require.InEpsilon(t, 1, bank.HeadSlope(q)*bank.Slope(bank.Head(q)), 1e-4)
				before = bank.Head(q)
			}
		}
	})
}

// TestEqualPumps: two equal pumps are found by a closed form, two that differ by
// nothing to speak of by a search.
func TestEqualPumps(t *testing.T) {
	p := mustPump(t, circulator())
	twin, err := p.AtSpeed(1 + 1e-15)
	require.NoError(t, err)
	closed, searched := mustParallel(t, p, p), mustParallel(t, p, twin)
	for x := -0.01; x < 5; x += 0.0137 {
		assert.InEpsilon(t, float64(closed.Head(litres(x))), float64(searched.Head(litres(x))), 1e-12)
		assert.InEpsilon(t, closed.HeadSlope(litres(x)), searched.HeadSlope(litres(x)), 1e-7)
	}
	system := mustSystem(t, 0, litres(3), 40*units.Kilopascal)
	assert.InEpsilon(t, float64(closed.Operate(system).Flow), float64(searched.Operate(system).Flow), 1e-12)
}

func TestSeriesHeadsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pumps := drawPumps(t)
		bank, err := pump.Series(pumps...)
		require.NoError(t, err)
		q := units.Flow(rapid.Float64Range(-1, 1).Draw(t, "flow")) * min(pumps[0].Runout(), pumps[1].Runout())
		var sum units.Pressure
		for i := range pumps {
			assert.Equal(t, q, bank.Pump(i, q).Flow)
			sum += bank.Pump(i, q).Head
		}
		assert.InDelta(t, float64(sum), float64(bank.Head(q)), 1e-8*float64(bank.ShutOff()))
	})
}

func TestBankOperatingPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pumps := drawPumps(t)
		series, err := pump.Series(pumps...)
		require.NoError(t, err)
		for _, bank := range []pump.Bank{mustParallel(t, pumps...), series} {
			static := units.Pressure(rapid.Float64Range(0, 0.99).Draw(t, "static")) * bank.ShutOff()
			loss := units.Pressure(math.Pow(10, rapid.Float64Range(-4, 4).Draw(t, "log loss"))) * bank.ShutOff()
			system := mustSystem(t, static, bank.Flow(0), loss)
			got := bank.Operate(system)
			assert.InDelta(t, 0, float64((got.Head-system.Pressure(got.Flow))/bank.ShutOff()), 1e-12)
		}
	})
}

// TestBankPowerBalance: the sums are those of the pumps, and the efficiency is
// what of them reaches the water.
func TestBankPowerBalance(t *testing.T) {
	strong := mustPump(t, circulator())
	weak, err := strong.AtSpeed(0.8)
	require.NoError(t, err)
	series, err := pump.Series(strong, weak)
	require.NoError(t, err)
	for _, bank := range []pump.Bank{mustParallel(t, strong, weak), series} {
		for _, q := range []float64{0.3, 0.9, 1.4} {
			state := bank.State(litres(q))
			one, two := bank.Pump(0, litres(q)), bank.Pump(1, litres(q))
			assert.InEpsilon(t, float64(one.Shaft+two.Shaft), float64(state.Shaft), 1e-12)
			assert.InEpsilon(t, float64(one.Electric+two.Electric), float64(state.Electric), 1e-12)
			assert.InEpsilon(t, float64(one.Hydraulic()+two.Hydraulic()), state.Efficiency*float64(state.Shaft), 1e-6)
			assert.True(t, math.IsNaN(state.Speed))
		}
	}
	assert.Equal(t, pump.NoFlow, mustParallel(t, strong, weak).Pump(1, litres(0.3)).Status)
}

func TestBankStatus(t *testing.T) {
	p := mustPump(t, circulator())
	bank := mustParallel(t, p, p)
	assert.Equal(t, pump.Normal, bank.State(litres(3.9)).Status)
	assert.Equal(t, pump.BeyondCurve, bank.State(litres(4.1)).Status)
	assert.Equal(t, 1.0, bank.State(litres(1)).Speed)
	stopped := bank.Operate(mustSystem(t, p.ShutOff(), litres(1), 10*units.Kilopascal))
	assert.Equal(t, pump.NoFlow, stopped.Status)
	assert.Zero(t, stopped.Flow)
	assert.Equal(t, 2, bank.Len())
	assert.Equal(t, pump.State{}, bank.Pump(2, litres(1)))
	assert.Equal(t, pump.State{}, bank.Pump(-1, litres(1)))
}

func TestBankDomain(t *testing.T) {
	_, err := pump.Parallel()
	require.ErrorIs(t, err, units.ErrInvalid)
	_, err = pump.Series(mustPump(t, circulator()), pump.Pump{})
	assert.EqualError(t, err, "pump: pumps[1]: got the zero Pump, want a pump made by New")
	p := mustPump(t, circulator())
	series, err := pump.Series(p, p)
	require.NoError(t, err)
	assert.True(t, mustParallel(t, p, p).Equal(mustParallel(t, p, p)))
	assert.False(t, mustParallel(t, p, p).Equal(series))
	assert.False(t, mustParallel(t, p, p).Equal(mustParallel(t, p)))
}
