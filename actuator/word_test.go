package actuator_test

import (
	"encoding"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/units"
)

func TestEnumerationTexts(t *testing.T) {
	checkWords[actuator.Action](t, "direct", "reverse")
	checkWords[actuator.End](t, "extended", "retracted")
	checkWords[actuator.PowerLoss](t, "hold", "spring-extends", "spring-retracts")
	checkWords[actuator.OpenWire](t, "as-zero-signal", "as-full-signal", "hold")
	checkWords[actuator.BelowLiveZero](t, "as-lowest-signal", "hold", "to-extended", "to-retracted")
	checkWords[actuator.StrokeMode](t, "fixed", "self-adapting")
	checkWords[actuator.FeedbackSense](t, "as-signal", "rises-extending", "rises-retracting")
	checkWords[actuator.State](t, "unpowered", "calibrating", "tracking", "end-stop-not-found")
	checkWords[actuator.Failure](t, "zero-signal", "open-wire", "below-live-zero", "power-loss", "end-stop-not-found")
	checkWords[actuator.Outcome](t, "not-applicable", "open", "closed", "hold")
}

// enumeration is what a pointer to an enumeration offers.
type enumeration[E any] interface {
	*E
	fmt.Stringer
	encoding.TextMarshaler
	encoding.TextUnmarshaler
}

func checkWords[E ~uint8, P enumeration[E]](t *testing.T, words ...string) {
	t.Helper()
	for i, word := range words {
		e := E(i)
		text, err := P(&e).MarshalText()
		require.NoError(t, err)
		assert.Equal(t, word, string(text))
		assert.Equal(t, word, P(&e).String())
		var back E
		require.NoError(t, P(&back).UnmarshalText(text))
		assert.Equal(t, e, back)
	}
	beyond := E(len(words))
	_, err := P(&beyond).MarshalText()
	assert.ErrorIs(t, err, units.ErrInvalid)
	assert.Equal(t, fmt.Sprint("unknown ", len(words)), P(&beyond).String())
	assert.ErrorIs(t, P(&beyond).UnmarshalText([]byte("sideways")), units.ErrInvalid)
	assert.Equal(t, E(len(words)), beyond, "left alone")
}
