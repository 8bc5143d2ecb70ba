package actuator

import "github.com/indexrun/indexrun/units"

// Mismatch says what a difference between the drive's stroke and the valve's
// costs. The same holds for angles.
type Mismatch struct {
	// StrokeRatio is the drive's stroke over the valve's: 1 if they match. For a
	// self-adapting drive more than 1 is usual.
	StrokeRatio float64
	// GreatestTravel is the relative travel at an opening demand of 1. Set too
	// short, a drive never opens the valve further than s_a/s_v.
	GreatestTravel float64
	// IdleFrom and IdleTo bound the demands that move nothing, because the stem
	// stands at the valve's stop: where the opening demand exceeds the shaping's
	// inverse of s_v/s_a. It is the top of the signal if a rising signal opens,
	// the bottom if it closes. Both are 0 if there is no such part.
	IdleFrom, IdleTo float64
	// ResolutionLost is the share of the drive's own stroke, and so of the
	// positions it can tell apart, that the valve leaves unused.
	ResolutionLost float64
	// FoundTravel (or FoundAngle) is what a self-adapting drive reports after
	// calibration; 0 for a fixed drive, which seeks the closed stop only.
	FoundTravel units.Length
	FoundAngle  units.Angle
}

// Mismatch returns what the difference between the two strokes costs.
func (m *Mounted) Mismatch() Mismatch {
	if m.place == nil {
		return Mismatch{}
	}
	used := m.GreatestTravel() - m.LeastTravel()
	r := Mismatch{StrokeRatio: m.place.ratio, GreatestTravel: m.GreatestTravel(),
		ResolutionLost: max(0, 1-used/m.place.ratio)}
	if m.place.drive.cfg.StrokeMode == SelfAdapting {
		r.FoundTravel = units.Length(used) * m.place.stroke
		r.FoundAngle = units.Angle(used) * m.place.angle
	}
	r.IdleFrom, r.IdleTo = m.idle()
	return r
}

// idle returns the demands at which the valve's open stop holds the stem.
func (m *Mounted) idle() (from, to float64) {
	reached := m.shape.curve.Inverse(m.span(m.top))
	if !(reached < 1) {
		return 0, 0
	}
	a, b := m.toOpen.at(reached), m.toOpen.at(1)
	return min(a, b), max(a, b)
}
