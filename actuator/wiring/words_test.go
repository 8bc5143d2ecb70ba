package wiring_test

import (
	"encoding"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/units"
)

type word[E any] interface {
	*E
	encoding.TextUnmarshaler
}

func testWords[E interface {
	~uint8
	fmt.Stringer
	encoding.TextMarshaler
}, P word[E]](t *testing.T, words ...string) {
	t.Helper()
	for i, w := range words {
		e := E(i)
		assert.Equal(t, w, e.String())
		text, err := e.MarshalText()
		require.NoError(t, err)
		var back E
		require.NoError(t, P(&back).UnmarshalText(text))
		assert.Equal(t, e, back)
	}
	beyond := E(len(words))
	_, err := beyond.MarshalText()
	assert.ErrorIs(t, err, units.ErrInvalid)
	assert.Contains(t, beyond.String(), fmt.Sprint(len(words)))
	assert.ErrorIs(t, P(&beyond).UnmarshalText([]byte("nonsense")), units.ErrInvalid)
	assert.Equal(t, E(len(words)), beyond, "left alone")
}

func TestWords(t *testing.T) {
	testWords[wiring.SupplyKind](t, "alternating", "direct")
	testWords[wiring.End](t, "near-end", "far-end")
	testWords[wiring.Common](t, "shared", "separate")
	testWords[wiring.Feed](t, "shared-signal", "own-signal", "no-signal")
	testWords[wiring.LoadModel](t, "constant-power", "constant-current", "constant-resistance")
	testWords[wiring.Rectification](t, "half-wave", "full-wave")
	testWords[wiring.Class](t, "class-2", "class-5")
	testWords[wiring.Bound](t, "unbound", "signal-error", "supply-drop", "supply-tolerance", "power")
}
