package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
)

// kvFor returns the least Kv that passes q, with its Reynolds number and FR. ok is
// false if none does.
func (l *law) kvFor(q float64) (c, rev, fr float64, ok bool) {
	c, ok = l.turbulentKv(q)
	if !ok || !(l.pace4(q)*(l.bend+1/(c*c)) < 1) {
		return c, l.speed(c) * q, 1, ok
	}
	var s search // filled in place: a copy would wait until what was just written is in memory
	s.law, s.q, s.turbulent = l, q, c
	s.prepare()
	c, ok = s.kv()
	need := s.turbulent // the Kv that passes q without FR, between reducers as c has them
	if s.reducers {
		need2, _, _ := s.need(c * c)
		need = math.Sqrt(need2)
	}
	return c, l.speed(c) * q, min(need/c, 1), ok
}

// search looks for the Kv of a flow q that is not turbulent. It runs in the cube
// root of c/d², in which both trim factors are plain powers.
type search struct {
	*law
	viscous
	q, perQ   float64 // and 1/q, for the climb
	turbulent float64 // the Kv that q would need if it were turbulent: too small

	pace4, bend4 float64 // (Rev/10 000)⁴ = pace4/c² + bend4
	laminar8     float64 // laminar FR⁸ = laminar8·n⁴·(Rev/10 000)⁴
	touch4       float64 // touch⁴

	freeNeed, chokedNeed float64 // with reducers: the squares of the Kv of free and choked flow if these cost nothing
}

// prepare sets what the steps need.
func (s *search) prepare() {
	s.viscous = viscousFactors(s.fl, s.rootFL)
	s.pace4 = s.law.pace4(s.q)
	s.bend4 = s.pace4 * s.bend
	laminar := s.laminarSquare * turbulentFrom
	laminar *= laminar
	s.laminar8 = laminar * laminar
	touch := s.touch * s.touch
	s.touch4 = touch * touch
	if s.reducers {
		need := s.q * s.q / (s.free * s.choke)
		s.freeNeed, s.chokedNeed = need*s.choke, need*s.free
	}
}

var (
	fullSizeRoot = fastlog.Cbrt(fullSizeFrom)
	flatRoot     = fastlog.Cbrt(flatFrom)
)

func (s *search) coefficient(root float64) float64 { return s.area * root * float64(root*root) }

// kv returns the least Kv that passes q.
func (s *search) kv() (c float64, ok bool) {
	if c, ok := s.approach(); ok {
		return c, true
	}
	return s.climbAll(s.turbulent)
}

// approach is kv by two or three steps from a guess. ok is false where that does
// not make sure of the least Kv: behind a lone outlet expander in full-size trim,
// close to a peak of the flow, beyond the limit of n, and if no Kv passes q.
func (s *search) approach() (c float64, ok bool) {
	limit := fullSizeFrom * s.area
	if s.turbulent < limit {
		root, ok := s.settle(s.guess(), fullSizeRoot, false)
		if ok {
			if c = s.coefficient(root); c >= limit {
				c = math.Nextafter(limit, 0)
			}
			return c, true
		}
		if root < fullSizeRoot {
			return 0, false
		}
	}
	if s.through < 0 {
		return 0, false
	}
	root, ok := s.settle(s.guessFull(), flatRoot, true)
	return max(s.coefficient(root), limit), ok && root >= fullSizeRoot
}

// settle steps until what is left is rounding. If the flow at hi is too small it
// returns hi and false. In reduced trim, where flow rises with Kv, that means
// that there is no root.
func (s *search) settle(at, hi float64, full bool) (root float64, ok bool) {
	for range 6 {
		if at > hi {
			at = hi
		}
		next, settled := s.step(at, full)
		switch {
		case !(next > 0):
			return 0, false
		case next >= hi:
			if at == hi {
				return hi, false
			}
		case settled:
			return next, true
		}
		at = next
	}
	return 0, false
}
