package signal_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func mustShunt(resistor, input units.Resistance) signal.Shunt {
	return must(signal.NewShunt(signal.ShuntConfig{Resistor: resistor, Input: input}))
}

// Exact into an ideal input (design check values).
func TestShuntIntoAnIdealInput(t *testing.T) {
	for _, tt := range []struct {
		resistor units.Resistance
		current  signal.Range
		voltage  signal.Range
	}{
		{500 * units.Ohm, signal.Range4To20mA(), signal.Range2To10V()},
		{500 * units.Ohm, signal.Range0To20mA(), signal.Range0To10V()},
		{500 * units.Ohm, signal.Range4To20mA().Inverse(), signal.Range2To10V().Inverse()},
		{250 * units.Ohm, signal.Range4To20mA(), signal.Range1To5V()},
		{250 * units.Ohm, signal.Range0To20mA(), signal.Range0To5V()},
		{500 * units.Ohm, signal.MustParseRange("4-12 mA of 4-20 mA"), signal.MustParseRange("2-6 V of 2-10 V")},
	} {
		for _, input := range []units.Resistance{0, units.Resistance(math.Inf(1)) * units.Ohm} {
			got, err := mustShunt(tt.resistor, input).ConvertRange(tt.current)
			require.NoError(t, err)
			assert.Equal(t, tt.voltage, got, "%v over %v", tt.current, tt.resistor)
		}
	}
	assert.Equal(t, signal.Volts(6), mustShunt(500*units.Ohm, 0).Convert(signal.Milliamps(12)))
}

// 500 Ω in parallel with 100 kΩ: 497.5 Ω, −0.5 % (design check values; by hand
// 500·100/100.5 = 497.512…).
func TestShuntIntoARealInput(t *testing.T) {
	shunt := mustShunt(500*units.Ohm, 100*units.Kilohm)
	assert.InDelta(t, 497.512437810945, shunt.Resistance().In(units.Ohm), 1e-11)
	assert.InDelta(t, -0.004975124378109, shunt.Convert(signal.Milliamps(20)).Number()/10-1, 1e-14)
}

func TestShuntOfOtherSignals(t *testing.T) {
	shunt := mustShunt(500*units.Ohm, 0)
	open := shunt.Convert(signal.Signal{})
	assert.Equal(t, signal.Volts(0), open)
	assert.Equal(t, signal.Failed, signal.Range2To10V().Read(open).Status, "a live zero tells the open loop")
	assert.Equal(t, signal.InRange, signal.Range0To10V().Read(open).Status, "a true zero cannot")
	assert.Equal(t, signal.Failed, signal.Range0To10V().Read(shunt.Convert(signal.Volts(5))).Status)
	assert.Equal(t, signal.Volts(0), signal.Shunt{}.Convert(signal.Milliamps(12)))
}

func TestShuntRefuses(t *testing.T) {
	nan, inf := units.Resistance(math.NaN()), units.Resistance(math.Inf(1))
	for _, cfg := range []signal.ShuntConfig{
		{}, {Resistor: -1 * units.Ohm}, {Resistor: nan}, {Resistor: inf},
		{Resistor: 500 * units.Ohm, Input: -1 * units.Ohm}, {Resistor: 500 * units.Ohm, Input: nan},
	} {
		_, err := signal.NewShunt(cfg)
		assert.ErrorIs(t, err, units.ErrInvalid, "%+v", cfg)
	}
	_, err := signal.NewShunt(signal.ShuntConfig{Input: -1 * units.Ohm})
	assert.ErrorContains(t, err, "Resistor")
	assert.ErrorContains(t, err, "Input", "both faults are reported")
	shunt := mustShunt(500*units.Ohm, 0)
	for _, r := range []signal.Range{signal.Range0To10V(), {}} {
		_, err := shunt.ConvertRange(r)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
	_, err = mustShunt(1*units.Milliohm, 0).ConvertRange(signal.Range4To20mA())
	assert.ErrorIs(t, err, units.ErrInvalid, "the ends come too close together")
}

func TestConvertedRangeReadsAsTheOriginal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shunt := mustShunt(units.Resistance(rapid.Float64Range(100, 1000).Draw(t, "R"))*units.Ohm, 100*units.Kilohm)
		low := rapid.Float64Range(0, 10).Draw(t, "low")
		r := mustRange(signal.Milliamps(low), signal.Milliamps(rapid.Float64Range(low+1.5, 30).Draw(t, "high")))
		volts, err := shunt.ConvertRange(r)
		require.NoError(t, err)
		s := signal.Milliamps(rapid.Float64Range(-5, 40).Draw(t, "x"))
		require.InDelta(t, r.Read(s).Demand, volts.Read(shunt.Convert(s)).Demand, 1e-12)
	})
}
