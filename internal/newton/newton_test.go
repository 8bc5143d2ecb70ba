package newton_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/newton"
)

func TestRising(t *testing.T) {
	cube := func(x float64) (float64, float64) { return x*x*x - 2, 3 * x * x }
	kinked := func(x float64) (float64, float64) { // a square root with a kink beside its zero
		if x < 0.3 {
			return 10 * (x - 0.3), 10
		}
		return math.Sqrt(x - 0.3), 0.5 / math.Sqrt(x-0.3)
	}
	assert.InEpsilon(t, math.Cbrt(2), newton.Rising(cube, 0, 100, 50, 0), 1e-15)
	assert.InEpsilon(t, math.Cbrt(2), newton.Rising(cube, 0, 100, -7, 0), 1e-15, "a guess outside")
	assert.InDelta(t, math.Cbrt(2), newton.Rising(cube, 0, 100, 50, 1e-3), 1e-3)
	assert.InEpsilon(t, 0.3, newton.Rising(kinked, 0, 1, 0.9, 0), 1e-14)
	assert.InDelta(t, 5, newton.Rising(cube, 5, 10, 6, 0), 1e-12, "the end that is nearer to a zero")
	assert.True(t, math.IsNaN(newton.Rising(func(float64) (float64, float64) { return math.NaN(), 1 }, 0, 1, 0.5, 0)))
}

// A step beyond the bracket, a slope of zero or one that lies must not lead astray.
func TestRisingWithABadSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root, slope := rapid.Float64Range(-1, 1).Draw(t, "root"), rapid.Float64Range(-5, 5).Draw(t, "slope")
		f := func(x float64) (float64, float64) { return math.Expm1(x - root), slope }
		assert.InDelta(t, root, newton.Rising(f, -2, 3, 0, 0), 1e-14)
	})
}
