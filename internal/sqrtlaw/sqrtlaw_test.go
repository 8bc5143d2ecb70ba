package sqrtlaw_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
)

// Roots of u³ + u = 2s by mpmath 1.2.1 (findroot at 40 digits), outside this module.
func TestLaminarRoots(t *testing.T) {
	for _, c := range []struct{ s, u float64 }{
		{0, 0}, {1e-300, 2e-300}, {1e-12, 2e-12}, {1e-6, 1.9999999999919999095e-6}, {1e-3, 0.0019999920000959985057},
		{0.01, 0.019992009584668104622}, {0.1, 0.19282993096291296357}, {0.25, 0.42385379906978327138},
		{0.5, 0.68232780382801932737}, {0.75, 0.86122409973957356873}, {0.99, 0.99498113988733983613}, {1, 1},
	} {
		for _, k := range []float64{1, 3e-5} {
			assert.Less(t, reference.RelDiff(sqrtlaw.Flow(k, c.s), k*c.u), 1e-15, "at %v", c.s)
			assert.Less(t, reference.RelDiff(sqrtlaw.Flow(k, -c.s), -k*c.u), 1e-15, "at −%v", c.s)
		}
	}
}

func TestSquareRoot(t *testing.T) {
	assert.InDelta(t, 0.02, sqrtlaw.Flow(1e-4, 40000), 1e-17)
	assert.InDelta(t, -0.02, sqrtlaw.Flow(1e-4, -40000), 1e-17)
	assert.InDelta(t, 40000, sqrtlaw.Pressure(1e-4, 0.02), 1e-10)
	assert.InDelta(t, 0.02/80000, sqrtlaw.Slope(1e-4, 40000), 1e-20)
}

// pressures draws from far below the laminar floor to far above, of both signs.
func pressures(t *rapid.T, label string) float64 {
	dp := math.Pow(10, rapid.Float64Range(-6, 7).Draw(t, label))
	return math.Copysign(dp, rapid.Float64Range(-1, 1).Draw(t, label+" sign"))
}

func coefficients(t *rapid.T) float64 {
	return math.Pow(10, rapid.Float64Range(-14, 0).Draw(t, "lg k"))
}

func TestPressureUndoesFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, dp := coefficients(t), pressures(t, "dp")
		assert.Less(t, reference.RelDiff(sqrtlaw.Pressure(k, sqrtlaw.Flow(k, dp)), dp), 2e-15)
		q := k * dp
		assert.Less(t, reference.RelDiff(sqrtlaw.Flow(k, sqrtlaw.Pressure(k, q)), q), 2e-15)
	})
}

func TestFlowRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, a, b := coefficients(t), pressures(t, "a"), pressures(t, "b")
		if d := b - a; d > 1e-12*(math.Abs(a)+math.Abs(b)) {
			assert.Greater(t, sqrtlaw.Flow(k, b), sqrtlaw.Flow(k, a))
		}
	})
}

func TestSlopeIsTheDerivative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, dp := coefficients(t), pressures(t, "dp")
		d := 1e-5 * math.Abs(dp)
		quotient := (sqrtlaw.Flow(k, dp+d) - sqrtlaw.Flow(k, dp-d)) / (2 * d)
		assert.Less(t, reference.RelDiff(quotient, sqrtlaw.Slope(k, dp)), 1e-4)
	})
}

// Value and slope run through the floor without a step, and the slope at zero is finite.
func TestJoint(t *testing.T) {
	below := math.Nextafter(sqrtlaw.Floor, 0)
	for _, sign := range []float64{1, -1} {
		assert.InDelta(t, sign, sqrtlaw.Flow(1, sign*below), 2e-16)
		assert.InDelta(t, sign, sqrtlaw.Flow(1, sign*sqrtlaw.Floor), 0)
		assert.InDelta(t, 0.5, sqrtlaw.Slope(1, sign*below), 1e-15)
		assert.InDelta(t, 0.5, sqrtlaw.Slope(1, sign*sqrtlaw.Floor), 0)
		assert.InDelta(t, sign, sqrtlaw.Pressure(1, sign*below), 4e-16)
	}
	assert.InDelta(t, 2, sqrtlaw.Slope(1, 0), 0)
}

func TestZerosInfinitiesAndNaN(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	assert.Zero(t, sqrtlaw.Flow(1, 0))
	assert.Zero(t, sqrtlaw.Pressure(1, 0))
	assert.Zero(t, sqrtlaw.Flow(0, 1e5))
	assert.Zero(t, sqrtlaw.Pressure(0, 0))
	assert.InDelta(t, inf, sqrtlaw.Pressure(0, 1), 0)
	assert.InDelta(t, -inf, sqrtlaw.Pressure(0, -1), 0)
	assert.InDelta(t, inf, sqrtlaw.Flow(1, inf), 0)
	assert.InDelta(t, -inf, sqrtlaw.Flow(1, -inf), 0)
	for _, y := range []float64{sqrtlaw.Flow(1, nan), sqrtlaw.Flow(nan, 1), sqrtlaw.Pressure(1, nan), sqrtlaw.Slope(1, nan), sqrtlaw.Slope(nan, 1)} {
		assert.True(t, math.IsNaN(y))
	}
}

func TestNoAllocations(t *testing.T) {
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		sink = sqrtlaw.Flow(1, 0.3) + sqrtlaw.Flow(1, 3e4) + sqrtlaw.Pressure(1, 0.3) + sqrtlaw.Slope(1, 0.3)
	}))
}

var sink float64

// Part of the chain from signal to flow, whose budget is 1.5 times the same in C.
func BenchmarkFlow(b *testing.B) {
	for _, c := range []struct {
		name string
		dp   float64
	}{{"turbulent", 4e4}, {"backwards", -4e4}, {"laminar", 0.3}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			dp := c.dp
			for b.Loop() {
				sink = sqrtlaw.Flow(1e-4, dp)
				dp *= 1.0000001
			}
		})
	}
}
