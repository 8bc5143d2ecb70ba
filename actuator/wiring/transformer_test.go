package wiring_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/units"
)

// Sizes of the R10 series (ISO 3): the next one up, its own end included.
func TestTransformerSizes(t *testing.T) {
	for _, tt := range []struct {
		load  wiring.ApparentPower
		spare units.Ratio
		size  float64
	}{
		{0, 0, 10}, {10, 0, 10}, {10.1, 0, 12.5}, {15, 0, 16}, {16, 25 * units.Percent, 20}, {25.3, 0, 31.5},
		{55, 25 * units.Percent, 80}, {800, 25 * units.Percent, 1000}, {1000, 0, 1000},
	} {
		got, err := wiring.NewTransformer(wiring.TransformerConfig{Loads: []wiring.ApparentPower{tt.load / 4, tt.load * 3 / 4}, Spare: tt.spare})
		require.NoError(t, err)
		assert.InDelta(t, tt.size, got.Size.In(wiring.VoltAmpere), 1e-12, tt)
		assert.InDelta(t, float64(tt.load), float64(got.Load), 1e-12)
		assert.InDelta(t, float64(tt.load)*(1+float64(tt.spare)), float64(got.WithSpare), 1e-9)
		assert.InDelta(t, float64(tt.load)/tt.size, float64(got.Use), 1e-12)
	}
	// R10 by its definition: 10^(i/10), rounded to within 2 %.
	for i := range 20 {
		exact := math.Pow(10, 1+float64(i)/10)
		got, err := wiring.NewTransformer(wiring.TransformerConfig{Loads: []wiring.ApparentPower{wiring.ApparentPower(exact * 0.98)}})
		require.NoError(t, err)
		assert.InEpsilon(t, exact, float64(got.Size), 0.02, i)
	}
}

func TestTransformerOfAListOfOnesOwn(t *testing.T) {
	cfg := wiring.TransformerConfig{Loads: []wiring.ApparentPower{20, 20, 5}, Series: []wiring.ApparentPower{40, 75, 100}}
	got, err := wiring.NewTransformer(cfg)
	require.NoError(t, err)
	assert.InDelta(t, 75, float64(got.Size), 0)
	cfg.Loads = append(cfg.Loads, 100)
	_, err = wiring.NewTransformer(cfg)
	assert.ErrorIs(t, err, wiring.ErrUnreachable)
	assert.ErrorContains(t, err, "145 VA with spare, the series ends at 100 VA")
}

func TestTransformerRefuses(t *testing.T) {
	_, err := wiring.NewTransformer(wiring.TransformerConfig{
		Loads: []wiring.ApparentPower{5, -1}, Spare: -1, Series: []wiring.ApparentPower{0, 40, 40},
	})
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{"Loads[1]", "Spare", "Series[0]", "Series[2]"} {
		assert.ErrorContains(t, err, field)
	}
	_, err = wiring.NewTransformer(wiring.TransformerConfig{})
	assert.ErrorContains(t, err, "at least one load")
}
