package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
)

// Fixed points of the scales (NIST SP 811, B.8; the scales meet at −40).
func TestTemperatureScales(t *testing.T) {
	for _, tt := range []struct{ celsius, fahrenheit, kelvin float64 }{
		{0, 32, 273.15}, {100, 212, 373.15}, {-40, -40, 233.15}, {21, 69.8, 294.15}, {-273.15, -459.67, 0},
	} {
		for _, temperature := range []units.Temperature{
			units.Celsius(tt.celsius), units.Fahrenheit(tt.fahrenheit), units.AbsoluteKelvin(tt.kelvin),
		} {
			assert.InDelta(t, tt.celsius, temperature.Celsius(), 1e-12)
			assert.InDelta(t, tt.fahrenheit, temperature.Fahrenheit(), 1e-12)
			assert.InDelta(t, tt.kelvin, temperature.Kelvin(), 1e-12)
		}
	}
}

func TestTemperatureArithmetic(t *testing.T) {
	supply := units.Celsius(6)
	back := supply.Add(6 * units.Kelvin)
	assert.InDelta(t, 12, back.Celsius(), 1e-12)
	assert.InDelta(t, 6, back.Sub(supply).In(units.Kelvin), 1e-12)
	assert.InDelta(t, 10.8, back.Sub(supply).In(units.FahrenheitDegree), 1e-12)
	assert.InDelta(t, 9, supply.Mean(back).Celsius(), 1e-12)
	assert.Equal(t, -1, supply.Compare(back))
	assert.Equal(t, 1, back.Compare(supply))
	assert.Equal(t, 0, back.Compare(back))
	assert.True(t, units.Temperature{}.IsZero())
	assert.False(t, supply.IsZero())
}

func TestSubUndoesAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := units.Celsius(rapid.Float64Range(-50, 200).Draw(t, "t"))
		dt := units.TemperatureDifference(rapid.Float64Range(-100, 100).Draw(t, "dt")) * units.Kelvin
		assert.InDelta(t, float64(dt), float64(start.Add(dt).Sub(start)), 2e-13)
	})
}

func TestTemperatureOfNaN(t *testing.T) {
	nan := units.Celsius(math.NaN())
	assert.True(t, math.IsNaN(nan.Celsius()))
	assert.True(t, math.IsNaN(nan.Add(1).Fahrenheit()))
	assert.True(t, math.IsNaN(float64(nan.Sub(units.Celsius(0)))))
}
