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
	if s.reducers {
		drive, head := s.governing(c)
		byFlow.by, need2 = 1/head, s.q*s.q/drive*head
		perT = math.Sqrt(need2) * (n * bend * inverse)
	}
	byFlow.by2 = -2 * byFlow.by * (1 - byFlow.by)

	nn := n * n
	laminar8 := s.laminar8 * (nn * nn) * rev4
	if limit8 := laminar8 * nn; limit8 > s.touch4 {
		if next, settled, ok := s.transitionalStep(root, n, rev4, limit8, perT, byTrim, byRev, byFlow); ok {
			return next, settled
		}
	}
	return laminarStep(root, laminar8, cc/need2, byTrim, byRev, byFlow)
}

// laminarStep is step for the laminar equation, from FR⁸ and t².
func laminarStep(root, fr8, tt float64, byTrim, byRev, byFlow slopes) (next float64, settled bool) {
	tttt := tt * tt
	perSlope := 1 / (byFlow.by + float64(0.5*(byTrim.by+byRev.by)))
	bow := (byFlow.by2 + float64(0.5*(byTrim.by2+byRev.by2))) * perSlope
	h := 0.125 * fastlog.Log(fr8*(tttt*tttt)) * perSlope
	cubic := float64(bow*(1.0/18-float64(bow*(1.0/6)))) - 1.0/162
	return root * growth(h, bow, cubic), perSlope > 0 && isRounding(h, bow)
}

// transitionalStep is step for the transitional equation. ok is false if the
// laminar one holds: if its FR⁸·n², which is limit8, is less than the same of the
// other.
func (s *search) transitionalStep(root, n, rev4, limit8, perT float64, byTrim, byRev, byFlow slopes) (next float64, settled, ok bool) {
	root4, rest := math.Sqrt(math.Sqrt(n)), 1-perT
	quarter, quarter2 := 0.25*byTrim.by, 0.25*byTrim.by2 // the slopes of ln ∜n
	slope := float64(root4*(float64(quarter*rest)+float64(perT*byFlow.by))) + float64(s.perNeper*byRev.by)
	trim := float64((float64(quarter*quarter) + quarter2) * rest)
	flow := float64(perT * (float64(2*quarter*byFlow.by) + byFlow.by2 - float64(byFlow.by*byFlow.by)))
	perSlope := 1 / slope
	bow := (float64(root4*(trim+flow)) + float64(s.perNeper*byRev.by2)) * perSlope

	line := 0.25 * s.perNeper * fastlog.Log(rev4)
	fr := root4 + line // times ∜n
	fr2 := fr * fr
	fr4 := fr2 * fr2
	if !(fr > 0 && fr4*fr4 < limit8) {
		return 0, false, false
	}
	h := (float64(root4*rest) + line) * perSlope
	cubic := -1.0/162 - float64(bow*bow*(1.0/6))
	return root * growth(h, bow, cubic), perSlope > 0 && isRounding(h, bow), true
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

// isRounding tells that a step of h ended within 3e-15 of c: its error is of the
// order of h³, and grows with bow where the flow comes to a peak.
func isRounding(h, bow float64) bool { return math.Abs(h)*(1+math.Abs(bow)) < 4e-5 }
