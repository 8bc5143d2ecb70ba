package actuator_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
)

// By hand: 2–10 V feedback of a valve a quarter open. A push-to-close valve has its
// stem three quarters out then.
func TestFeedbackSense(t *testing.T) {
	tests := []struct {
		action  actuator.Action
		closing actuator.End
		sense   actuator.FeedbackSense
		volts   float64
	}{
		{actuator.Direct, actuator.Extended, actuator.FeedbackAsSignal, 8},
		{actuator.Direct, actuator.Extended, actuator.FeedbackExtending, 8},
		{actuator.Direct, actuator.Extended, actuator.FeedbackRetracting, 4},
		{actuator.Reverse, actuator.Extended, actuator.FeedbackAsSignal, 4},
		{actuator.Reverse, actuator.Extended, actuator.FeedbackExtending, 8},
		{actuator.Reverse, actuator.Extended, actuator.FeedbackRetracting, 4},
		{actuator.Direct, actuator.Retracted, actuator.FeedbackAsSignal, 4},
		{actuator.Direct, actuator.Retracted, actuator.FeedbackExtending, 4},
		{actuator.Direct, actuator.Retracted, actuator.FeedbackRetracting, 8},
		{actuator.Reverse, actuator.Retracted, actuator.FeedbackAsSignal, 8},
		{actuator.Reverse, actuator.Retracted, actuator.FeedbackExtending, 4},
		{actuator.Reverse, actuator.Retracted, actuator.FeedbackRetracting, 8},
	}
	for _, tt := range tests {
		m := onStroke(t, 5, 5, func(c *actuator.Config) {
			c.Action, c.ClosingEnd, c.Feedback, c.FeedbackSense = tt.action, tt.closing, signal.Range2To10V(), tt.sense
		})
		s, ok := m.FeedbackFor(0.25)
		assert.True(t, ok)
		assert.InDelta(t, tt.volts, s.Number(), 1e-12, "%+v", tt)
		h, status := m.TravelFromFeedback(s)
		assert.Equal(t, signal.InRange, status)
		assert.InDelta(t, 0.25, h, 1e-12)
	}
}

// The trap: the drive reports what it counts, not what the valve does.
func TestFeedbackCannotSeeAShortStroke(t *testing.T) {
	feedback := func(c *actuator.Config) { c.Feedback = signal.Range0To10V() }
	short, long := onStroke(t, 4, 5, feedback), onStroke(t, 6.25, 5, feedback)
	s, _ := short.FeedbackFor(short.Respond(signal.Volts(10)).Travel)
	assert.InDelta(t, 10, s.Number(), 1e-12, "fully open, it says; the valve is at 80 %")
	s, _ = long.FeedbackFor(1)
	assert.InDelta(t, 8, s.Number(), 1e-12, "never fully open, it says; the valve is")
}

func TestFeedbackFollowsTheSignalOfALinearDrive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := configs(t)
		cfg.Feedback, cfg.FeedbackSense, cfg.Shaping = cfg.Input, actuator.FeedbackAsSignal, actuator.Linear()
		a, err := actuator.New(cfg)
		if err != nil {
			t.Fatal(err)
		}
		m, _ := mountOnOwn(a)
		in := cfg.Input.Encode(rapid.Float64Range(0, 1).Draw(t, "demand"))
		out, ok := m.FeedbackFor(m.Respond(in).Travel)
		if !ok || math.Abs(out.Number()-in.Number()) > 1e-12*20 {
			t.Fatalf("%v in, %v back", in, out)
		}
	})
}

func TestNoFeedback(t *testing.T) {
	m := onStroke(t, 5, 5, nil)
	_, ok := m.FeedbackFor(0.5)
	assert.False(t, ok)
	_, status := m.TravelFromFeedback(signal.Volts(5))
	assert.Equal(t, signal.WrongKind, status)
	m = onStroke(t, 5, 5, func(c *actuator.Config) { c.Feedback = signal.Range0To10V() })
	_, ok = m.FeedbackFor(math.NaN())
	assert.False(t, ok)
}
