package valve_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The three-way valves of these tests are invented.

func threeWayConfig(control, bypass valve.Characteristic) valve.ThreeWayConfig {
	return valve.ThreeWayConfig{
		Control: valve.PortConfig{Kvs: 6.3 * units.Kv, Curve: control, SeatArea: 3 * units.SquareCentimetre},
		Bypass:  valve.PortConfig{Curve: bypass},
		Stroke:  15 * units.Millimetre, MaxPressure: 2 * units.Bar, SpringForce: 50 * units.Newton,
	}
}

func idealLinear() valve.Characteristic { return valve.Linear(math.Inf(1)) }

func complementary(control valve.Characteristic, leakage units.Ratio) valve.ThreeWayConfig {
	cfg := threeWayConfig(control, valve.Characteristic{})
	cfg.ComplementaryBypass = true
	cfg.Control.Leakage, cfg.Bypass.Leakage = leakage, leakage
	return cfg
}

// The total coefficient half way, by hand from the laws of IEC 60534-2-4:
//
//	ideal linear both          0.5 + 0.5
//	linear 50 both             2·(0.02 + 0.98/2)
//	equal percentage 50 both   2/√50
//	equal percentage, linear   1/√50 + 0.5
//
// That linear ports keep the sum and equal-percentage ports lose most of it half
// way is common practice, no published source.
func TestTotalCoefficientHalfWay(t *testing.T) {
	for _, c := range []struct {
		name            string
		control, bypass valve.Characteristic
		want            float64
	}{
		{"ideal linear both", idealLinear(), idealLinear(), 1},
		{"linear both", valve.Linear(50), valve.Linear(50), 1.02},
		{"equal percentage both", valve.EqualPercentage(50), valve.EqualPercentage(50), 0.282842712},
		{"equal percentage, linear", valve.EqualPercentage(50), idealLinear(), 0.641421356},
	} {
		v := must(valve.NewThreeWay(threeWayConfig(c.control, c.bypass)))
		assert.InDelta(t, c.want*6.3, float64(v.TotalCoefficient(0.5)), 1e-8, c.name)
	}
}

// Total flow half way at one authority in both circuits: the sums, by hand, of
// installed values that the project's designers computed for each port (q/q100 =
// 0.6325 at an authority of 0.5 and 0.8771 at 0.1 for ideal linear ports, 0.1980
// at 0.5 for equal percentage of 50).
func TestInstalledTotalHalfWay(t *testing.T) {
	for _, c := range []struct {
		name            string
		control, bypass valve.Characteristic
		authority, want float64
	}{
		{"linear", idealLinear(), idealLinear(), 1, 1},
		{"linear", idealLinear(), idealLinear(), 0.5, 2 * 0.6325},
		{"linear", idealLinear(), idealLinear(), 0.1, 2 * 0.8771},
		{"equal percentage, linear", valve.EqualPercentage(50), idealLinear(), 1, 0.1414 + 0.5},
		{"equal percentage, linear", valve.EqualPercentage(50), idealLinear(), 0.5, 0.1980 + 0.6325},
		{"equal percentage both", valve.EqualPercentage(50), valve.EqualPercentage(50), 0.5, 2 * 0.1980},
	} {
		v := must(valve.NewThreeWay(threeWayConfig(c.control, c.bypass)))
		total, err := v.InstalledTotal(c.authority, c.authority)
		require.NoError(t, err)
		assert.InDelta(t, c.want, total.At(0.5), 1.1e-4, "%s at %v", c.name, c.authority)
		assert.InDelta(t, 1, total.At(0), 1e-8, c.name)
		assert.InDelta(t, 1, total.At(1), 1e-8, c.name)
	}
}

// The bypass may be smaller and in a circuit of its own: two resistors in series
// each, added up.
func TestInstalledTotalOfUnequalPorts(t *testing.T) {
	cfg := threeWayConfig(valve.EqualPercentage(50), valve.Linear(30))
	cfg.Bypass.Kvs = 4 * units.Kv
	v := must(valve.NewThreeWay(cfg))
	const controlAuthority, bypassAuthority = 0.4, 0.7
	total, err := v.InstalledTotal(controlAuthority, bypassAuthority)
	require.NoError(t, err)
	// Kv of what is in series, from N = 1/(1 + (Kvs/Kv)²).
	series := func(kv, kvs, n float64) float64 {
		rest := kvs * math.Sqrt(n/(1-n))
		return 1 / math.Sqrt(1/(kv*kv)+1/(rest*rest))
	}
	for h := 0.05; h < 1; h += 0.05 {
		control, bypass := v.Coefficients(h)
		want := (series(float64(control), 6.3, controlAuthority) + series(float64(bypass), 4, bypassAuthority)) / series(6.3, 6.3, controlAuthority)
		assert.InEpsilon(t, want, total.At(h), 1e-12)
	}
	for _, bad := range []float64{0, 1.1, math.NaN()} {
		_, err := v.InstalledTotal(bad, 0.5)
		assert.Equal(t, []string{"Control.Authority"}, faulty(err))
		_, err = v.InstalledTotal(0.5, bad)
		assert.Equal(t, []string{"Bypass.Authority"}, faulty(err))
	}
}

// One port opens as the other shuts, and the ends are the stated leakage.
func TestPortsMoveAgainstEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := threeWayConfig(anyCurve(t), anyCurve(t))
		cfg.Bypass.Kvs = units.FlowCoefficient(rapid.Float64Range(1, 10).Draw(t, "bypass Kvs"))
		cfg.Control.Leakage, cfg.Bypass.Leakage = 1e-4, 1e-3
		v := must(valve.NewThreeWay(cfg))
		a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
		if b-a > 1e-6 {
			controlLow, bypassLow := v.Coefficients(a)
			controlHigh, bypassHigh := v.Coefficients(b)
			assert.Greater(t, controlHigh, controlLow)
			assert.Less(t, bypassHigh, bypassLow)
		}
		control, bypass := v.Coefficients(0)
		assert.InEpsilon(t, 6.3e-4, float64(control), 1e-15)
		assert.InEpsilon(t, float64(cfg.Bypass.Kvs), float64(bypass), 1e-15)
		control, bypass = v.Coefficients(1)
		assert.InEpsilon(t, 6.3, float64(control), 1e-15)
		assert.InEpsilon(t, 1e-3*float64(cfg.Bypass.Kvs), float64(bypass), 1e-15)
	})
}

// A complementary bypass makes up for any control curve, the two closing regions
// apart.
func TestComplementaryBypass(t *testing.T) {
	for _, curve := range []valve.Characteristic{
		valve.Linear(50), valve.EqualPercentage(50), valve.EqualPercentage(25), valve.Parabolic(), valve.QuickOpening(2), ballCurve(), valve.Custom(cube{}),
	} {
		const leakage = 1e-4
		v, err := valve.NewThreeWay(complementary(curve, leakage))
		require.NoError(t, err, curve)
		for h := 0.0; h <= 1; h += 1.0 / 64 {
			sum := float64(v.TotalCoefficient(h)) / 6.3
			assert.InDelta(t, 1, sum, 2*leakage, "%v at %v", curve, h)
		}
		opening := v.Bypass().TravelFor(0.3)
		assert.InDelta(t, 0.3, v.Bypass().RelativeCoefficient(opening), 1e-12, curve)
	}
}

func TestPortsAreTwoWayValves(t *testing.T) {
	cfg := threeWayConfig(valve.EqualPercentage(50), valve.Linear(50))
	cfg.Bypass.Kvs, cfg.Stem = 4*units.Kv, valve.PushToOpen
	v := must(valve.NewThreeWay(cfg))
	assert.Equal(t, valve.PushToOpen, v.Control().Stem())
	assert.Equal(t, valve.PushToClose, v.Bypass().Stem(), "the stem that opens A shuts B")
	assert.InDelta(t, 50, float64(v.Bypass().SpringForce()), 0)
	cfg.Stem = valve.PushToClose
	assert.Equal(t, valve.PushToOpen, must(valve.NewThreeWay(cfg)).Bypass().Stem())
	cfg.Stem, cfg.Stroke, cfg.Angle = valve.Rotary, 0, 90*units.Degree
	assert.Equal(t, valve.Rotary, must(valve.NewThreeWay(cfg)).Bypass().Stem())

	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		dpA, dpB := anyPressure(t, "dpA"), anyPressure(t, "dpB")
		a, b := v.Flows(h, dpA, dpB)
		assert.InDelta(t, float64(v.Control().Flow(h, dpA)), float64(a), 0)
		assert.InDelta(t, float64(v.Bypass().Flow(1-h, dpB)), float64(b), 0)
		control, bypass := v.Coefficients(h)
		if math.Abs(float64(dpA)) > 1 && math.Abs(float64(dpB)) > 1 {
			assert.InEpsilon(t, float64(valve.FlowThrough(control, dpA, v.Density())), float64(a), 1e-14)
			assert.InEpsilon(t, float64(valve.FlowThrough(bypass, dpB, v.Density())), float64(b), 1e-14)
		}
	})
}

func TestThreeWayFaults(t *testing.T) {
	for field, change := range map[string]func(*valve.ThreeWayConfig){
		"Function":             func(c *valve.ThreeWayConfig) { c.Function = 7 },
		"Control.Kvs":          func(c *valve.ThreeWayConfig) { c.Control.Kvs, c.Bypass.Kvs = 0, 1 },
		"Control.Curve":        func(c *valve.ThreeWayConfig) { c.Control.Curve = valve.Linear(0) },
		"Control.Leakage":      func(c *valve.ThreeWayConfig) { c.Control.Leakage = -0.2 },
		"Control.SeatArea":     func(c *valve.ThreeWayConfig) { c.Control.SeatArea = -1 },
		"Control.Rangeability": func(c *valve.ThreeWayConfig) { c.Control.Rangeability = 70 },
		"Bypass.Kvs":           func(c *valve.ThreeWayConfig) { c.Bypass.Kvs = -1 },
		"Bypass.Curve":         func(c *valve.ThreeWayConfig) { c.Bypass.Curve = valve.Characteristic{} },
		"Bypass.ClosingTravel": func(c *valve.ThreeWayConfig) { c.Bypass.ClosingTravel = 0.9 },
		"Stem":                 func(c *valve.ThreeWayConfig) { c.Stem = 9 },
		"Stroke":               func(c *valve.ThreeWayConfig) { c.Stroke = 0 },
		"Angle":                func(c *valve.ThreeWayConfig) { c.Angle = units.Degree },
		"MaxPressure":          func(c *valve.ThreeWayConfig) { c.MaxPressure = units.Pressure(math.NaN()) },
		"SpringForce":          func(c *valve.ThreeWayConfig) { c.SpringForce = -1 },
		"Density":              func(c *valve.ThreeWayConfig) { c.Density = 1 },
	} {
		cfg := threeWayConfig(valve.EqualPercentage(50), valve.Linear(50))
		change(&cfg)
		v, err := valve.NewThreeWay(cfg)
		assert.Equal(t, []string{field}, faulty(err))
		assert.True(t, v.Equal(valve.ThreeWay{}))
	}
	cfg := complementary(valve.EqualPercentage(50), 0)
	cfg.Bypass.Curve = valve.Linear(50)
	_, err := valve.NewThreeWay(cfg)
	require.ErrorContains(t, err, "Bypass.Curve: got linear 50, want none: a complementary bypass follows from the control port")
	cfg = complementary(valve.Characteristic{}, 0)
	_, err = valve.NewThreeWay(cfg)
	assert.Equal(t, []string{"Control.Curve"}, faulty(err), "not the bypass, too")
	_, err = valve.NewThreeWay(valve.ThreeWayConfig{Density: 1})
	assert.ElementsMatch(t, []string{"Control.Kvs", "Control.Curve", "Bypass.Kvs", "Bypass.Curve", "Stroke", "Density"}, faulty(err))
}

func TestThreeWayConfigAndEqual(t *testing.T) {
	cfg := threeWayConfig(ballCurve(), valve.Linear(50))
	v := must(valve.NewThreeWay(cfg))
	assert.Empty(t, cmp.Diff(cfg, v.Config()))
	assert.Empty(t, cmp.Diff(v, must(valve.NewThreeWay(cfg))))
	for name, change := range map[string]func(*valve.ThreeWayConfig){
		"function":     func(c *valve.ThreeWayConfig) { c.Function = valve.Diverting },
		"control":      func(c *valve.ThreeWayConfig) { c.Control.Leakage = 0.001 },
		"bypass curve": func(c *valve.ThreeWayConfig) { c.Bypass.Curve = valve.Linear(30) },
		"stem":         func(c *valve.ThreeWayConfig) { c.Stem = valve.PushToOpen },
		"density":      func(c *valve.ThreeWayConfig) { c.Density = 1040 },
		"complement":   func(c *valve.ThreeWayConfig) { c.ComplementaryBypass, c.Bypass.Curve = true, valve.Characteristic{} },
	} {
		other := cfg
		change(&other)
		assert.False(t, v.Equal(must(valve.NewThreeWay(other))), name)
	}
	assert.False(t, v.Equal(valve.ThreeWay{}))
	assert.True(t, valve.ThreeWay{}.Equal(valve.ThreeWay{}))
	again := complementary(valve.EqualPercentage(50), 1e-3)
	assert.True(t, must(valve.NewThreeWay(again)).Equal(must(valve.NewThreeWay(again))))

	heavy := must(v.WithDensity(1040))
	assert.InDelta(t, 1040, float64(heavy.Density()), 0)
	assert.InDelta(t, 1040, float64(heavy.Bypass().Density()), 0)
	assert.Equal(t, valve.Mixing, v.Function())
	checkJSON(t, cfg)
	checkJSON(t, complementary(valve.Parabolic(), 1e-3))
}

func TestZeroThreeWayAndNaN(t *testing.T) {
	for _, v := range []valve.ThreeWay{{}, must(valve.NewThreeWay(complementary(valve.EqualPercentage(50), 0)))} {
		h := math.NaN()
		if v.Equal(valve.ThreeWay{}) {
			h = 0.5
		}
		a, b := v.Coefficients(h)
		qa, qb := v.Flows(h, 1e4, 1e4)
		total, err := v.InstalledTotal(0.5, 0.5)
		require.NoError(t, err)
		for _, x := range []float64{float64(a), float64(b), float64(qa), float64(qb), float64(v.TotalCoefficient(h)), total.At(h)} {
			assert.True(t, math.IsNaN(x))
		}
	}
}

func TestThreeWayWords(t *testing.T) {
	checkWords[valve.Function](t, "mixing", "diverting")
	checkWords[valve.Side](t, "neither", "first", "second")
}

// Travel → flow of each port is no more than that of two two-way valves, a few
// nanoseconds, without allocation.
func BenchmarkThreeWayFlows(b *testing.B) {
	for name, cfg := range map[string]valve.ThreeWayConfig{
		"equal percentage, linear": threeWayConfig(valve.EqualPercentage(50), valve.Linear(50)),
		"complementary":            complementary(valve.EqualPercentage(50), 0),
	} {
		v := must(valve.NewThreeWay(cfg))
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			h := 0.1
			for b.Loop() {
				control, bypass := v.Flows(h, 40*units.Kilopascal, 30*units.Kilopascal)
				sink = control + bypass
				h = next(h)
			}
		})
	}
}

func TestThreeWayAndChangeOverDoNotAllocate(t *testing.T) {
	three := must(valve.NewThreeWay(complementary(valve.EqualPercentage(50), 0)))
	total := must(three.InstalledTotal(0.5, 0.4))
	change := must(valve.NewChangeOver(changeOverConfig()))
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		a, b := three.Flows(0.4, 3e4, 2e4)
		c, d := change.Flows(0.2, 3e4, 2e4)
		sink = a + b + c + d + change.CrossFlow(1e4) + units.Flow(total.At(0.3)+float64(three.TotalCoefficient(0.2)))
		sink += units.Flow(change.RotationFor(valve.FirstSide, 0.3))
	}))
}
