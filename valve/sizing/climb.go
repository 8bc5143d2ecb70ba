package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
)

// climbAll is kv for all that is left: it searches upwards from the turbulent Kv,
// through reduced trim, full-size trim and what lies beyond the limit of n.
func (s *search) climbAll(turbulent float64) (c float64, ok bool) {
	s.perQ = 1 / s.q
	at := fastlog.Cbrt(turbulent / s.area)
	if at < fullSizeRoot {
		if root, ok := s.climb(at, fullSizeRoot, false); ok {
			return min(s.coefficient(root), math.Nextafter(fullSizeFrom*s.area, 0)), true
		}
		at = fullSizeRoot
	}
	if at < flatRoot {
		if root, ok := s.climbFullSize(at); ok {
			return max(s.coefficient(root), fullSizeFrom*s.area), true
		}
		at = flatRoot
	}
	root, ok := s.climbOpen(max(at, math.Nextafter(flatRoot, 1))) // with the slope above the kink
	return s.coefficient(root), ok
}

// excess returns the share by which the flow through the Kv at root exceeds q, if q
// sets its Reynolds number, and the elasticity of that flow in root.
func (s *search) excess(root float64, full bool) (share, slope float64) {
	c := s.coefficient(root)
	turbulent, slope := s.capacity(c)
	n, nSlope := trimFactor(root, full)
	fr, byRev, byN := s.factor(s.speed(c)*s.q, n)
	slope += float64(byRev*s.speedSlope(c)) + float64(byN*nSlope)
	return float64(fr*turbulent*s.perQ) - 1, 3 * slope
}

// climbFullSize is climb up to the limit of n. Behind a lone outlet expander, whose
// FP grows with c, the flow can fall past a peak and rise again: that is walked in
// strides, short ones where the flow comes near to what is sought.
func (s *search) climbFullSize(lo float64) (root float64, ok bool) {
	if s.through >= 0 {
		return s.climb(lo, flatRoot, true)
	}
	for lo < flatRoot {
		hi := min(lo*longStride, flatRoot)
		if s.isNear(lo) || s.isNear(hi) {
			if root, ok := s.climbClosely(lo, hi); ok {
				return root, true
			}
		}
		lo = hi
	}
	return 0, false
}

// The ratios of the roots of a stride, 3 % and 0.15 % of c. Flow rises at most with c²
// there, so that none can be near within a long stride and at neither of its ends.
const (
	longStride  = 1.01
	shortStride = 1.0005
	near        = 0.1
)

// isNear tells that the flow through the Kv at root is near to q, or above.
func (s *search) isNear(root float64) bool {
	excess, _ := s.excess(root, true)
	return excess > -near
}

// climbClosely returns the least root between lo and hi; a peak and a valley within one
// short stride are not seen.
func (s *search) climbClosely(lo, hi float64) (root float64, ok bool) {
	_, slope := s.excess(lo, true)
	for lo < hi {
		next := min(lo*shortStride, hi)
		excess, slopeAtNext := s.excess(next, true)
		if excess >= 0 {
			return s.bisect(lo, next), true
		}
		if slope > 0 && slopeAtNext <= 0 {
			if root, ok := s.climb(lo, next, true); ok {
				return root, true
			}
		}
		lo, slope = next, slopeAtNext
	}
	return 0, false
}

// bisect returns the root in full-size trim between lo, which passes too little, and
// hi, which does not.
func (s *search) bisect(lo, hi float64) float64 {
	for {
		middle := 0.5 * (lo + hi)
		if !(middle > lo && middle < hi) {
			return hi
		}
		if excess, _ := s.excess(middle, true); excess < 0 {
			lo = middle
		} else {
			hi = middle
		}
	}
}

// climb returns the least root between lo and hi that passes q. What lo passes
// must not be above q, and must rise over the whole range or up to one peak.
func (s *search) climb(lo, hi float64, full bool) (root float64, ok bool) {
	top := hi
	known, reached := false, false // top was tried; it passes q
	at := lo
	for trial := 0; ; trial++ {
		excess, slope := s.excess(at, full)
		switch {
		case excess >= 0:
			top, known, reached = at, true, true
		case slope <= 0 && !reached:
			top, known = at, true // beyond the peak
		case at == hi && !reached:
			return 0, false
		default:
			lo = at
		}
		if math.Abs(excess) < 4e-15 && slope > 0 {
			return at, true // what is left is rounding
		}
		next := powerStep(at, excess, slope)
		switch {
		case trial < 20 && next > lo && next < top:
			at = next
		case known:
			at = 0.5 * (lo + top)
		default:
			at = hi
		}
		if known && !(at > lo && at < top) {
			return top, reached
		}
	}
}

// powerStep returns x·(1+excess)^(−1/slope), the next trial of a power law, with
// the power replaced by its first Padé approximant. What the approximant cannot do
// comes out below zero or infinite.
func powerStep(x, excess, slope float64) float64 {
	return x * (slope + float64(0.5*(slope-1)*excess)) / (slope + float64(0.5*(slope+1)*excess))
}

// climbOpen is climb above lo for full-size trim without an upper end, but where c²
// stays a number.
func (s *search) climbOpen(lo float64) (root float64, ok bool) {
	for hi := 2 * lo; hi < 1e40; hi *= 2 {
		if excess, slope := s.excess(hi, true); excess >= 0 || slope <= 0 {
			return s.climb(lo, hi, true)
		}
	}
	return 0, false
}
