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

func globes(kvs ...units.FlowCoefficient) []valve.Candidate {
	var list []valve.Candidate
	for _, kv := range kvs {
		cfg := twoWayConfig(valve.EqualPercentage(50))
		cfg.Kvs = kv
		list = append(list, valve.Candidate{Name: kv.String(), Valve: must(valve.NewTwoWay(cfg))})
	}
	return list
}

// regulating are valves with settings from a fifth of the flow up to it.
func regulating(kilopascals float64, litres ...float64) []valve.Candidate {
	var list []valve.Candidate
	for _, q := range litres {
		cfg := fanCoilConfig()
		flow := units.Flow(q) * units.LitrePerSecond
		dp := units.Pressure(kilopascals) * units.Kilopascal
		cfg.Settings = []valve.Setting{{Mark: 1, Flow: flow / 5, MinPressure: dp}, {Mark: 5, Flow: flow, MinPressure: dp}}
		list = append(list, valve.Candidate{Name: flow.Fixed(units.LitrePerSecond, 2), Valve: must(valve.NewPressureIndependent(cfg))})
	}
	return list
}

// 0.3 l/s = 1.08 m³/h. What is left to the valve is 25 kPa: Kv 2.16 at least, by hand.
func TestSelectTwoWay(t *testing.T) {
	sel, err := valve.Select(coilDuty(), globes(6.3, 1, 4, 2.5, 1.6), 9)
	require.NoError(t, err)
	assert.Equal(t, "2.5 Kv", sel.Best.Name)
	assert.Equal(t, 3, sel.Best.Index)
	assert.Equal(t, valve.NoProblem, sel.Best.Problem)
	drop := 100 * math.Pow(1.08/2.5, 2) // kPa
	assert.InDelta(t, drop, sel.Best.Pressure.In(units.Kilopascal), 1e-12)
	assert.InDelta(t, 25-drop, sel.Best.Margin.In(units.Kilopascal), 1e-12)
	assert.InDelta(t, drop/(drop+15), sel.Best.Authority.Open, 1e-14)
	assert.InDelta(t, drop/40, sel.Best.Authority.Design, 1e-14)
	assert.InDelta(t, math.Sqrt(25/drop), sel.Best.Surplus, 1e-14)
	assert.InDelta(t, 2.5, float64(sel.Valve.(valve.TwoWay).Kvs()), 0)

	names := []string{}
	problems := []valve.Problem{}
	for _, v := range sel.RunnersUp {
		names, problems = append(names, v.Name), append(problems, v.Problem)
	}
	assert.Equal(t, []string{"4 Kv", "6.3 Kv", "1.6 Kv", "1 Kv"}, names)
	assert.Equal(t, []valve.Problem{valve.AuthorityTooLow, valve.AuthorityTooLow, valve.PressureTooLow, valve.PressureTooLow}, problems)
}

// Without a pressure to spend the greatest Kvs with the authority wins: 15 kPa and N = 0.3 ask
// for 6.43 kPa, Kv 4.26 at most, by hand.
func TestSelectTwoWayForAuthority(t *testing.T) {
	duty := coilDuty()
	duty.Available = 0
	sel := must(valve.Select(duty, globes(2.5, 4, 6.3), 2))
	assert.Equal(t, "4 Kv", sel.Best.Name)
	assert.Contains(t, sel.WhyNot(0), "2.5 Kv: suits too, but needs more pressure: drops 18.66 kPa")
	assert.Contains(t, sel.WhyNot(1), "6.3 Kv: authority too low: drops 2.939 kPa")
}

func TestSelectPressureIndependent(t *testing.T) {
	duty := coilDuty()
	sel := must(valve.Select(duty, regulating(18, 0.2, 2, 0.5, 0.35), 9))
	assert.Equal(t, "0.35 l/s", sel.Best.Name)
	assert.InDelta(t, 18, sel.Best.Pressure.In(units.Kilopascal), 1e-12)
	assert.InDelta(t, 7, sel.Best.Margin.In(units.Kilopascal), 1e-12)
	set := sel.Valve.(valve.PressureIndependent)
	assert.InDelta(t, 0.3, set.SetFlow().In(units.LitrePerSecond), 1e-15)
	assert.InDelta(t, sel.Best.Mark, set.Mark(), 0)
	assert.InDelta(t, 1+4*(0.3-0.07)/0.28, set.Mark(), 1e-12)
	assert.Equal(t, "0.35 l/s: suits: setting 4.286 needs 18 kPa, highest setting is 1.17 times the flow", sel.Reason())
	assert.Contains(t, sel.WhyNot(0), "0.50 l/s: suits too, but is larger than needed")
	assert.Equal(t, "2.00 l/s: its lowest setting is 1.33 times the flow", sel.WhyNot(1))
	assert.Equal(t, "0.20 l/s: its highest setting is 0.667 times the flow", sel.WhyNot(2))
}

func TestSelectNothingSuits(t *testing.T) {
	sel := must(valve.Select(coilDuty(), regulating(26, 0.35), 3))
	assert.Equal(t, valve.PressureTooLow, sel.Best.Problem)
	assert.Equal(t, "0.35 l/s: no candidate suits, this one is nearest: needs 26 kPa, which is 1 kPa more than is left to it", sel.Reason())
	assert.NotNil(t, sel.Valve, "set all the same")

	sel = must(valve.Select(coilDuty(), regulating(18, 0.1, 0.2), 3))
	assert.Equal(t, "0.20 l/s", sel.Best.Name)
	assert.Equal(t, valve.FlowAboveSettings, sel.Best.Problem)
	assert.Nil(t, sel.Valve, "the flow cannot be set")

	duty := coilDuty()
	duty.Shut = 6 * units.Bar
	sel = must(valve.Select(duty, globes(2.5), 3))
	assert.Equal(t, valve.RatingExceeded, sel.Best.Problem)
	assert.Contains(t, sel.Reason(), "rated for")
}

func TestSelectPrefersTheEarlierOfEquals(t *testing.T) {
	list := globes(2.5, 2.5)
	list[0].Name, list[1].Name = "first", "second"
	sel := must(valve.Select(coilDuty(), list, 1))
	assert.Equal(t, "first", sel.Best.Name)
	assert.Equal(t, "second: suits as well, but is later in the list", sel.WhyNot(0))
}

// Glycol of 1050 kg/m³ drops more through the same Kv, and moves the dial.
func TestSelectDensity(t *testing.T) {
	duty := coilDuty()
	plain := must(valve.Select(duty, globes(2.5), 0))
	duty.Density = 1050
	heavy := must(valve.Select(duty, globes(2.5), 0))
	assert.InEpsilon(t, 1050/999.10, float64(heavy.Best.Pressure/plain.Best.Pressure), 1e-14)
	assert.InDelta(t, 1050, float64(heavy.Valve.(valve.TwoWay).Density()), 0)
	indep := must(valve.Select(duty, regulating(18, 0.35), 0)).Valve.(valve.PressureIndependent)
	assert.InEpsilon(t, 0.3, indep.SetFlow().In(units.LitrePerSecond), 1e-14)
	assert.InDelta(t, 1050, float64(indep.Density()), 0)
}

// Whatever the number of runners-up, the ranking is the same and each verdict
// on a valve that suits keeps its promise.
func TestSelectRanking(t *testing.T) {
	list := catalogue()
	rapid.Check(t, func(t *rapid.T) {
		duty := valve.Duty{
			Branch: valve.Branch{
				Flow:      units.Flow(math.Pow(10, rapid.Float64Range(-2, 0.3).Draw(t, "lg q"))) * units.LitrePerSecond,
				Drop:      units.Pressure(rapid.Float64Range(0, 30).Draw(t, "drop")) * units.Kilopascal,
				Available: units.Pressure(rapid.Float64Range(10, 80).Draw(t, "available")) * units.Kilopascal,
			},
			Authority: rapid.Float64Range(0, 0.6).Draw(t, "authority"),
		}
		all, err := valve.Select(duty, list, len(list))
		require.NoError(t, err)
		require.Len(t, all.RunnersUp, len(list)-1)
		few, err := valve.Select(duty, list, rapid.IntRange(0, 10).Draw(t, "runners-up"))
		require.NoError(t, err)
		assert.Equal(t, all.Best, few.Best)
		assert.Equal(t, all.RunnersUp[:len(few.RunnersUp)], few.RunnersUp)
		last := all.Best
		for _, v := range all.RunnersUp {
			assert.LessOrEqual(t, last.Problem, v.Problem)
			last = v
		}
		if all.Best.Problem == valve.NoProblem {
			left := duty.Available - duty.Drop
			assert.GreaterOrEqual(t, float64(all.Valve.GreatestFlow(left)), float64(duty.Flow)*(1-1e-9))
		}
	})
}

func TestSelectFaults(t *testing.T) {
	duty := coilDuty()
	duty.Flow, duty.Authority, duty.Shut, duty.Density = 0, 1, -1, -1
	_, err := valve.Select(duty, nil, 0)
	assert.ElementsMatch(t, []string{"Branch.Flow", "Duty.Authority", "Duty.Shut", "Density", "candidates"}, faulty(err))

	_, err = valve.Select(coilDuty(), []valve.Candidate{{}, {Valve: valve.TwoWay{}}, {Valve: valve.PressureIndependent{}}, globes(4)[0]}, 0)
	assert.Equal(t, []string{"candidates[0].Valve", "candidates[1].Valve", "candidates[2].Valve"}, faulty(err))

	duty = coilDuty()
	duty.Available, duty.Authority = 0, 0
	_, err = valve.Select(duty, globes(4), 0)
	assert.ErrorContains(t, err, "both Drop and Authority")
	_, err = valve.Select(duty, regulating(18, 0.35), 0)
	assert.NoError(t, err, "a setting needs the flow alone")
}
