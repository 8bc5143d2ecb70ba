package unfused_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/unfused"
)

// Single operations are rounded by themselves on every machine.
func TestOperations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-1e9, 1e9).Draw(t, "x"), rapid.Float64Range(-1e9, 1e9).Draw(t, "y")
		sum, difference, product := x+y, x-y, x*y
		assert.Equal(t, sum, unfused.Add(x, y))
		assert.Equal(t, difference, unfused.Sub(x, y))
		if product == 0 || product > 1e-300 || product < -1e-300 { // big.Float has no subnormals
			assert.Equal(t, product, unfused.Mul(x, y))
		}
	})
}
