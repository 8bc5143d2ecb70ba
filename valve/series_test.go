package valve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The usual Kvs series of the trade (common practice, no published source), which is R5 of ISO 3.
func TestUsualSeries(t *testing.T) {
	want := []units.FlowCoefficient{0.16, 0.25, 0.4, 0.63, 1, 1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 63, 100, 160, 250, 400, 630, 1000}
	kv := want[0]
	for i, w := range want {
		assert.InDelta(t, float64(w), float64(kv), 0)
		assert.InDelta(t, float64(w), float64(valve.R5.Nearest(w)), 0)
		if i > 0 {
			assert.InDelta(t, float64(want[i-1]), float64(valve.R5.AtMost(w*0.999)), 0)
		}
		kv = valve.R5.AtLeast(kv * 1.001)
	}
}

func TestNoSuchSeries(t *testing.T) {
	for _, step := range []func(units.FlowCoefficient) units.FlowCoefficient{valve.Series(9).AtLeast, valve.Series(9).AtMost, valve.Series(9).Nearest} {
		assert.True(t, math.IsNaN(float64(step(5*units.Kv))))
	}
}

// ISO 3 rounds the powers of the tenth root of 10 by −1.01 … +1.26 % (from memory).
func TestSeriesNearPowers(t *testing.T) {
	for i := -60; i < 60; i++ {
		exact := math.Pow(10, float64(i)/10)
		got := float64(valve.R10.Nearest(units.FlowCoefficient(exact)))
		off := got/exact - 1
		assert.True(t, off > -0.0102 && off < 0.0127, "%v: %v", exact, off)
		if i%2 == 0 {
			assert.InDelta(t, got, float64(valve.R5.Nearest(units.FlowCoefficient(exact))), 0)
		}
	}
}

func TestSeriesBrackets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]valve.Series{valve.R5, valve.R10}).Draw(t, "series")
		kv := units.FlowCoefficient(math.Pow(10, rapid.Float64Range(-6, 6).Draw(t, "lg kv")))
		low, high, near := s.AtMost(kv), s.AtLeast(kv), s.Nearest(kv)
		assert.LessOrEqual(t, low, kv*(1+2e-12))
		assert.GreaterOrEqual(t, high, kv*(1-2e-12))
		assert.Less(t, float64(high/low), 1.62)
		assert.Contains(t, []units.FlowCoefficient{low, high}, near)
		assert.LessOrEqual(t, max(near/kv, kv/near), min(kv/low, high/kv)*(1+4e-12))
	})
}

func TestSeriesNearTheSteps(t *testing.T) {
	assert.InDelta(t, 6.3, float64(valve.R5.AtLeast(6.300000000000001)), 0, "rounding does not make a larger valve")
	assert.InDelta(t, 10, float64(valve.R5.AtLeast(6.30001)), 0)
	assert.InDelta(t, 4, float64(valve.R5.AtMost(6.29999)), 0)
	assert.InDelta(t, 8, float64(valve.R10.AtLeast(6.30001)), 0)
	assert.InDelta(t, 3.15, float64(valve.R10.Nearest(3.1)), 0)
	for _, kv := range []units.FlowCoefficient{0, -1, 1e7, 1e-7, units.FlowCoefficient(math.NaN()), units.FlowCoefficient(math.Inf(1))} {
		for _, got := range []units.FlowCoefficient{valve.R5.AtLeast(kv), valve.R5.AtMost(kv), valve.R5.Nearest(kv)} {
			assert.True(t, math.IsNaN(float64(got)), "%v", kv)
		}
	}
}
