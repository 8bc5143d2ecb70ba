package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
)

// Limits of IEC 60534-2-1:2011, Annex A.
const (
	laminarBelow  = 10.0
	turbulentFrom = 10000.0

	fullSizeFrom = 0.016 * n18 // Kv/d² from which trim is full size
	flatFrom     = 0.04        // Kv/d² from which n stays 1
	scopeLimit   = 0.047 * n18 // Kv/d² up to which the standard claims its accuracy
)

// speed returns Rev/q at a Kv:
//
//	Rev = N4·Fd·q/(ν·√(c·FL)) · (FL²·c²/(N2·D1⁴) + 1)^¼
//
// IEC 60534-2-1:2011, clause 9, equation (23) (from memory).
func (l *law) speed(c float64) float64 {
	return l.velocity * math.Sqrt(math.Sqrt(l.bend+1/(c*c)))
}

// pace4 returns what q makes of the fourth power of Rev/10 000, which takes no root:
// (Rev/10 000)⁴ = pace4·(bend + 1/c²).
func (l *law) pace4(q float64) float64 {
	pace := l.velocity * q * (1 / turbulentFrom)
	pace *= pace
	return pace * pace
}

// speedSlope returns the elasticity of speed, d(ln Rev)/d(ln c) at constant flow.
func (l *law) speedSlope(c float64) float64 { return -0.5 / (1 + float64(l.bend*c*c)) }

// isFullSize reports which of the two trim factors holds.
func (l *law) isFullSize(c float64) bool { return c >= fullSizeFrom*l.area }

// trimFactor returns n of the Reynolds factor and its elasticity d(ln n)/d(ln c)
// at c/d² = root³.
//
//	full size, c/d² ≥ 0.016·N18:  n = N2/(c/d²)²
//	reduced:                      n = 1 + N32·(c/d²)^⅔
//
// IEC 60534-2-1:2011, Annex A. c/d² enters as 0.04 at most; at that kink the slope
// is the one from below.
func trimFactor(root float64, full bool) (n, slope float64) {
	if !full {
		rise := n32 * root * root
		return 1 + rise, 2.0 / 3 * rise / (1 + rise)
	}
	if root <= flatRoot {
		x := root * root * root
		return n2 / (x * x), -2
	}
	return n2 / (flatFrom * flatFrom), 0
}

// viscous holds the coefficients of the Reynolds factor for one FL:
//
//	laminar:      FR = (0.026/FL)·√(n·Rev)
//	transitional: FR = 1 + 0.33·√FL/n^¼·log10(Rev/10000)
//
// of which the lesser counts, and 1 at most (IEC 60534-2-1:2011, Annex A).
type viscous struct {
	laminarSquare float64 // (0.026/FL)²
	perNeper      float64 // 0.33·√FL/ln 10
	touch         float64 // (2·perNeper)²
}

func viscousFactors(fl, rootFL float64) viscous {
	const perNeper = 0.33 / math.Ln10
	return viscous{
		laminarSquare: 0.026 * 0.026 / (fl * fl),
		perNeper:      perNeper * rootFL,
		touch:         4 * perNeper * perNeper * fl,
	}
}

// line returns the transitional FR at Rev and its slope in ln Rev.
func (v *viscous) line(rev, rootN float64) (fr, slope float64) {
	slope = v.perNeper / math.Sqrt(rootN)
	return 1 + float64(slope*fastlog.Log(rev*(1/turbulentFrom))), slope
}

// factor returns FR and its elasticities d(ln FR)/d(ln Rev) and d(ln FR)/d(ln n).
//
// The transitional line in ln Rev lies above the laminar curve between two
// crossings. The point where both have the same slope, at a laminar FR of twice
// the line's slope, is between them; below it the laminar equation stands alone.
func (v *viscous) factor(rev, n float64) (fr, revSlope, nSlope float64) {
	laminarSquare := v.laminarSquare * n * rev
	rootN := math.Sqrt(n)
	if laminarSquare*rootN > v.touch {
		if line, slope := v.line(rev, rootN); line < 1 && line*line < laminarSquare {
			inverse := 1 / line
			return line, slope * inverse, 0.25 * (inverse - 1)
		}
	}
	if laminarSquare >= 1 {
		return 1, 0, 0
	}
	return math.Sqrt(laminarSquare), 0.5, 0.5
}

// settle returns the FR that comes with its own flow: rev is the Reynolds number
// that the turbulent flow would have, and FR = factor(FR·rev, n).
func (v *viscous) settle(rev, n float64) float64 {
	laminar := v.laminarSquare * n * rev
	rootN := math.Sqrt(n)
	if laminar*laminar*rootN <= v.touch {
		return laminar
	}
	return min(laminar, greatestRoot(v.line(rev, rootN)), 1)
}

// greatestRoot solves f = b + slope·ln f for its greatest f ≤ 1 by Halley's
// method from 1; b ≤ 1 and the root is above twice the slope.
func greatestRoot(b, slope float64) float64 {
	f, miss := 1.0, 1-b // where f is 1 its logarithm is 0
	for range 50 {
		curve := slope / f
		tangent := 1 - curve
		step := miss * tangent / (float64(tangent*tangent) - float64(0.5*miss*curve)/f)
		f -= step
		if math.Abs(step) < 1e-6*f {
			break // third order: the next step would be below 1e-16
		}
		miss = f - float64(slope*fastlog.Log(f)) - b
	}
	return f
}
