package actuator_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

var ranges = []signal.Range{
	signal.Range0To10V(), signal.Range2To10V(), signal.Range0To5V(), signal.Range5To10V(), signal.Range1To5V(),
	signal.Range0To20mA(), signal.Range4To20mA(), signal.Range0To10V().Inverse(), signal.Range4To20mA().Inverse(),
}

// configs draws valid configurations of linear and rotary drives.
func configs(t *rapid.T) actuator.Config {
	cfg := actuator.Config{
		Input:         rapid.SampledFrom(ranges).Draw(t, "input"),
		Action:        actuator.Action(rapid.Uint8Range(0, 1).Draw(t, "action")),
		ClosingEnd:    actuator.End(rapid.Uint8Range(0, 1).Draw(t, "closing end")),
		StrokeMode:    actuator.StrokeMode(rapid.Uint8Range(0, 1).Draw(t, "mode")),
		RunningTime:   time.Duration(rapid.Int64Range(int64(time.Second), int64(10*time.Minute)).Draw(t, "time")),
		Feedback:      rapid.SampledFrom(append(ranges, signal.Range{})).Draw(t, "feedback"),
		FeedbackSense: actuator.FeedbackSense(rapid.Uint8Range(0, 2).Draw(t, "sense")),
		PowerLoss:     actuator.PowerLoss(rapid.Uint8Range(0, 2).Draw(t, "power loss")),
		OpenWire:      actuator.OpenWire(rapid.Uint8Range(0, 2).Draw(t, "open wire")),
		BelowLiveZero: actuator.BelowLiveZero(rapid.Uint8Range(0, 3).Draw(t, "below live zero")),
	}
	if cfg.PowerLoss != actuator.Hold {
		cfg.SpringTime = time.Duration(rapid.Int64Range(0, int64(time.Hour)).Draw(t, "spring time"))
	}
	switch rapid.IntRange(0, 2).Draw(t, "shaping") {
	case 1:
		cfg.Shaping = actuator.ZeroBasedEqualPercentage(rapid.Float64Range(1.5, 1000).Draw(t, "ratio"))
	case 2:
		cfg.Shaping = actuator.Tabulated([]actuator.Point{{}, {
			Opening: rapid.Float64Range(0.2, 0.8).Draw(t, "opening"), Share: rapid.Float64Range(0.2, 0.8).Draw(t, "share"),
		}, {Opening: 1, Share: 1}})
	}
	if rapid.Bool().Draw(t, "rotary") {
		cfg.Angle = units.Angle(rapid.Float64Range(30, 350).Draw(t, "angle")) * units.Degree
		cfg.Torque = units.Torque(rapid.Float64Range(0, 50).Draw(t, "torque"))
		return cfg
	}
	cfg.Stroke = units.Length(rapid.Float64Range(1, 60).Draw(t, "stroke")) * units.Millimetre
	cfg.Force = units.Force(rapid.Float64Range(0, 3000).Draw(t, "force"))
	return cfg
}

func TestConfigJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := configs(t)
		data, err := json.Marshal(cfg)
		if err != nil {
			t.Fatal(err)
		}
		var back actuator.Config
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatalf("%v\n%s", err, data)
		}
		if diff := cmp.Diff(cfg, back); diff != "" {
			t.Fatal(diff)
		}
		a, err := actuator.New(cfg)
		if err != nil {
			t.Fatal(err)
		}
		if b, _ := actuator.New(back); !cmp.Equal(a, b) || !cmp.Equal(a.Config(), cfg) {
			t.Fatal("the actuators differ")
		}
	})
}

func TestConfigJSONIsReadable(t *testing.T) {
	data, err := json.MarshalIndent(actuator.Config{
		Input: signal.Range2To10V(), Action: actuator.Reverse, Shaping: actuator.ZeroBasedEqualPercentage(50),
		Stroke: 5.5 * units.Millimetre, StrokeMode: actuator.SelfAdapting, Force: 120 * units.Newton, RunningTime: 75 * time.Second,
	}, "", " ")
	require.NoError(t, err)
	assert.JSONEq(t, `{"Input": "2-10 V", "Action": "reverse", "ClosingEnd": "extended", "Shaping": "zero-based-equal-percentage 50",
		"Stroke": "0.0055 m", "StrokeMode": "self-adapting", "Force": "120 N", "FeedbackSense": "as-signal", "PowerLoss": "hold",
		"OpenWire": "as-zero-signal", "BelowLiveZero": "as-lowest-signal", "RunningTime": "1m15s"}`, string(data))
}

func TestSpringTimeInJSON(t *testing.T) {
	cfg := actuator.Config{Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre, PowerLoss: actuator.SpringExtends, SpringTime: 15 * time.Second}
	data, err := json.Marshal(cfg)
	require.NoError(t, err)
	assert.Contains(t, string(data), `"SpringTime":"15s"`)
	assert.NotContains(t, string(data), "RunningTime")
	slow := cfg
	slow.SpringTime = 30 * time.Second
	a, err := actuator.New(cfg)
	require.NoError(t, err)
	b, err := actuator.New(slow)
	require.NoError(t, err)
	assert.False(t, a.Equal(b))
}

func TestConfigJSONFaults(t *testing.T) {
	for text, want := range map[string]string{
		`{"Storke": "5 mm"}`:       "Storke",
		`{"RunningTime": "75"}`:    "75s",
		`{"RunningTime": 75}`:      "number",
		`{"SpringTime": "soon"}`:   "SpringTime: got soon",
		`{"SpringTime": 15}`:       "number",
		`{"Stroke": 5}`:            "unit",
		`{"Action": "backwards"}`:  "direct, reverse",
		`{"Shaping": "parabolic"}`: "zero-based",
		`[]`:                       "array",
	} {
		cfg := actuator.Config{Stroke: 5 * units.Millimetre}
		err := json.Unmarshal([]byte(text), &cfg)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), want)
		assert.Equal(t, 5*units.Millimetre, cfg.Stroke, "left alone")
	}
}

func TestNewReportsEveryFault(t *testing.T) {
	_, err := actuator.New(actuator.Config{
		Action: 2, ClosingEnd: 2, Shaping: actuator.ZeroBasedEqualPercentage(0),
		Stroke: 5 * units.Millimetre, Angle: units.Angle(math.NaN()), StrokeMode: 2,
		Force: -1, Torque: units.Torque(math.Inf(1)), RunningTime: -time.Second,
		FeedbackSense: 3, PowerLoss: 3, OpenWire: 3, BelowLiveZero: 4, SpringTime: -time.Second,
	})
	var fields []string
	for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
		var field *units.FieldError
		require.True(t, errors.As(e, &field))
		require.ErrorIs(t, e, units.ErrInvalid)
		assert.Equal(t, "actuator", field.Package)
		fields = append(fields, field.Field)
	}
	assert.Equal(t, "Input Shaping Angle Force Torque Angle Force RunningTime SpringTime Action ClosingEnd StrokeMode "+
		"FeedbackSense PowerLoss OpenWire BelowLiveZero", strings.Join(fields, " "))
}

func TestNewNeedsOneKindOfTravel(t *testing.T) {
	base := actuator.Config{Input: signal.Range0To10V()}
	tests := map[string]func(*actuator.Config){
		"neither":          func(*actuator.Config) {},
		"both":             func(c *actuator.Config) { c.Stroke, c.Angle = 5*units.Millimetre, 90*units.Degree },
		"negative stroke":  func(c *actuator.Config) { c.Stroke = -5 * units.Millimetre },
		"NaN stroke":       func(c *actuator.Config) { c.Stroke = units.Length(math.NaN()) },
		"two turns":        func(c *actuator.Config) { c.Angle = 720 * units.Degree },
		"torque on linear": func(c *actuator.Config) { c.Stroke, c.Torque = 5*units.Millimetre, 5*units.NewtonMetre },
		"force on rotary":  func(c *actuator.Config) { c.Angle, c.Force = 90*units.Degree, 5*units.Newton },
		"more than a day":  func(c *actuator.Config) { c.Stroke, c.RunningTime = 5*units.Millimetre, 25*time.Hour },
		"spring of a day": func(c *actuator.Config) {
			c.Stroke, c.PowerLoss, c.SpringTime = 5*units.Millimetre, actuator.SpringExtends, 25*time.Hour
		},
		"time of no spring":  func(c *actuator.Config) { c.Stroke, c.SpringTime = 5*units.Millimetre, 15*time.Second },
		"no range":           func(c *actuator.Config) { c.Stroke, c.Input = 5*units.Millimetre, signal.Range{} },
		"negative NaN force": func(c *actuator.Config) { c.Stroke, c.Force = 5*units.Millimetre, units.Force(math.NaN()) },
	}
	for name, change := range tests {
		t.Run(name, func(t *testing.T) {
			cfg := base
			change(&cfg)
			_, err := actuator.New(cfg)
			assert.ErrorIs(t, err, units.ErrInvalid)
		})
	}
}

func FuzzConfigJSON(f *testing.F) {
	f.Add(`{"Input": "0-10 V", "Stroke": "5 mm", "RunningTime": "75s", "Shaping": "table 0:0 0.5:0.2 1:1"}`)
	f.Add(`{"Input": "20-4 mA", "Angle": "90 °", "Torque": "5 Nm", "PowerLoss": "spring-extends", "SpringTime": "15s"}`)
	f.Fuzz(func(t *testing.T, text string) {
		var cfg, back actuator.Config
		if json.Unmarshal([]byte(text), &cfg) != nil {
			return
		}
		if _, err := actuator.New(cfg); err != nil {
			return
		}
		data, err := json.Marshal(cfg)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(data, &back))
		require.Empty(t, cmp.Diff(cfg, back))
	})
}
