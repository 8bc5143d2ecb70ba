package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// trimJump is the Kv/d² at which the standard's FR jumps.
const trimJump = 0.016 * 0.865

// between returns the point at s of the geometric way from a to b.
func between[Q ~float64](a, b Q, s float64) Q {
	if a == 0 || b == 0 {
		return a
	}
	return Q(math.Exp((1-s)*math.Log(float64(a)) + s*math.Log(float64(b))))
}

func caseBetween(a, b sizing.Case, s float64) sizing.Case {
	absolute := func(a, b units.AbsolutePressure) units.AbsolutePressure {
		return units.Absolute(between(a.AboveVacuum(), b.AboveVacuum(), s))
	}
	c := a
	c.Liquid.Density = between(a.Liquid.Density, b.Liquid.Density, s)
	c.Liquid.Viscosity = between(a.Liquid.Viscosity, b.Liquid.Viscosity, s)
	c.Liquid.VapourPressure = absolute(a.Liquid.VapourPressure, b.Liquid.VapourPressure)
	c.Inlet = absolute(a.Inlet, b.Inlet)
	c.Outlet = absolute(a.Outlet, b.Outlet)
	c.Valve.FL = between(a.Valve.FL, b.Valve.FL, s)
	c.Valve.Fd = between(a.Valve.Fd, b.Valve.Fd, s)
	return c
}

// jumps halves, again and again, the interval of [0, 1] over which f changes most
// and returns the last one, 6e-11 wide, and what f does over it: next to nothing
// if f has no jumps.
func jumps(f func(s float64) float64) (from, to, jump float64) {
	const steps = 16
	change := func(low, width float64) float64 { return math.Abs(math.Log(f(low+width) / f(low))) }
	for i := range steps {
		low, width := float64(i)/steps, 1.0/steps
		for range 30 {
			width /= 2
			if change(low+width, width) > change(low, width) {
				low += width
			}
		}
		if c := change(low, width); c > jump {
			from, to, jump = low, low+width, c
		}
	}
	return from, to, jump
}

// Two random cases and the way between them cross choking, Rev = 10 and
// Rev = 10 000, with and without reducers.
func TestFlowHasNoJumps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyCase(t), anyCase(t)
		b.Valve.Diameter = a.Valve.Diameter
		low, high := 1e-5, 0.999*trimJump
		if rapid.Bool().Draw(t, "full size") {
			low, high = 1.001*trimJump, 0.05
		}
		d := a.Valve.Diameter.In(units.Millimetre)
		from, to := decades(t, "Kv/d²", low, high), decades(t, "Kv/d²", low, high)
		at, _, jump := jumps(func(s float64) float64 {
			kv := units.FlowCoefficient(d*d*between(from, to, s)) * units.Kv
			return float64(flowOf(t, kv, caseBetween(a, b, s)).Flow)
		})
		assert.Less(t, jump, 1e-5, "at %v", at)
	})
}

// The Kv jumps only where the standard makes it: where the sought valve leaves
// reduced trim, and where a full-size one has its peak in viscous flow.
func TestSizeJumpsOnlyWhereTheStandardDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		d := c.Valve.Diameter.In(units.Millimetre)
		from := flowOf(t, anyKv(t, c), c).Flow
		to := flowOf(t, anyKv(t, c), c).Flow
		kvAt := func(s float64) float64 { return float64(sizeOf(t, between(from, to, s), c).Kv) }
		before, after, jump := jumps(kvAt)
		if jump < 1e-4 { // Kv has a vertical tangent at a peak
			return
		}
		below := units.FlowCoefficient(min(kvAt(before), kvAt(after)))
		ratio := below.In(units.Kv) / (d * d)
		r := flowOf(t, below, c)
		assert.NotEqual(t, sizing.Turbulent, r.Regime)
		if r.ReducedTrim {
			assert.InEpsilon(t, trimJump, ratio, 1e-6, "jump of %v", jump)
		} else if r.FP <= 1 { // doc.go: several Kv behind a lone outlet expander
			assert.LessOrEqual(t, float64(flowOf(t, below*(1+1e-3), c).Flow), float64(r.Flow)*(1+1e-5), "no peak")
		}
	})
}

// The jump itself: FR falls from 0.2751 to 0.2640 at Rev = 10 where
// Kv/d² = 0.016·N18 (FL 0.9).
func TestFlowJumpsBetweenTrims(t *testing.T) {
	for _, test := range []struct {
		ratio, fr float64
		reduced   bool
	}{
		{trimJump * (1 - 1e-12), 0.2751, true},
		{trimJump * (1 + 1e-12), 0.2640, false},
	} {
		c := example1()
		d := c.Valve.Diameter.In(units.Millimetre)
		kv := units.FlowCoefficient(test.ratio*d*d) * units.Kv
		c.Liquid.Viscosity = viscosityFor(t, 10, kv, c)
		r := flowOf(t, kv, c)
		assert.InEpsilon(t, 10, r.Rev, 1e-9)
		assert.InDelta(t, test.fr, r.FR, 5e-5)
		assert.Equal(t, test.reduced, r.ReducedTrim)
	}
}

// viscosityFor returns the viscosity that gives that Rev.
func viscosityFor(t *testing.T, rev float64, kv units.FlowCoefficient, c sizing.Case) units.KinematicViscosity {
	low, high := 1e-6, 1.0
	for range 100 {
		c.Liquid.Viscosity = units.KinematicViscosity(math.Sqrt(low * high))
		if flowOf(t, kv, c).Rev > rev {
			low = float64(c.Liquid.Viscosity)
		} else {
			high = float64(c.Liquid.Viscosity)
		}
	}
	return c.Liquid.Viscosity
}
