package signal_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func TestNamedRangeTexts(t *testing.T) {
	for _, tt := range named {
		assert.Equal(t, tt.text, tt.r.String())
		got, err := signal.ParseRange(tt.text)
		require.NoError(t, err, tt.text)
		assert.Equal(t, tt.r, got)
	}
	assert.Equal(t, "10-0 V", signal.Range0To10V().Inverse().String())
	assert.Equal(t, "20-4 mA", signal.Range4To20mA().Inverse().String())
	assert.Equal(t, "10-5 V", signal.Range5To10V().Inverse().String())
}

func TestParseRangeSpellings(t *testing.T) {
	window := must(mustRange(signal.Volts(6), signal.Volts(9)).Within(signal.Range0To10V()))
	for text, want := range map[string]signal.Range{
		"0-10V":                signal.Range0To10V(),
		"0 - 10 V":             signal.Range0To10V(),
		"0–10 V":               signal.Range0To10V(),
		"0—10 V":               signal.Range0To10V(),
		"0−10 V":               signal.Range0To10V(),
		"0…10 V":               signal.Range0To10V(),
		"0..10 V":              signal.Range0To10V(),
		"0...10 V":             signal.Range0To10V(),
		"0 to 10 V":            signal.Range0To10V(),
		"0 V to 10 V":          signal.Range0To10V(),
		"0.0-10.0 V":           signal.Range0To10V(),
		" 0-10 V DC ":          signal.Range0To10V(),
		"0-10 VDC":             signal.Range0To10V(),
		"4–20 mA":              signal.Range4To20mA(),
		"4 mA…20mA":            signal.Range4To20mA(),
		"10-0 V":               signal.Range0To10V().Inverse(),
		"20 to 4 mA":           signal.Range4To20mA().Inverse(),
		"6-9 V of 0-10 V":      window,
		"6…9 V of 0 to 10 VDC": window,
		"5-10 V of 0-10 V":     signal.Range5To10V(),
	} {
		got, err := signal.ParseRange(text)
		if assert.NoError(t, err, text) {
			assert.Equal(t, want, got, text)
		}
	}
}

func TestParseRangeRefuses(t *testing.T) {
	for text, reason := range map[string]string{
		"":                 "two ends",
		"10 V":             "two ends",
		"0-10":             "two ends",
		"0-10 v":           "two ends",
		"0-10 V AC":        "two ends",
		"0 mA-10 V":        "two ends",
		"0-5-10 V":         "two ends",
		"-10-10 V":         "two ends",
		"0x0-10 V":         "two ends",
		"0to10 V of":       "two ends",
		"NaN-10 V":         "two ends",
		"0,5-4,5 V":        "the comma is ambiguous",
		"5-5 V":            "at least 0.1",
		"0-1e3 V":          "0 … 100",
		"0-1e999 V":        "float64",
		"0-10 V of 2-10 V": "a range that holds 0-10 V",
		"6-9 V of 4-20 mA": "same kind",
		"6-9 V of 0-x V":   "two ends",
	} {
		_, err := signal.ParseRange(text)
		require.ErrorIs(t, err, units.ErrInvalid, text)
		assert.ErrorContains(t, err, reason, text)
	}
	assert.Panics(t, func() { signal.MustParseRange("10 V") })
	assert.Equal(t, signal.Range0To10V(), signal.MustParseRange("0-10 V"))
}

func TestRangeTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRange(t)
		text, err := r.MarshalText()
		require.NoError(t, err)
		var got signal.Range
		require.NoError(t, got.UnmarshalText(text), "%s", text)
		require.Equal(t, r, got, "%s", text)
	})
}

func TestRangeTextOfZeroAndOfBadText(t *testing.T) {
	text, err := signal.Range{}.MarshalText()
	require.NoError(t, err)
	assert.Empty(t, text)
	r := signal.Range0To10V()
	require.Error(t, r.UnmarshalText([]byte("x")))
	assert.Equal(t, signal.Range0To10V(), r, "a bad text leaves the value alone")
	require.NoError(t, r.UnmarshalText(nil))
	assert.True(t, r.IsZero())
}
