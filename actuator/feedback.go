package actuator

import (
	"math"

	"github.com/indexrun/indexrun/signal"
)

// FeedbackFor returns the position feedback at a relative travel of the valve,
// and false if the drive has none or the travel is NaN. The feedback is linear
// in the stem (common practice), so with a shaping it differs from the signal,
// and it covers the drive's span rather than the valve's stroke: a stroke set too
// short reports fully open, one set too long never does. Travels beyond the
// span are clamped to it.
func (m *Mounted) FeedbackFor(travel float64) (signal.Signal, bool) {
	cfg := &m.at().drive.cfg
	if cfg.Feedback.IsZero() || math.IsNaN(travel) {
		return signal.Signal{}, false
	}
	share := max(0, min(m.span(travel), 1))
	l := cfg.feedbackLine()
	return cfg.Feedback.Encode(l.at(share)), true
}

// TravelFromFeedback returns the relative travel that a feedback signal reports,
// and what the feedback range makes of the signal; without a valid signal the
// travel is that of the Reading's demand and means nothing.
func (m *Mounted) TravelFromFeedback(s signal.Signal) (float64, signal.Status) {
	cfg := &m.at().drive.cfg
	r := cfg.Feedback.Read(s)
	l := cfg.feedbackLine()
	return m.travel(l.at(r.Demand)), r.Status
}

// feedbackLine leads from the share of the span, counted from the closed end, to
// the feedback as a fraction.
func (c *Config) feedbackLine() line {
	rises := c.FeedbackSense == FeedbackExtending || c.FeedbackSense == FeedbackAsSignal && c.Action == Direct
	if rises == (c.ClosingEnd == Retracted) {
		return straight
	}
	return over
}
