package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// The limits of the standard (Annex A and the scope, from memory), from both sides.
func TestLimitsOfTheStandard(t *testing.T) {
	const beside = 1e-9
	c := example1()
	d := c.Valve.Diameter.In(units.Millimetre)
	for _, side := range []float64{1 - beside, 1 + beside} {
		inScope := flowOf(t, units.FlowCoefficient(0.047*0.865*d*d*side)*units.Kv, c)
		assert.Equal(t, side < 1, inScope.InScope)
		reduced := flowOf(t, units.FlowCoefficient(0.016*0.865*d*d*side)*units.Kv, c)
		assert.Equal(t, side < 1, reduced.ReducedTrim)

		thick := c
		thick.Liquid.Viscosity = viscosityFor(t, 10*side, 165*units.Kv, c)
		r := flowOf(t, 165*units.Kv, thick)
		require.InEpsilon(t, 10*side, r.Rev, beside/100)
		assert.Equal(t, side < 1, r.Regime == sizing.Laminar)
	}
}

// n falls with c/d² up to 0.04 and then stays 1, so that FR of laminar flow at one Rev
// falls and then stays.
func TestTrimFactorStaysBeyondItsLimit(t *testing.T) {
	c := example1()
	d := c.Valve.Diameter.In(units.Millimetre)
	factor := func(ratio float64) float64 {
		kv := units.FlowCoefficient(ratio*d*d) * units.Kv
		at := c
		at.Liquid.Viscosity = viscosityFor(t, 5, kv, c)
		return flowOf(t, kv, at).FR
	}
	assert.InEpsilon(t, factor(0.04), factor(0.04*(1+1e-5)), 1e-8)
	assert.InEpsilon(t, factor(0.04)*(1+1e-5), factor(0.04*(1-1e-5)), 1e-8)
}

func TestDefaultCriticalPressureIsWaters(t *testing.T) {
	given := example1()
	given.Liquid.CriticalPressure = fluid.CriticalPressure()
	silent := example1()
	silent.Liquid.CriticalPressure = units.AbsolutePressure{}
	assert.Equal(t, flowOf(t, 165*units.Kv, given), flowOf(t, 165*units.Kv, silent))
}

// The onset is where xF reaches xFz at the inlet, and the margin how far away it is.
func TestOnsetIsWhereXFReachesXFz(t *testing.T) {
	c := example1()
	c.Valve.XFz = 0.3
	cav := cavitationOf(t, 165*units.Kv, c)
	drop := c.Inlet.Sub(c.Outlet)
	c.Outlet = c.Inlet.Add(-cav.OnsetPressureDrop)
	there := cavitationOf(t, 165*units.Kv, c)
	assert.InEpsilon(t, there.XFzInlet, there.XF, 1e-14)
	assert.InEpsilon(t, 1, there.Margin, 1e-14)
	assert.InEpsilon(t, float64(cav.OnsetPressureDrop/drop), cav.Margin, 1e-14)
}
