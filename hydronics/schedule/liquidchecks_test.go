package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
	"github.com/indexrun/indexrun/valve/noise"
	"github.com/indexrun/indexrun/valve/sizing"
)

// The shortcut of judgeNoise: below quietPower a valve that does not cavitate stays
// below quietLevel, by IEC 60534-8-4 itself.
func TestQuietPowerIsQuiet(t *testing.T) {
	loudest := 0.0
	rapid.Check(t, func(t *rapid.T) {
		drop := units.Pressure(rapid.Float64Range(2, 400).Draw(t, "drop")) * units.Kilopascal
		flow := units.Flow(float64(quietPower) * rapid.Float64Range(0.05, 1).Draw(t, "share") / float64(drop))
		// A connection of 0.3 to 3 m/s.
		bore := units.Area(float64(flow) / rapid.Float64Range(0.3, 3).Draw(t, "velocity")).CircleDiameter()
		inlet := units.Absolute(drop + units.Pressure(rapid.Float64Range(100, 1500).Draw(t, "outlet"))*units.Kilopascal)
		style := rapid.SampledFrom([]sizing.Style{sizing.GlobeContouredOpening, sizing.BallSegmented}).Draw(t, "style")
		c := sizing.Case{
			Liquid: sizing.Liquid{Density: 998, VapourPressure: units.Absolute(2.3 * units.Kilopascal), Viscosity: units.SquareMillimetrePerSecond},
			Inlet:  inlet, Outlet: inlet.Add(-drop), Valve: style.Valve(bore), InletPipe: bore, OutletPipe: bore,
		}
		kv := valve.CoefficientFor(flow, drop, 998)
		cavitation, err := sizing.CavitationAt(kv, c)
		require.NoError(t, err)
		if cavitation.State != sizing.NotCavitating {
			t.Skip("cavitating")
		}
		r, err := noise.Predict(noise.Config{Case: c, Kv: kv, Flow: flow, Pipe: noise.Pipe{Wall: usualWall}})
		require.NoError(t, err)
		loudest = max(loudest, r.Level)
		require.Less(t, SoundLevel(r.Level), quietLevel)
	})
	t.Logf("loudest %.0f dB(A)", loudest)
}

// The Reynolds factor solves the standard's own equations at the design flow.
func TestReynoldsFactorIsThatOfTheDesignFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := &ValveModel{Connection: 15 * units.Millimetre, Kvs: units.FlowCoefficient(rapid.Float64Range(0.1, 2).Draw(t, "kvs"))}
		n := &need{row: &Row{StaticPressure: units.Gauge(100 * units.Bar)}, flow: units.Flow(rapid.Float64Range(1, 300).Draw(t, "flow")) * units.LitrePerHour}
		duty := Duty{Heat: units.Kilowatt, Supply: units.Celsius(-5), Return: units.Celsius(-2)}
		row := Row{}
		require.NoError(t, row.Fluid.UnmarshalText([]byte("propylene glycol 50 % mass")))
		design, err := duty.designFlow(&row)
		require.NoError(t, err)
		n.liquid, n.density = design.Liquid, design.Density
		factor := m.reynoldsFactor(m.Kvs, n.flow, &n.liquid)
		drop := valve.PressureDrop(m.Kvs*units.FlowCoefficient(factor), n.flow, n.density)
		if drop > 50*units.Bar {
			t.Skip("no valve for that flow")
		}
		r, err := sizing.Flow(m.Kvs, m.sizingCase(n.row.StaticPressure, drop, &n.liquid))
		require.NoError(t, err)
		require.InEpsilon(t, float64(n.flow), float64(r.Flow), 1e-5)
		require.LessOrEqual(t, factor, 1.0)
	})
}

// More pressure over a valve never takes a noise warning away: deep in cavitation the
// level of the standard's method falls again.
func TestMorePressureIsNoQuieterPlan(t *testing.T) {
	model := ValveModel{Kind: PressureIndependent, Connection: 16 * units.Millimetre}
	duty := Duty{Heat: 8 * units.Kilowatt, Supply: units.Celsius(80), Return: units.Celsius(60)}
	design, err := duty.designFlow(&Row{})
	require.NoError(t, err)
	last, warned := 0.0, 0
	for drop := 20 * units.Kilopascal; drop < 331*units.Kilopascal; drop += 2 * units.Kilopascal {
		n := need{
			row:  &Row{StaticPressure: units.Gauge(250 * units.Kilopascal), NoiseLimit: 10},
			flow: design.Flow, density: design.Density, liquid: design.Liquid, has: drop, total: drop,
		}
		fit := valveFit{flow: n.flow, needs: 15 * units.Kilopascal, viscous: 1}
		var found findings
		model.judgeCavitation(&n, &fit, &found)
		found.reset()
		model.judgeNoise(&n, &fit, &found)
		if len(found.list) == 0 {
			require.Zero(t, warned, "%v", drop)
			continue
		}
		require.Equal(t, Noise, found.list[0].Kind)
		require.GreaterOrEqual(t, found.list[0].Got.x, last-1e-3, "%v", drop)
		last, warned = found.list[0].Got.x, warned+1
	}
	require.Greater(t, warned, 50)
}
