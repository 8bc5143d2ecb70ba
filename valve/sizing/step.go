package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
)

// slopes are the first and the second derivative in ln c of a logarithm: of n, Rev,
// or t, the turbulent flow over q. Two fields to a struct stay in registers.
type slopes struct{ by, by2 float64 }

// step returns a root better than the one given, and whether what is left of it is
// rounding. It solves R = 0, that is FR·t = 1:
//
//	laminar:       R = ln(FR·t)
//	transitional:  R = (FR − 1/t)·∜n = ∜n·(1 − 1/t) + 0.33·√FL·log10(Rev/10 000)
//
// In this form R is nearly straight over ln c, and its derivatives do not wait for
// the logarithm, which takes half of the time.
func (s *search) step(root float64, full bool) (next float64, settled bool) {
	square := root * root
	c := s.area * root * square
	cc := c * c
	rev4 := s.pace4/cc + s.bend4
	bend := 1 + float64(s.bend*cc)

	var byTrim, byRev slopes
	byFlow := slopes{by: 1}
	n := 1 + float64(n32*square)
	if full {
		n, byTrim.by = trimFactor(root, true)
	}
	inverse := 1 / (n * c * bend) // one division for three
	if !full {
		byTrim.by = 2.0/3 - float64(2.0/3*c*bend*inverse)
		byTrim.by2 = byTrim.by * (2.0/3 - byTrim.by)
	}
	byRev.by = -0.5 * n * c * inverse
	byRev.by2 = -2 * byRev.by * (1 + float64(2*byRev.by))

	// c/t is the Kv that would pass q if the flow were turbulent and FP as here.
	perT, need2 := s.turbulent*(n*bend*inverse), s.turbulent*s.turbulent
	clear := true
	if s.reducers {
		var other, head float64
		need2, other, head = s.need(cc)
		byFlow.by, clear = 1/head, apart(other, need2)
		perT = math.Sqrt(need2) * (n * bend * inverse)
	}
	byFlow.by2 = -2 * byFlow.by * (1 - byFlow.by)

	nn := n * n
	laminar8 := s.laminar8 * (nn * nn) * rev4
	if limit8 := laminar8 * nn; limit8 > s.touch4 {
		root4, line := math.Sqrt(math.Sqrt(n)), 0.25*s.perNeper*fastlog.Log(rev4)
		fr := root4 + line // times ∜n
		fr2 := fr * fr
		fr4 := fr2 * fr2
		fr8 := fr4 * fr4
		clear = clear && apart(fr8, limit8)
		if fr > 0 && fr8 < limit8 {
			return s.transitionalStep(root, root4, line, perT, clear, byTrim, byRev, byFlow)
		}
	}
	return laminarStep(root, laminar8, cc/need2, clear, byTrim, byRev, byFlow)
}

// need returns the square of the Kv that would pass q if the flow were turbulent and
// FP and FLP as at c, whose square is cc, with its part of heads: the greater of those
// for free and for choked flow. other is the lesser.
func (s *search) need(cc float64) (need2, other, head float64) {
	through, inlet := 1+float64(s.through*cc), 1+float64(s.inlet*cc)
	free, choked := s.freeNeed*through, s.chokedNeed*inlet
	if free > choked {
		return free, choked, through
	}
	return choked, free, inlet
}

// laminarStep is step for the laminar equation, from FR⁸ and t².
func laminarStep(root, fr8, tt float64, clear bool, byTrim, byRev, byFlow slopes) (next float64, settled bool) {
	tttt := tt * tt
	perSlope := 1 / (byFlow.by + float64(0.5*(byTrim.by+byRev.by)))
	bow := (byFlow.by2 + float64(0.5*(byTrim.by2+byRev.by2))) * perSlope
	h := 0.125 * fastlog.Log(fr8*(tttt*tttt)) * perSlope
	cubic := float64(bow*(1.0/18-float64(bow*(1.0/6)))) - 1.0/162
	return root * growth(h, bow, cubic), perSlope > 0 && isRounding(h, bow, clear)
}

// transitionalStep is step for the transitional equation, from ∜n and line, which is
// (FR − 1)·∜n.
func (s *search) transitionalStep(root, root4, line, perT float64, clear bool, byTrim, byRev, byFlow slopes) (next float64, settled bool) {
	rest := 1 - perT
	quarter, quarter2 := 0.25*byTrim.by, 0.25*byTrim.by2 // the slopes of ln ∜n
	slope := float64(root4*(float64(quarter*rest)+float64(perT*byFlow.by))) + float64(s.perNeper*byRev.by)
	trim := float64((float64(quarter*quarter) + quarter2) * rest)
	flow := float64(perT * (float64(2*quarter*byFlow.by) + byFlow.by2 - float64(byFlow.by*byFlow.by)))
	perSlope := 1 / slope
	bow := (float64(root4*(trim+flow)) + float64(s.perNeper*byRev.by2)) * perSlope
	h := (float64(root4*rest) + line) * perSlope
	cubic := -1.0/162 - float64(bow*bow*(1.0/6))
	return root * growth(h, bow, cubic), perSlope > 0 && isRounding(h, bow, clear)
}

// growth returns the ratio of the next root to this one, for Newton's step h = R/R′
// and bow = R″/R′: with ln c as the unknown and R‴ the third derivative,
//
//	exp(−(h + bow/2·h² + (bow²/2 − R‴/(6R′))·h³)/3)
//
// up to h³, of which cubic is the coefficient. R‴ is taken as 0 in laminar and as −R″
// in transitional flow, which is what 1 − 1/t alone would have.
func growth(h, bow, cubic float64) float64 {
	return (1 - float64(h*(1.0/3))) + float64(h*h*(1.0/18-float64(bow*(1.0/6))+float64(h*cubic)))
}

// rounding is the Newton step that ends within 3e-15 of c: the error of a step of h is
// of the order of h³.
const rounding = 4e-5

// isRounding tells that a step of h ended within 3e-15 of c. Its error grows with bow
// where the flow comes to a peak, and is of the order of h if the step crossed a kink:
// clear tells that there is none about.
func isRounding(h, bow float64, clear bool) bool {
	h = math.Abs(h)
	return h*(1+math.Abs(bow)) < rounding && (clear || h < 1e-13)
}

// apart tells that a step of at most rounding does not make a and b equal. They are
// FR⁸ of the transitional and of the laminar equation, of which the lesser counts, or the
// squares of the Kv for free and for choked flow, of which the greater does; their ratio
// changes by less than 40·h over a step of h, since FR is above 0.4 where its equations
// meet.
func apart(a, b float64) bool { return math.Abs(a-b) > 64*rounding*b }
