package valve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Percentages by the project's designers, IEC 60534-2-4 (from memory).
func TestCoefficientTolerance(t *testing.T) {
	for phi, percent := range map[float64]float64{1: 10, 0.2: 13.8, 0.02: 21.9, 2: 10} {
		assert.InDelta(t, percent, valve.CoefficientTolerance(phi).In(units.Percent), 0.05)
	}
	assert.True(t, math.IsInf(float64(valve.CoefficientTolerance(0)), 1))
	assert.True(t, math.IsInf(float64(valve.CoefficientTolerance(-1)), 1))
	assert.True(t, math.IsNaN(float64(valve.CoefficientTolerance(math.NaN()))))
}
