package fluid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

// IAPWS R7-97(2012), Tables 35 and 36, to every printed digit.
func TestSaturationGivesPublishedTables(t *testing.T) {
	c := reference.Compare(t, "water_if97_table35")
	for row := range c.Rows() {
		p, err := SaturationPressure(units.AbsoluteKelvin(row.Float("T_K")))
		require.NoError(t, err)
		c.Check(row, "p_Pa", float64(p.AboveVacuum()))
		assert.Equal(t, nineDigits(row.Float("p_Pa")), nineDigits(float64(p.AboveVacuum())), row)
	}
	c.Require(5e-9)
	c = reference.Compare(t, "water_if97_table36")
	for row := range c.Rows() {
		got, err := SaturationTemperature(pascal(row.Float("p_Pa")))
		require.NoError(t, err)
		c.Check(row, "T_K", got.Kelvin())
		assert.Equal(t, nineDigits(row.Float("T_K")), nineDigits(got.Kelvin()), row)
	}
	c.Require(5e-9)
}

func TestSaturationMatchesRecordedLibrary(t *testing.T) {
	c := reference.Compare(t, "water_saturation")
	for row := range c.Rows() {
		p, err := SaturationPressure(units.AbsoluteKelvin(row.Float("T_K")))
		require.NoError(t, err)
		c.Check(row, "p_Pa", float64(p.AboveVacuum()))
	}
	c.Require(1e-12)
}

func TestSaturationRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		T := rapid.Float64Range(lowestSaturated, 647).Draw(t, "T")
		p, err := SaturationPressure(units.AbsoluteKelvin(T))
		require.NoError(t, err)
		back, err := SaturationTemperature(p)
		require.NoError(t, err)
		assert.InEpsilon(t, T, back.Kelvin(), 1e-12)
	})
}

func TestSaturationRefusesWhatIsOffTheLine(t *testing.T) {
	for _, celsius := range []float64{-0.01, 374, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := SaturationPressure(units.Celsius(celsius))
		require.ErrorIs(t, err, units.ErrInvalid, "%v °C", celsius)
	}
	for _, pa := range []float64{-1, 0, 611.21, 22.065e6, math.NaN(), math.Inf(1)} {
		_, err := SaturationTemperature(pascal(pa))
		require.ErrorIs(t, err, units.ErrInvalid, "%v Pa", pa)
	}
	_, err := SaturationPressure(units.Celsius(400))
	require.EqualError(t, err, "fluid: temperature: got 400 °C, want 0 … 373.946 °C, the saturation line of water")
	_, err = SaturationTemperature(units.Absolute(0.5 * units.Kilopascal))
	require.EqualError(t, err, "fluid: pressure: got 0.5 kPa abs, want 0.611213 … 22064 kPa abs, the saturation line of water")
}

// IAPWS R7-97(2012): the saturation line ends within 1e-6 of the critical point.
func TestCriticalPressureEndsTheSaturationLine(t *testing.T) {
	p, err := SaturationPressure(units.AbsoluteKelvin(criticalKelvin))
	require.NoError(t, err)
	pc := float64(CriticalPressure().AboveVacuum())
	assert.InEpsilon(t, float64(p.AboveVacuum()), pc, 1e-6)

	boiling, err := SaturationPressure(units.Celsius(100))
	require.NoError(t, err)
	share := float64(boiling.AboveVacuum()) / pc
	assert.InDelta(t, 0.008, 0.28*(math.Sqrt(2*share)-math.Sqrt(share)), 0.0005, "the doc comment on FF")
}

func TestSaturationLimitsAreInside(t *testing.T) {
	for _, T := range []float64{lowestSaturated, criticalKelvin} {
		p, err := SaturationPressure(units.AbsoluteKelvin(T))
		require.NoError(t, err)
		back, err := SaturationTemperature(pascal(min(float64(p.AboveVacuum()), criticalPascal)))
		require.NoError(t, err)
		assert.InDelta(t, T, back.Kelvin(), 1e-4)
	}
}
