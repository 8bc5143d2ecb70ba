package signal_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func TestStatusWords(t *testing.T) {
	words := map[signal.Status]string{
		signal.NoSignal: "no-signal", signal.InRange: "in-range", signal.UnderRange: "under-range",
		signal.OverRange: "over-range", signal.Failed: "failed", signal.WrongKind: "wrong-kind",
	}
	for status, word := range words {
		text, err := status.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, word, string(text))
		var got signal.Status
		require.NoError(t, got.UnmarshalText(text))
		assert.Equal(t, status, got)
	}
	_, err := (signal.WrongKind + 1).MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.Equal(t, "unknown 6", (signal.WrongKind + 1).String())
	got := signal.Failed
	require.ErrorIs(t, got.UnmarshalText([]byte("broken")), units.ErrInvalid)
	assert.Equal(t, signal.Failed, got)
}

func TestStatusValid(t *testing.T) {
	valid := []signal.Status{signal.InRange, signal.UnderRange, signal.OverRange}
	for s := range signal.WrongKind + 2 {
		assert.Equal(t, slices.Contains(valid, s), s.Valid(), s)
	}
}

func TestKindWords(t *testing.T) {
	for kind, word := range map[signal.Kind]string{
		signal.KindNone: "none", signal.KindVoltage: "voltage", signal.KindCurrent: "current",
	} {
		text, err := kind.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, word, string(text))
		var got signal.Kind
		require.NoError(t, got.UnmarshalText(text))
		assert.Equal(t, kind, got)
	}
	_, err := (signal.KindCurrent + 1).MarshalText()
	assert.ErrorIs(t, err, units.ErrInvalid)
}
