package hydronics_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/units"
)

func TestResistanceTextIsLossless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := hydronics.Resistance(rapid.Float64().Draw(t, "r"))
		text, err := json.Marshal(want)
		require.NoError(t, err)
		var got hydronics.Resistance
		require.NoError(t, json.Unmarshal(text, &got))
		require.Equal(t, want, got)
	})
	assert.Equal(t, "1.667e+12 Pa/(m³/s)²", hydronics.Resistance(5e12/3).String())
}

func TestResistanceTextRefuses(t *testing.T) {
	for _, text := range []string{"", "5", "5 Pa", "x Pa/(m³/s)²", "NaN Pa/(m³/s)²", "1e999 Pa/(m³/s)²"} {
		var r hydronics.Resistance
		assert.ErrorIs(t, r.UnmarshalText([]byte(text)), units.ErrInvalid, text)
	}
	var r hydronics.Resistance
	assert.Error(t, json.Unmarshal([]byte("5"), &r))
	_, err := hydronics.Resistance(math.Inf(1)).MarshalText()
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func FuzzResistanceText(f *testing.F) {
	f.Add("1.5e12 Pa/(m³/s)²")
	f.Fuzz(func(t *testing.T, text string) {
		var r hydronics.Resistance
		if r.UnmarshalText([]byte(text)) == nil && math.IsNaN(float64(r)) {
			t.Error("NaN from text")
		}
	})
}
