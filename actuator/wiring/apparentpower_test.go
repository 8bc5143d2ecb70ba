package wiring_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/units"
)

func TestApparentPowerText(t *testing.T) {
	for text, want := range map[string]float64{"5 VA": 5, "5VA": 5, "0.16 kVA": 160, "1.5e1 VA": 15, ".5 VA": 0.5, "-2 VA": -2} {
		s, err := wiring.ParseApparentPower(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, s.In(wiring.VoltAmpere), 1e-12, text)
	}
	for _, text := range []string{"", "5", "5 W", "5,5 VA", "VA", "NaN VA", "1e999 VA", "1e306 kVA", "5 VAr", "0x1 VA", "1_0 VA"} {
		_, err := wiring.ParseApparentPower(text)
		assert.ErrorIs(t, err, units.ErrInvalid, text)
	}
	for want, s := range map[string]wiring.ApparentPower{
		"5 VA": 5, "18.75 VA": 18.75, "0 VA": 0, "1 kVA": 999.96, "999.9 VA": 999.94, "12.35 kVA": 12345, "-1.5 kVA": -1500,
	} {
		assert.Equal(t, want, s.String())
	}
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		_, err := wiring.ApparentPower(x).MarshalText()
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
	var s wiring.ApparentPower
	require.NoError(t, json.Unmarshal([]byte(`"62.5 VA"`), &s))
	assert.InDelta(t, 62.5, s.In(wiring.VoltAmpere), 0)
	assert.Error(t, json.Unmarshal([]byte(`62.5`), &s), "a bare number has no unit")
}
