package sizing

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
)

// viscousSearches yields random valves with what they pass in viscous flow: a
// search, and one Kv that it may find.
func viscousSearches(count int) func(yield func(s *search, c float64) bool) {
	rng := rand.New(rand.NewPCG(60534, 1))
	decades := func(low, high float64) float64 { return low * math.Pow(high/low, rng.Float64()) }
	return func(yield func(*search, float64) bool) {
		for count > 0 {
			at := Case{
				Liquid: Liquid{
					Density: 1000, VapourPressure: units.Absolute(2000),
					Viscosity: units.KinematicViscosity(decades(1e-6, 1e-2)),
				},
				Inlet: units.Absolute(400000), Outlet: units.Absolute(units.Pressure(decades(1e4, 399e3))),
				Valve: Valve{Diameter: units.Length(decades(0.008, 0.4)), FL: 0.3 + 0.7*rng.Float64(), Fd: 0.05 + 0.95*rng.Float64()},
			}
			if rng.IntN(2) == 0 {
				at.InletPipe = at.Valve.Diameter * units.Length(1+2*rng.Float64())
			}
			if rng.IntN(2) == 0 {
				at.OutletPipe = at.Valve.Diameter * units.Length(1+2*rng.Float64())
			}
			l := new(law)
			l.prepare(&at)
			c := l.area * decades(1e-5, flatFrom)
			q, rev, _ := l.flowOf(c)
			if turbulent, ok := l.turbulentKv(q); ok && rev < turbulentFrom && l.speed(turbulent)*q < turbulentFrom {
				s := &search{law: l, q: q, perQ: 1 / q, turbulent: turbulent}
				s.prepare()
				if count--; !yield(s, c) {
					return
				}
			}
		}
	}
}

func rootOf(s *search, c float64) float64 { return math.Cbrt(c / s.area) }

// Two ways to the least Kv, which share no formula but those of the factors: steps
// with a logarithm and derivatives, and a climb in a bracket.
func TestApproachEndsWhereTheClimbDoes(t *testing.T) {
	missed, full := 0, 0
	for s := range viscousSearches(20000) {
		want, ok := s.climbAll(s.turbulent)
		require.True(t, ok)
		got, ok := s.approach()
		if !s.isFullSize(want) {
			require.True(t, ok, "%+v", s)
			require.InEpsilon(t, want, got, 1e-12, "%+v", s)
			excess, _ := s.excess(rootOf(s, got), false)
			require.InDelta(t, 0, excess, 1e-14, "%+v", s)
			continue
		}
		if s.through < 0 {
			require.False(t, ok, "a Kv behind a lone outlet expander that may not be the least")
			continue
		}
		full++
		if !ok {
			missed++
			continue
		}
		excess, slope := s.excess(rootOf(s, got), true)
		require.InDelta(t, 0, excess, 1e-14, "%+v", s)
		require.Positive(t, slope)
		require.InEpsilon(t, want, got, 1e-13/slope, "%+v", s) // near its peak the flow hardly depends on Kv
	}
	t.Logf("left to the climb: %d of %d in full-size trim", missed, full)
	assert.Less(t, missed, full/100)
}

// The doc comments of guess and guessFull, and the number of steps that the speed
// rests on.
func TestTwoOrThreeStepsFromTheGuess(t *testing.T) {
	most, count := map[bool]float64{}, [7]int{}
	for s := range viscousSearches(20000) {
		c, ok := s.approach()
		if !ok {
			continue
		}
		full := s.isFullSize(c)
		at := s.guess()
		if full {
			at = s.guessFull()
		}
		if !full || !s.reducers {
			most[full] = max(most[full], math.Abs(at/rootOf(s, c)-1))
		}
		steps := 0
		for settled := false; !settled; steps++ {
			require.Less(t, steps, 6)
			at, settled = s.step(at, full)
		}
		count[steps]++
	}
	t.Logf("guess off by up to %.3f, in full-size trim %.3f; searches of 0, 1 … 6 steps: %v", most[false], most[true], count)
	assert.Less(t, most[false], 0.1)
	assert.Less(t, most[true], 0.04)
	assert.Greater(t, count[1]+count[2], 17000)
	assert.Less(t, count[4]+count[5]+count[6], 100)
}

// A step from h off must end within the order of h³, or its derivatives are wrong:
// a wrong first derivative would leave h, a wrong second one h². Left out are roots
// close to the kinks where laminar and transitional FR cross, choking begins or n
// becomes 1, and those close to a peak.
func TestStepIsOfThirdOrder(t *testing.T) {
	const h = 1e-3
	worst := map[bool]float64{}
	for s := range viscousSearches(20000) {
		c, ok := s.approach()
		root, full := rootOf(s, c), s.isFullSize(c)
		if _, slope := s.excess(root, full); !ok || slope < 0.5 || kinked(s, root, h, full) {
			continue
		}
		for _, off := range []float64{1 - h, 1 + h} {
			next, settled := s.step(root*off, full)
			worst[full] = max(worst[full], math.Abs(next/root-1))
			require.False(t, settled)
		}
	}
	t.Logf("left of %v: %.2g, in full-size trim %.2g", h, worst[false], worst[true])
	assert.Less(t, worst[false], 2*h*h*h)
	assert.Less(t, worst[true], 30*h*h*h)
}

// A step that calls its end settled must be right although a kink is next to it, or
// between.
func TestSettledStepsAreRightAroundKinks(t *testing.T) {
	for name := range kinks {
		t.Run(name, func(t *testing.T) {
			count := 0
			for _, p := range aroundKinks(5000, name) {
				c := p.c * (1 + p.off)
				full := p.l.isFullSize(c)
				q, rev, _ := p.l.flowOf(c)
				turbulent, ok := p.l.turbulentKv(q)
				if !ok || rev > 0.999*turbulentFrom || full != p.l.isFullSize(p.c) || full && c > flatFrom*p.l.area {
					continue
				}
				s := &search{law: p.l, q: q, perQ: 1 / q, turbulent: turbulent}
				s.prepare()
				for _, from := range []float64{-1e-4, -1e-5, -1e-6, -1e-8, 0, 1e-8, 1e-6, 1e-5, 1e-4} {
					next, settled := s.step(min(rootOf(s, c)*(1+from), flatRoot), full)
					if settled {
						count++
						excess, _ := s.excess(next, full)
						require.InDelta(t, 0, excess, 3e-14, "%v off the kink, from %v of %+v", p.off, from, s)
					}
				}
			}
			t.Logf("%d settled", count)
			assert.Greater(t, count, 500)
		})
	}
}

// kinked tells that what governs at a root is not the same h beside it.
func kinked(s *search, root, h float64, full bool) bool {
	governs := func(root float64) (laminar, flat bool, drive float64) {
		n, byKv := trimFactor(root, full)
		c := s.coefficient(root)
		_, byRev, _ := s.factor(s.speed(c)*s.q, n)
		drive, _ = s.governing(c)
		return byRev == 0.5, byKv == 0, drive
	}
	laminar, flat, drive := governs(root)
	for _, off := range []float64{1 - h, 1 + h} {
		if l, f, d := governs(root * off); l != laminar || f != flat || d != drive {
			return true
		}
	}
	return false
}

func TestOctavesAreNearlyALogarithm(t *testing.T) {
	for x := 1e-30; x < 1e30; x *= 1.0137 {
		got := float64(octaves(x)) / octave
		assert.LessOrEqual(t, got, math.Log2(x)+1e-12)
		assert.Greater(t, got, math.Log2(x)-0.0861)
		assert.Equal(t, x, power(octaves(x)))
	}
}
