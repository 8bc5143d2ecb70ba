package valve_test

import (
	"encoding"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

type enum interface {
	~uint8
	fmt.Stringer
	encoding.TextMarshaler
}

// checkWords checks the words of an enumeration, in the order of its constants.
func checkWords[E enum, P interface {
	*E
	encoding.TextUnmarshaler
}](t *testing.T, words ...string) {
	t.Helper()
	for i, word := range words {
		assert.Equal(t, word, E(i).String())
		text, err := E(i).MarshalText()
		require.NoError(t, err)
		assert.Equal(t, word, string(text))
		var back E
		require.NoError(t, P(&back).UnmarshalText(text))
		assert.Equal(t, E(i), back)
	}
	beyond := E(len(words))
	assert.Equal(t, fmt.Sprint("unknown ", len(words)), beyond.String())
	_, err := beyond.MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
	back := E(1)
	require.ErrorContains(t, P(&back).UnmarshalText([]byte("Nonsense")), words[0])
	assert.Equal(t, E(1), back, "left as it was")
}

func TestWords(t *testing.T) {
	checkWords[valve.Stem](t, "push-to-close", "push-to-open", "rotary")
	checkWords[valve.SettingKind](t, "area-limiting", "lift-limiting")
	checkWords[valve.Regime](t, "unknown", "regulated", "starved", "above-limit", "reversed")
	checkWords[valve.LeakageClass](t, "I", "II", "III", "IV", "V", "VI")
	checkWords[valve.Series](t, "R5", "R10")
	checkWords[valve.Problem](t, "none", "authority-too-low", "pressure-too-low", "rating-exceeded", "flow-below-settings", "flow-above-settings")
}
