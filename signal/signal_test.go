package signal_test

import (
	"encoding/json"
	"flag"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func TestSignalAccessors(t *testing.T) {
	v, ok := signal.Volts(6.2).Voltage()
	assert.True(t, ok)
	assert.InDelta(t, 6.2, v.In(units.Volt), 1e-15)
	i, ok := signal.Milliamps(12).Current()
	assert.True(t, ok)
	assert.InDelta(t, 0.012, i.In(units.Ampere), 1e-17)
	_, ok = signal.Volts(6.2).Current()
	assert.False(t, ok)
	_, ok = signal.Milliamps(12).Voltage()
	assert.False(t, ok)
	assert.Equal(t, signal.KindCurrent, signal.Milliamps(12).Kind())
	assert.InDelta(t, 12.0, signal.Milliamps(12).Number(), 0)
}

func TestSignalFromQuantity(t *testing.T) {
	assert.Equal(t, signal.Volts(6.2), signal.FromVoltage(6.2*units.Volt))
	assert.InDelta(t, 12, signal.FromCurrent(12*units.Milliampere).Number(), 1e-14)
	assert.InDelta(t, 1500, signal.FromCurrent(1.5*units.Ampere).Number(), 1e-12)
}

func TestZeroSignalIsNone(t *testing.T) {
	var s signal.Signal
	assert.True(t, s.IsZero())
	assert.Equal(t, signal.KindNone, s.Kind())
	assert.Equal(t, "none", s.String())
	assert.False(t, signal.Volts(0).IsZero(), "0 V is a signal")
	_, ok := s.Voltage()
	assert.False(t, ok)
}

func TestSignalEqualServesCmp(t *testing.T) {
	assert.Empty(t, cmp.Diff(signal.Volts(3), signal.Volts(3)))
	assert.NotEmpty(t, cmp.Diff(signal.Volts(3), signal.Milliamps(3)))
	assert.False(t, signal.Volts(math.NaN()).Equal(signal.Volts(math.NaN())))
}

func TestParseSignal(t *testing.T) {
	for text, want := range map[string]signal.Signal{
		"6.2 V":      signal.Volts(6.2),
		"6.2V":       signal.Volts(6.2),
		" 6.2 V DC ": signal.Volts(6.2),
		"6.2 VDC":    signal.Volts(6.2),
		"5. V":       signal.Volts(5),
		".5 V":       signal.Volts(0.5),
		"-0.1 V":     signal.Volts(-0.1),
		"−0.1 V":     signal.Volts(-0.1),
		"1e1 V":      signal.Volts(10),
		"6200 mV":    signal.Volts(6.2),
		"12 mA":      signal.Milliamps(12),
		"+12mA":      signal.Milliamps(12),
		"0.012 A":    signal.Milliamps(12),
		"none":       {},
	} {
		got, err := signal.Parse(text)
		if assert.NoError(t, err, text) {
			assert.Equal(t, want, got, text)
		}
	}
}

func TestParseSignalRefuses(t *testing.T) {
	for text, reason := range map[string]string{
		"":          "number with V or mA",
		"6.2":       "number with V or mA",
		"V":         "number with V or mA",
		"NaN V":     "number with V or mA",
		"Inf V":     "number with V or mA",
		"0x1p2 V":   "number with V or mA",
		"1_0 V":     "number with V or mA",
		"6.2 v":     "number with V or mA",
		"6.2 kV":    "number with V or mA",
		"6.2 V AC":  "number with V or mA",
		"6,2 V":     "the comma is ambiguous",
		"1e400 V":   "range of float64",
		"1e308 A":   "range of float64",
		"6.2 V 3 V": "number with V or mA",
	} {
		_, err := signal.Parse(text)
		require.ErrorIs(t, err, units.ErrInvalid, text)
		assert.ErrorContains(t, err, reason, text)
	}
}

func TestMustParsePanicsOnBadText(t *testing.T) {
	assert.Equal(t, signal.Volts(6.2), signal.MustParse("6.2 V"))
	assert.Panics(t, func() { signal.MustParse("6.2") })
}

func TestSignalText(t *testing.T) {
	for want, s := range map[string]signal.Signal{
		"6.2 V":      signal.Volts(6.2),
		"3.33333 V":  signal.Volts(10.0 / 3),
		"12 mA":      signal.Milliamps(12),
		"0 V":        signal.Volts(0),
		"-0.25 V":    signal.Volts(-0.25),
		"NaN mA":     signal.Milliamps(math.NaN()),
		"+Inf V":     signal.Volts(math.Inf(1)),
		"none":       {},
		"1e+300 V":   signal.Volts(1e300),
		"2.5e-05 mA": signal.Milliamps(2.5e-5),
	} {
		assert.Equal(t, want, s.String())
	}
}

func TestSignalTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Draw(t, "x")
		s := rapid.SampledFrom([]signal.Signal{signal.Volts(x), signal.Milliamps(x), {}}).Draw(t, "signal")
		text, err := s.MarshalText()
		require.NoError(t, err)
		var got signal.Signal
		require.NoError(t, got.UnmarshalText(text))
		assert.Equal(t, s.Kind(), got.Kind())
		assert.Equal(t, math.Float64bits(s.Number()), math.Float64bits(got.Number()), "without loss: %s", text)
	})
}

func TestSignalWithoutTextForm(t *testing.T) {
	for _, s := range []signal.Signal{signal.Volts(math.NaN()), signal.Milliamps(math.Inf(-1))} {
		_, err := s.MarshalText()
		require.ErrorIs(t, err, units.ErrInvalid)
	}
	s := signal.Volts(3)
	require.Error(t, s.UnmarshalText([]byte("x")))
	assert.Equal(t, signal.Volts(3), s, "a bad text leaves the value alone")
}

func TestSignalAndRangeInJSON(t *testing.T) {
	type point struct {
		Signal signal.Signal
		Input  signal.Range
		Feed   signal.Range
		Kind   signal.Kind
		Status signal.Status
	}
	in := point{signal.Volts(6.2), signal.Range4To20mA(), signal.Range{}, signal.KindCurrent, signal.OverRange}
	b, err := json.Marshal(in)
	require.NoError(t, err)
	assert.JSONEq(t, `{"Signal":"6.2 V","Input":"4-20 mA","Feed":"","Kind":"current","Status":"over-range"}`, string(b))
	var out point
	require.NoError(t, json.Unmarshal(b, &out))
	assert.Empty(t, cmp.Diff(in, out))
	assert.Error(t, json.Unmarshal([]byte(`{"Signal":6.2}`), &out), "a bare number has no unit")
}

func TestSignalAndRangeAsFlags(t *testing.T) {
	var s signal.Signal
	var r signal.Range
	fs := flag.NewFlagSet("test", flag.ContinueOnError)
	fs.TextVar(&s, "signal", signal.Volts(0), "")
	fs.TextVar(&r, "input", signal.Range0To10V(), "")
	require.NoError(t, fs.Parse([]string{"-signal", "12 mA", "-input", "4…20 mA"}))
	assert.Equal(t, signal.Milliamps(12), s)
	assert.Equal(t, signal.Range4To20mA(), r)
}
