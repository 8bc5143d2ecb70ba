package control_test

import (
	"encoding"
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// enum is what the enumerations have.
type enum interface {
	~uint8
	fmt.Stringer
	encoding.TextMarshaler
}

func checkWords[E enum, P interface {
	*E
	encoding.TextUnmarshaler
}](t *testing.T, words ...string) {
	t.Helper()
	for i, word := range words {
		assert.Equal(t, word, E(i).String())
		text, err := E(i).MarshalText()
		require.NoError(t, err)
		var back E
		require.NoError(t, P(&back).UnmarshalText(text))
		assert.Equal(t, E(i), back)
	}
	_, err := E(len(words)).MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
	var e E
	require.ErrorIs(t, P(&e).UnmarshalText([]byte("nonsense")), units.ErrInvalid)
}

func TestWords(t *testing.T) {
	checkWords[control.Action](t, "reverse-acting", "direct-acting")
	checkWords[control.Verdict](t, "undecided", "steady", "hunting")
	checkWords[control.Doubt](t, "no-doubt", "no-record", "too-few-cycles", "too-coarse", "too-noisy", "irregular", "dying")
}

func checkJSON[C any](t *testing.T, c C, want string) {
	t.Helper()
	data, err := json.Marshal(c)
	require.NoError(t, err)
	assert.JSONEq(t, want, string(data))
	var back C
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Empty(t, cmp.Diff(c, back))
	require.Error(t, json.Unmarshal([]byte(`{"Colour": "red"}`), &back), "unknown field")
}

func TestConfigurationsAreJSON(t *testing.T) {
	checkJSON(t, control.Tuning{Band: 4 * units.Kelvin, IntegralTime: 5 * time.Minute, DerivativeTime: 90 * time.Second, DerivativeFilter: 8},
		`{"Band": "4 K", "IntegralTime": "5m0s", "DerivativeTime": "1m30s", "DerivativeFilter": 8}`)
	checkJSON(t, control.ProcessConfig{Gain: 20 * units.Kelvin, TimeConstant: time.Hour, DeadTime: time.Minute},
		`{"Gain": "20 K", "TimeConstant": "1h0m0s", "DeadTime": "1m0s"}`)
	checkJSON(t, control.PlantConfig{Conductance: 100, TimeConstant: time.Hour, DeadTime: time.Minute, LeastStep: time.Second},
		`{"Conductance": "100 W/K", "TimeConstant": "1h0m0s", "DeadTime": "1m0s", "LeastStep": "1s"}`)
	checkJSON(t, control.ThreePointConfig{OpeningTime: time.Minute, ClosingTime: time.Second, AssumedTime: 2 * time.Second, DeadZone: 0.02},
		`{"OpeningTime": "1m0s", "ClosingTime": "1s", "AssumedTime": "2s", "DeadZone": 0.02}`)
	checkJSON(t, wax,
		`{"Cycle": "10m0s", "OpeningDelay": "1m30s", "OpeningTime": "4m0s", "TimeConstant": "3m0s", "OpenWithoutPower": false}`)
}

func TestModulatingConfigIsJSON(t *testing.T) {
	c := control.ModulatingConfig{Output: signal.Range2To10V(), DeadBand: 0.01}
	data, err := json.Marshal(c)
	require.NoError(t, err)
	assert.JSONEq(t, `{"Output": "2-10 V", "Resolution": 0, "DeadBand": 0.01, "Hysteresis": 0, "Unpowered": false}`, string(data))
	var back control.ModulatingConfig
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Empty(t, cmp.Diff(c, back))
}

func TestControllerConfigIsJSON(t *testing.T) {
	text := `{"Action": "direct-acting", "Tuning": {"Band": "4 K", "IntegralTime": "300s"}, "Bias": 0.5}`
	var c control.Config
	require.NoError(t, json.Unmarshal([]byte(text), &c))
	want := control.Config{Action: control.DirectActing, Tuning: control.Tuning{Band: 4, IntegralTime: 5 * time.Minute}, Bias: 0.5}
	assert.Empty(t, cmp.Diff(want, c))
	for _, bad := range []string{`{"Tuning": {"IntegralTime": "soon"}}`, `{"Tuning": {"IntegralTime": 300}}`, `{"Tuning": {"Band": 4}}`} {
		require.Error(t, json.Unmarshal([]byte(bad), &c), bad)
	}
	require.ErrorIs(t, json.Unmarshal([]byte(`{"Tuning": {"IntegralTime": "soon"}}`), &c), units.ErrInvalid)
}

// FuzzTuning reads anything without a panic, and what it takes it writes and reads
// again.
func FuzzTuning(f *testing.F) {
	f.Add(`{"Band": "4 K", "IntegralTime": "5m0s"}`)
	f.Add(`{"IntegralTime": "-1ns", "DerivativeFilter": 1e308}`)
	f.Fuzz(func(t *testing.T, text string) {
		var a, b control.Tuning
		if json.Unmarshal([]byte(text), &a) != nil {
			return
		}
		data, err := json.Marshal(a)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(data, &b))
		assert.Equal(t, a, b)
	})
}
