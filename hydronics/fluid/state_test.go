package fluid

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
)

func TestAtRefusesWhatIsNotAKnownLiquid(t *testing.T) {
	for _, c := range []struct {
		name     string
		fluid    string
		celsius  float64
		kPa      float64
		messages []string
	}{
		{"ice", "water", -0.01, 300, []string{
			"fluid: temperature: got -0.01 °C, want 0 … 200 °C, from freezing to the limit of the data for water"}},
		{"hot", "water", 200.01, 2000, []string{
			"fluid: temperature: got 200.01 °C, want 0 … 200 °C, from freezing to the limit of the data for water"}},
		{"steam", "water", 120, 150, []string{
			"fluid: pressure: got 150 kPa abs, want 198.666 … 100000 kPa abs, above the vapour pressure of water and within the data for water"}},
		{"extreme", "water", 20, 100001, []string{
			"fluid: pressure: got 100001 kPa abs, want 2.34 … 100000 kPa abs, above the vapour pressure of water and within the data for water"}},
		{"slush", "ethylene glycol 30 % mass", -15, 300, []string{
			"fluid: temperature: got -15 °C, want -14.57 … 100 °C, from freezing to the limit of the data for ethylene glycol 30 % mass"}},
		{"glycol pressure", "propylene glycol 25 % volume", -5, 10001, []string{
			"fluid: pressure: got 10001 kPa abs, want 0.612 … 10000 kPa abs, above the vapour pressure of water and within the data for propylene glycol 25 % volume"}},
		{"both", "water", math.NaN(), math.NaN(), []string{
			"fluid: temperature: got NaN °C, want 0 … 200 °C, from freezing to the limit of the data for water",
			"fluid: pressure: got NaN kPa abs, want 0 … 100000 kPa abs, above the vapour pressure of water and within the data for water"}},
		{"not set", "water", -273.15, 0, []string{
			"fluid: temperature: got -273.15 °C, want 0 … 200 °C, from freezing to the limit of the data for water",
			"fluid: pressure: got 0 kPa abs, want 0 … 100000 kPa abs, above the vapour pressure of water and within the data for water"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := MustParse(c.fluid).At(units.Celsius(c.celsius), units.Absolute(units.Pressure(c.kPa)*units.Kilopascal))
			require.ErrorIs(t, err, units.ErrInvalid)
			assert.Equal(t, State{}, s)
			var messages []string
			for _, fault := range err.(interface{ Unwrap() []error }).Unwrap() {
				var field *units.FieldError
				require.True(t, errors.As(fault, &field))
				assert.Equal(t, "fluid", field.Package)
				messages = append(messages, fault.Error())
			}
			assert.Equal(t, c.messages, messages)
		})
	}
}

func TestAtAcceptsTheLimits(t *testing.T) {
	for _, text := range []string{"water", "MEG 0 % mass", "MEG 30 % mass", "MEG 60 % mass", "MPG 50 % volume", "MPG 60 % mass"} {
		f := MustParse(text)
		lowest, highest := f.TemperatureRange()
		_, err := f.At(lowest, pascal(f.greatestPressure()))
		assert.NoError(t, err, text)
		saturation, err := SaturationPressure(highest)
		require.NoError(t, err)
		_, err = f.At(highest, saturation)
		assert.NoError(t, err, text)
		_, err = f.At(highest, saturation.Add(-1*units.Pascal))
		assert.Error(t, err, text)
	}
	lowest, highest := Water().TemperatureRange()
	assert.Equal(t, units.Celsius(0), lowest)
	assert.Equal(t, units.Celsius(200), highest)
}

func TestFreezingMargin(t *testing.T) {
	assert.InDelta(t, 5, float64(Water().FreezingMargin(units.Celsius(5))), 1e-12)
	f := MustParse("MEG 30 % mass")
	// −14.58 °C by Melinder's series, evaluated elsewhere.
	assert.InDelta(t, 14.58-6, float64(f.FreezingMargin(units.Celsius(-6))), 0.005)
	assert.Negative(t, float64(f.FreezingMargin(units.Celsius(-20))))
	assert.True(t, math.IsNaN(float64(f.FreezingMargin(units.Celsius(math.NaN())))))
}

func TestZeroStateDoesNotPanic(t *testing.T) {
	var s State
	assert.Zero(t, s.Density())
	assert.True(t, math.IsNaN(s.PrandtlNumber()))
	assert.True(t, math.IsNaN(float64(s.KinematicViscosity())))
	_, ok := s.SpeedOfSound()
	assert.True(t, ok, "the zero State is of water")
}

func TestFluidIsComparable(t *testing.T) {
	assert.Equal(t, Fluid{}, Water())
	seen := map[Fluid]bool{MustParse("MEG 30 % mass"): true}
	mass, err := EthyleneGlycolByMass(30 * units.Percent)
	require.NoError(t, err)
	volume, err := EthyleneGlycolByVolume(30 * units.Percent)
	require.NoError(t, err)
	assert.True(t, seen[mass])
	assert.False(t, seen[volume])
	assert.True(t, mass.Equal(MustParse("30 % mass MEG")))
	assert.False(t, mass.Equal(volume))
	assert.Zero(t, Water().MassFraction())
	assert.Zero(t, Water().VolumeFraction())
}

func TestHotPathDoesNotAllocate(t *testing.T) {
	glycol := MustParse("MPG 35 % mass")
	for _, f := range []Fluid{Water(), glycol} {
		assert.Zero(t, testing.AllocsPerRun(100, func() {
			s, err := f.At(units.Celsius(80), units.Atmospheric())
			if err != nil {
				t.Fatal(err)
			}
			s.PrandtlNumber()
			s.SpeedOfSound()
			f.FreezingMargin(s.Temperature())
		}), f)
	}
}
