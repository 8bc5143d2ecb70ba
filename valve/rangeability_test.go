package valve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/valve"
)

// measured is an equal-percentage 50 valve that is true to its law down to
// h = 0.2 and flat below (invented).
func measured() []valve.Point {
	points := []valve.Point{{0.05, 0.0430}, {0.1, 0.0432}}
	for i := 2; i <= 10; i++ {
		h := float64(i) / 10
		points = append(points, valve.Point{Travel: h, Coefficient: math.Pow(50, h-1)})
	}
	return points
}

func TestMeasuredRangeability(t *testing.T) {
	law := valve.EqualPercentage(50)
	r, err := valve.MeasuredRangeability(law, measured())
	require.NoError(t, err)
	assert.InDelta(t, math.Pow(50, 0.8), r, 1e-12, "Kvr is at h = 0.2")

	r, err = valve.MeasuredRangeability(law, measured()[2:])
	require.NoError(t, err)
	assert.InDelta(t, math.Pow(50, 0.8), r, 1e-12, "all points follow")

	r, err = valve.MeasuredRangeability(law, []valve.Point{{0.5, 0.9}, {1, 1}})
	require.NoError(t, err)
	assert.InDelta(t, 1, r, 0, "nothing follows")
}

// Half and twice the slope of the law are just within the tolerance.
func TestSlopeTolerance(t *testing.T) {
	law := valve.Linear(math.Inf(1))
	for slope, follows := range map[float64]bool{0.49: false, 0.51: true, 1.99: true, 2.01: false} {
		r, err := valve.MeasuredRangeability(law, []valve.Point{{0.2, 0.5 - 0.2*slope}, {0.4, 0.5}, {1, 1}})
		require.NoError(t, err)
		if want := 1 / (0.5 - 0.2*slope); follows {
			assert.InDelta(t, want, r, 1e-12)
		} else {
			assert.InDelta(t, 2, r, 1e-12)
		}
	}
}

func TestMeasuredRangeabilityFaults(t *testing.T) {
	for want, points := range map[string][]valve.Point{
		"two points":     {{1, 1}},
		"coefficient ab": {{0, 0}, {1, 1}},
		"open valve":     {{0, 0.1}, {0.9, 1}},
		"more than":      {{0, 0.2}, {0.5, 0.1}, {1, 1}},
	} {
		_, err := valve.MeasuredRangeability(valve.Linear(50), points)
		assert.ErrorContains(t, err, want)
	}
	_, err := valve.MeasuredRangeability(valve.Linear(0), measured())
	assert.Equal(t, []string{"Curve"}, faulty(err))
}
