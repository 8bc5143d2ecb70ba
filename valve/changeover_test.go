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

// changeOverConfig is an invented six-port ball valve: heating for 30°, closed for
// 25°, cooling for 35°.
func changeOverConfig() valve.ChangeOverConfig {
	return valve.ChangeOverConfig{
		Angle:        90 * units.Degree,
		First:        valve.SideConfig{Kvs: 0.63 * units.Kv, Opening: 30 * units.Degree, Curve: valve.EqualPercentage(30), Leakage: 1e-4},
		Second:       valve.SideConfig{Kvs: 1.6 * units.Kv, Opening: 35 * units.Degree, Curve: valve.Linear(30), Leakage: 2e-4},
		CrossLeakage: 1e-5, MaxPressure: 2 * units.Bar,
	}
}

// By hand from the angles: 15° is half of the first 30°, 72.5° is half of the last
// 35°, and from 30° to 55° nothing is open.
func TestChangeOverSequence(t *testing.T) {
	v := must(valve.NewChangeOver(changeOverConfig()))
	for _, c := range []struct {
		degrees, first, second float64
		open                   valve.Side
	}{
		{-10, 1, 0, valve.FirstSide}, {0, 1, 0, valve.FirstSide}, {15, 0.5, 0, valve.FirstSide}, {29, 1.0 / 30, 0, valve.FirstSide},
		{30.001, 0, 0, valve.NeitherSide}, {42, 0, 0, valve.NeitherSide}, {54.999, 0, 0, valve.NeitherSide},
		{56, 0, 1.0 / 35, valve.SecondSide}, {72.5, 0, 0.5, valve.SecondSide}, {90, 0, 1, valve.SecondSide}, {100, 0, 1, valve.SecondSide},
	} {
		first, second := v.Openings(c.degrees / 90)
		assert.InDelta(t, c.first, first, 1e-12, "first at %v°", c.degrees)
		assert.InDelta(t, c.second, second, 1e-12, "second at %v°", c.degrees)
		assert.Equal(t, c.open, v.Open(c.degrees/90), "at %v°", c.degrees)
	}
	from, to := v.Middle()
	assert.InDelta(t, 30.0/90, from, 1e-15)
	assert.InDelta(t, 55.0/90, to, 1e-15)
	assert.InDelta(t, 42.5/90, v.RotationFor(valve.NeitherSide, 0.7), 1e-15)
	assert.InDelta(t, 90, v.Angle().In(units.Degree), 1e-12)
}

func TestChangeOverFlows(t *testing.T) {
	v := must(valve.NewChangeOver(changeOverConfig()))
	dp := 10 * units.Kilopascal
	leak := func(kvs units.FlowCoefficient, share float64) float64 {
		return float64(valve.FlowThrough(kvs*units.FlowCoefficient(share), dp, valve.ReferenceDensity))
	}
	first, second := v.Flows(0.45, dp, dp)
	assert.InEpsilon(t, leak(0.63, 1e-4), float64(first), 1e-14, "leakage in the closed middle")
	assert.InEpsilon(t, leak(1.6, 2e-4), float64(second), 1e-14)
	first, second = v.Flows(0, dp, dp)
	assert.InEpsilon(t, leak(0.63, 1), float64(first), 1e-14)
	assert.InEpsilon(t, leak(1.6, 2e-4), float64(second), 1e-14)
	// Half open: 30^−0.5 of the first, 1/30 + 29/60 of the second.
	kvFirst, _ := v.Coefficients(15.0 / 90)
	_, kvSecond := v.Coefficients(72.5 / 90)
	assert.InEpsilon(t, 0.63/math.Sqrt(30), float64(kvFirst), 1e-12)
	assert.InEpsilon(t, 1.6*(1/30.0+29/60.0), float64(kvSecond), 1e-12)
	assert.InEpsilon(t, leak(1.6, 1e-5), float64(v.CrossFlow(dp)), 1e-14)
	assert.InEpsilon(t, -leak(1.6, 1e-5), float64(v.CrossFlow(-dp)), 1e-14)
	assert.Equal(t, valve.Rotary, v.First().Stem())
	assert.InDelta(t, 35, v.Second().Angle().In(units.Degree), 1e-12)
}

// However the valve is made: never both circuits open, each side monotone, and
// RotationFor undoes Openings.
func TestChangeOverProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := changeOverConfig()
		cfg.First.Curve, cfg.Second.Curve = anyCurve(t), anyCurve(t)
		cfg.First.Leakage, cfg.Second.Leakage = 0, 0
		cfg.Angle = units.Angle(rapid.Float64Range(10, 300).Draw(t, "angle")) * units.Degree
		cfg.First.Opening = cfg.Angle * units.Angle(rapid.Float64Range(0.15, 0.6).Draw(t, "first"))
		cfg.Second.Opening = (cfg.Angle - cfg.First.Opening) * units.Angle(rapid.Float64Range(0.3, 0.99).Draw(t, "second"))
		v := must(valve.NewChangeOver(cfg))
		a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
		firstA, secondA := v.Openings(a)
		assert.Zero(t, min(firstA, secondA))
		if firstB, secondB := v.Openings(b); a < b {
			assert.LessOrEqual(t, firstB, firstA)
			assert.GreaterOrEqual(t, secondB, secondA)
		}
		first, _ := v.Openings(v.RotationFor(valve.FirstSide, a))
		_, second := v.Openings(v.RotationFor(valve.SecondSide, a))
		assert.InDelta(t, a, first, 1e-13)
		assert.InDelta(t, a, second, 1e-12)
	})
}

func TestChangeOverFaults(t *testing.T) {
	for field, change := range map[string]func(*valve.ChangeOverConfig){
		"First.Kvs":           func(c *valve.ChangeOverConfig) { c.First.Kvs = 0 },
		"First.Opening":       func(c *valve.ChangeOverConfig) { c.First.Opening = 0 },
		"First.Curve":         func(c *valve.ChangeOverConfig) { c.First.Curve = valve.Characteristic{} },
		"Second.Leakage":      func(c *valve.ChangeOverConfig) { c.Second.Leakage = -1 },
		"Second.Rangeability": func(c *valve.ChangeOverConfig) { c.Second.Rangeability = 1 },
		"Second.Opening":      func(c *valve.ChangeOverConfig) { c.Second.Opening = -units.Degree },
		"Angle":               func(c *valve.ChangeOverConfig) { c.Angle = 65 * units.Degree },
		"CrossLeakage":        func(c *valve.ChangeOverConfig) { c.CrossLeakage = units.Ratio(math.NaN()) },
		"MaxPressure":         func(c *valve.ChangeOverConfig) { c.MaxPressure = -1 },
		"Density":             func(c *valve.ChangeOverConfig) { c.Density = 5 },
	} {
		cfg := changeOverConfig()
		change(&cfg)
		v, err := valve.NewChangeOver(cfg)
		assert.Equal(t, []string{field}, faulty(err))
		assert.True(t, v.Equal(valve.ChangeOver{}))
	}
	cfg := changeOverConfig()
	cfg.Angle = 60 * units.Degree
	_, err := valve.NewChangeOver(cfg)
	require.ErrorContains(t, err, "Angle: got 60 °, want more than both openings together, 65 °, which leaves a closed middle")
}

func TestChangeOverConfigAndEqual(t *testing.T) {
	cfg := changeOverConfig()
	v := must(valve.NewChangeOver(cfg))
	assert.Empty(t, cmp.Diff(cfg, v.Config()))
	assert.Empty(t, cmp.Diff(v, must(valve.NewChangeOver(cfg))))
	for name, change := range map[string]func(*valve.ChangeOverConfig){
		"angle":  func(c *valve.ChangeOverConfig) { c.Angle = 100 * units.Degree },
		"first":  func(c *valve.ChangeOverConfig) { c.First.Kvs = 1 },
		"second": func(c *valve.ChangeOverConfig) { c.Second.Opening = 20 * units.Degree },
		"cross":  func(c *valve.ChangeOverConfig) { c.CrossLeakage = 0 },
	} {
		other := cfg
		change(&other)
		assert.False(t, v.Equal(must(valve.NewChangeOver(other))), name)
	}
	assert.False(t, v.Equal(valve.ChangeOver{}))
	assert.True(t, valve.ChangeOver{}.Equal(valve.ChangeOver{}))
	heavy := must(v.WithDensity(4 * valve.ReferenceDensity / 3))
	assert.InEpsilon(t, math.Sqrt(0.75), float64(heavy.CrossFlow(1e4)/v.CrossFlow(1e4)), 1e-15)
	checkJSON(t, cfg)
}

func TestZeroChangeOverAndNaN(t *testing.T) {
	nan := math.NaN()
	var zero valve.ChangeOver
	v := must(valve.NewChangeOver(changeOverConfig()))
	for _, c := range []struct {
		valve    valve.ChangeOver
		rotation float64
	}{{zero, 0.5}, {v, nan}} {
		first, second := c.valve.Openings(c.rotation)
		one, two := c.valve.Flows(c.rotation, 1e4, 1e4)
		kvFirst, kvSecond := c.valve.Coefficients(c.rotation)
		for _, x := range []float64{first, second, float64(one), float64(two), float64(kvFirst), float64(kvSecond), c.valve.RotationFor(valve.FirstSide, nan)} {
			assert.True(t, math.IsNaN(x))
		}
		assert.Equal(t, valve.NeitherSide, c.valve.Open(c.rotation))
	}
	assert.True(t, math.IsNaN(float64(zero.CrossFlow(1))))
	assert.True(t, math.IsNaN(float64(v.CrossFlow(units.Pressure(nan)))))
}
