package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

func cavitationOf(t require.TestingT, kv units.FlowCoefficient, c sizing.Case) sizing.Cavitation {
	cav, err := sizing.CavitationAt(kv, c)
	require.NoError(t, err)
	return cav
}

func TestCavitationStatesFollowEachOther(t *testing.T) {
	c := example1()
	c.Valve.XFz = 0.3
	last := sizing.NotCavitating
	seen := map[sizing.CavitationState]bool{}
	for p2 := 679 * units.Kilopascal; p2 > 0; p2 -= 1 * units.Kilopascal {
		c.Outlet = units.Absolute(p2)
		cav := cavitationOf(t, 165*units.Kv, c)
		assert.GreaterOrEqual(t, cav.State, last)
		drop := c.Inlet.Sub(c.Outlet)
		assert.Equal(t, cav.State != sizing.NotCavitating, drop >= cav.OnsetPressureDrop, "p2 %v", p2)
		assert.Equal(t, cav.State >= sizing.Choking, drop >= cav.ChokedPressureDrop, "p2 %v", p2)
		assert.Equal(t, cav.State == sizing.Flashing, p2 <= 70.1*units.Kilopascal, "p2 %v", p2)
		last = cav.State
		seen[last] = true
	}
	assert.Len(t, seen, 4)
}

func TestOnsetFallsWithInletPressure(t *testing.T) {
	c := example1()
	c.Valve.XFz = 0.3
	for _, test := range []struct{ bar, want float64 }{
		{6, 0.3}, {6 * 256, 0.15}, {6.0 / 256, 0.6}, // the eighth root of 256 is 2
	} {
		c.Inlet = units.Absolute(units.Pressure(test.bar) * units.Bar)
		c.Liquid.VapourPressure, c.Outlet = units.Absolute(100), units.Absolute(200)
		assert.InEpsilon(t, test.want, cavitationOf(t, 165*units.Kv, c).XFzInlet, 1e-14)
	}
}

func TestMaxPressureDropKeepsItsMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		kv := anyKv(t, c)
		c.Valve.XFz = rapid.Float64Range(0.1, 0.8).Draw(t, "xFz")
		margin := rapid.Float64Range(1, 4).Draw(t, "margin")
		before := cavitationOf(t, kv, c)
		drop := before.MaxPressureDrop(margin)
		assert.LessOrEqual(t, drop, before.ChokedPressureDrop)
		if drop == before.ChokedPressureDrop || drop >= c.Inlet.AboveVacuum() {
			return
		}
		c.Outlet = c.Inlet.Add(-drop)
		after := cavitationOf(t, kv, c)
		assert.InEpsilon(t, margin, after.Margin, 1e-9)
		assert.InEpsilon(t, 1/after.XF, after.Sigma, 1e-12)
	})
}

func TestMaxPressureDropWithoutAMargin(t *testing.T) {
	cav := cavitationOf(t, 165*units.Kv, example1())
	for _, margin := range []float64{0, -1, math.NaN()} {
		assert.True(t, math.IsNaN(float64(cav.MaxPressureDrop(margin))))
	}
}

// By hand: Cv 190.75, √(190.75/(1.17·0.9)) = 13.46, 1 + 3·0.46·13.46 = 19.57.
func TestEstimatedOnset(t *testing.T) {
	v := sizing.GlobeContouredOpening.Valve(150 * units.Millimetre)
	assert.InDelta(t, 0.2034, sizing.EstimateXFz(165*units.Kv, v), 5e-5)
	assert.InDelta(t, 0.9, sizing.EstimateXFz(1e-12*units.Kv, v), 1e-5, "the smallest trim")
}
