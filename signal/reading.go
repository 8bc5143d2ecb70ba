package signal

import "math"

// Reading is what a range makes of a signal: the demand 0…1 and how far to trust
// it. What Demand holds is stated for each [Status]; it is never NaN.
type Reading struct {
	Demand float64
	Status Status
}

// Read decodes a signal: demand = (s − at0)/(at1 − at0), clamped to 0…1, where at0
// and at1 are the signals for demand 0 and 1. It never fails: what is wrong with a
// signal is the [Status] of the reading. The limits between the statuses are in the
// package comment.
func (r Range) Read(s Signal) Reading {
	// All in one leaf function: a call would double the time of the common case.
	x := float64((s.value - r.at0) * r.perSignal)
	if x > 0 && x < 1 && s.kind == r.kind {
		return Reading{x, InRange}
	}
	if s.kind != r.kind || s.kind == KindNone || math.IsNaN(x) {
		return unreadable(s.kind, r.kind)
	}
	if x >= 1 {
		x = 1
	} else {
		x = 0
	}
	v := s.value
	if low, high := r.whole.measured(); v >= low && v <= high {
		return Reading{x, InRange}
	}
	if below, above := r.whole.failed(); v <= below || v >= above {
		return Reading{x, Failed}
	}
	if v < r.whole.low {
		return Reading{x, UnderRange}
	}
	return Reading{x, OverRange}
}

// unreadable is the reading of a signal whose number says nothing: of another kind
// than the range, or NaN.
func unreadable(kind, want Kind) Reading {
	switch kind {
	case KindNone:
		return Reading{0, NoSignal}
	case want:
		return Reading{0, Failed}
	default:
		return Reading{0, WrongKind}
	}
}
