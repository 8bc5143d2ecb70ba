package hydronics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/units"
)

// Hot water of 140 °F and cold water of 50 °F make 110 °F at a ratio of the mass
// flows of 2.0 (Çengel & Boles, "Thermodynamics", chapter 5, mixing of hot and
// cold water in a shower, from memory).
func TestMixAgainstTextbook(t *testing.T) {
	stream := func(m units.MassFlow, fahrenheit float64) hydronics.Stream {
		return hydronics.Stream{MassFlow: m, SpecificHeat: hydronics.ReferenceSpecificHeat, Temperature: units.Fahrenheit(fahrenheit)}
	}
	mixed := hydronics.Mix(stream(2*units.KilogramPerSecond, 140), stream(1*units.KilogramPerSecond, 50))
	assert.InDelta(t, 110, mixed.Temperature.Fahrenheit(), 1e-9)
	assert.InDelta(t, 3, float64(mixed.MassFlow), 1e-15)
}

// Half the mass of a liquid of half the heat capacity counts for a quarter: by
// hand, (1·4000·80 + 0.5·2000·30)/(5000) = 70.
func TestMixOfTwoLiquids(t *testing.T) {
	mixed := hydronics.Mix(
		hydronics.Stream{MassFlow: 1, SpecificHeat: 4000, Temperature: units.Celsius(80)},
		hydronics.Stream{MassFlow: 0.5, SpecificHeat: 2000, Temperature: units.Celsius(30)},
	)
	assert.InDelta(t, 70, mixed.Temperature.Celsius(), 1e-12)
	assert.InDelta(t, 5000, float64(mixed.MassFlow)*float64(mixed.SpecificHeat), 1e-11)
}

func TestMixKeepsMassAndEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		streams := make([]hydronics.Stream, rapid.IntRange(1, 5).Draw(t, "streams"))
		var mass, energy float64
		coldest, warmest := math.Inf(1), math.Inf(-1)
		for i := range streams {
			s := hydronics.Stream{
				MassFlow:     units.MassFlow(rapid.Float64Range(0.01, 100).Draw(t, "mass flow")),
				SpecificHeat: units.SpecificHeat(rapid.Float64Range(3000, 4300).Draw(t, "cp")),
				Temperature:  units.AbsoluteKelvin(rapid.Float64Range(270, 400).Draw(t, "temperature")),
			}
			streams[i] = s
			mass += float64(s.MassFlow)
			energy += float64(s.MassFlow) * float64(s.SpecificHeat) * s.Temperature.Kelvin()
			coldest, warmest = min(coldest, s.Temperature.Kelvin()), max(warmest, s.Temperature.Kelvin())
		}
		mixed := hydronics.Mix(streams...)
		assert.InEpsilon(t, mass, float64(mixed.MassFlow), 1e-12)
		assert.InEpsilon(t, energy, float64(mixed.MassFlow)*float64(mixed.SpecificHeat)*mixed.Temperature.Kelvin(), 1e-12)
		assert.GreaterOrEqual(t, mixed.Temperature.Kelvin(), coldest-1e-10)
		assert.LessOrEqual(t, mixed.Temperature.Kelvin(), warmest+1e-10)
	})
}

func TestMixOfNothing(t *testing.T) {
	still := hydronics.Stream{SpecificHeat: 4000, Temperature: units.Celsius(20)}
	flowing := hydronics.Stream{MassFlow: 1, SpecificHeat: 4000, Temperature: units.Celsius(60)}
	assert.InDelta(t, 60, hydronics.Mix(still, flowing).Temperature.Celsius(), 1e-12)
	assert.True(t, math.IsNaN(hydronics.Mix().Temperature.Kelvin()))
	assert.True(t, math.IsNaN(hydronics.Mix(still).Temperature.Kelvin()))
	for _, m := range []units.MassFlow{-1, units.MassFlow(math.NaN())} {
		bad := flowing
		bad.MassFlow = m
		mixed := hydronics.Mix(flowing, bad)
		assert.True(t, math.IsNaN(mixed.Temperature.Kelvin()))
		assert.True(t, math.IsNaN(float64(mixed.MassFlow)))
	}
	assert.Zero(t, testing.AllocsPerRun(100, func() { _ = hydronics.Mix(still, flowing) }))
}

// The heat capacity of the fluid model, which is checked against IAPWS elsewhere.
func TestReferenceSpecificHeat(t *testing.T) {
	water, err := fluid.Water().At(units.Celsius(15), units.Absolute(100*units.Kilopascal))
	require.NoError(t, err)
	assert.InDelta(t, float64(water.SpecificHeat()), float64(hydronics.ReferenceSpecificHeat), 0.05)
	for celsius := 0.01; celsius <= 90; celsius += 5 {
		state, err := fluid.Water().At(units.Celsius(celsius), hydronics.UsualPressure())
		require.NoError(t, err)
		assert.InEpsilon(t, float64(state.SpecificHeat()), float64(hydronics.ReferenceSpecificHeat), 0.0071)
	}
}
