package control

import "math"

// span is what values lie within.
type span struct{ low, high float64 }

func newSpan() span { return span{math.Inf(1), math.Inf(-1)} }

func (s *span) add(v float64) {
	if v < s.low {
		s.low = v
	}
	if v > s.high {
		s.high = v
	}
}

func (s *span) size() float64 { return s.high - s.low }
