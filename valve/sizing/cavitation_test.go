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

// By hand: 60 holes of 5 mm, 4.5 + 1650·60·25e-6/0.9 = 7.25; 120 of 3 mm, 4.5 + 1.98 = 6.48.
func TestEstimatedOnsetOfMultiHoleTrims(t *testing.T) {
	for _, test := range []struct {
		style sizing.Style
		hole  units.Length
		want  float64
	}{
		{sizing.GlobeDrilledCage60, 5 * units.Millimetre, 0.3714},
		{sizing.GlobeDrilledCage120, 3 * units.Millimetre, 0.3928},
	} {
		c := example1()
		c.Valve = test.style.Valve(150 * units.Millimetre)
		c.Valve.HoleDiameter = test.hole
		for _, kv := range []units.FlowCoefficient{16.5, 165} {
			assert.InDelta(t, test.want, sizing.EstimateXFz(kv*units.Kv, c.Valve), 5e-5, "of whatever Kv")
			assert.InDelta(t, test.want, cavitationOf(t, kv*units.Kv, c).XFz, 5e-5)
		}
	}
}

func TestOnsetOfUnknownHolesIsRefused(t *testing.T) {
	for style := sizing.GlobeThreeVPort; style <= sizing.BallSegmented; style++ {
		c := example1()
		c.Valve = style.Valve(150 * units.Millimetre)
		if style == sizing.SmallFlowTaperedNeedle {
			assert.True(t, math.IsNaN(style.XFz(10*units.Kv)))
			continue
		}
		_, err := sizing.CavitationAt(165*units.Kv, c)
		if style != sizing.GlobeDrilledCage60 && style != sizing.GlobeDrilledCage120 {
			require.NoError(t, err, style)
			assert.InEpsilon(t, cavitationOf(t, 165*units.Kv, c).XFz, style.XFz(165*units.Kv), 1e-15, style)
			continue
		}
		assert.Equal(t, []string{"Valve.HoleDiameter"}, fields(t, err), style)
		assert.True(t, math.IsNaN(style.XFz(165*units.Kv)), style)
		c.Valve.XFz = 0.4
		assert.InDelta(t, 0.4, cavitationOf(t, 165*units.Kv, c).XFz, 0, "the measured one counts")
	}
	assert.True(t, math.IsNaN((sizing.BallSegmented + 1).XFz(165*units.Kv)), "no style")
}

// The doc comment of Style.XFz, by hand: at Kv 10, Cv 11.561, √(11.561/(1.17·0.9)) = 3.3135,
// 0.9/√(1 + 1.38·3.3135) = 0.3813.
func TestTypicalOnsetFallsAsKvRises(t *testing.T) {
	for _, test := range []struct{ kv, want float64 }{{1, 0.5755}, {10, 0.3813}, {100, 0.2289}} {
		assert.InDelta(t, test.want, sizing.GlobeContouredOpening.XFz(units.FlowCoefficient(test.kv)*units.Kv), 5e-5)
	}
}

// By hand: 2.5·√(0.1·0.95)/4 = 0.19264.
func TestNeedleFd(t *testing.T) {
	v := sizing.SmallFlowTaperedNeedle.Valve(15 * units.Millimetre)
	v.Fd = sizing.NeedleFd(0.1*units.Kv, v.FL, 4*units.Millimetre)
	assert.InDelta(t, 0.19264, v.Fd, 5e-6)
	c := example1()
	c.Valve = v
	require.NoError(t, second(sizing.Size(0.2*units.CubicMetrePerHour, c)))
	assert.Less(t, cavitationOf(t, 0.1*units.Kv, c).XFz, 0.9)
}

func second(_ sizing.Result, err error) error { return err }
