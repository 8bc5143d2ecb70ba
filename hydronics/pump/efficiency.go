package pump

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

// efficiency is the law η(q) of the pump alone: a constant, or a polynomial
// through the origin, q·(e1 + e2·q + e3·q²), up to the last point given and
// constant beyond it.
type efficiency struct {
	constant   float64 // zero if the polynomial holds; NaN if nothing is known
	e1, e2, e3 float64
	end        float64
}

// worstEfficiency is the greatest deviation of an efficiency point from the
// fitted curve that is accepted.
const worstEfficiency = 0.05

func newEfficiency(l *check.List, cfg Config) efficiency {
	if len(cfg.EfficiencyPoints) == 0 {
		return efficiency{constant: share(l, "Efficiency", cfg.Efficiency)}
	}
	if cfg.Efficiency != 0 {
		l.Fault("Efficiency", cfg.Efficiency, "either Efficiency or EfficiencyPoints")
		return efficiency{}
	}
	if !checkEfficiencies(l, cfg.EfficiencyPoints) {
		return efficiency{}
	}
	return fitEfficiency(l, cfg.EfficiencyPoints)
}

func checkEfficiencies(l *check.List, points []EfficiencyPoint) bool {
	ok := l.Require(len(points) >= 2, "EfficiencyPoints", len(points), "two points or more")
	for i, p := range points {
		field := fmt.Sprintf("EfficiencyPoints[%d]", i)
		ok = check.Positive(l, field+".Flow", p.Flow) && ok
		ok = l.Require(p.Efficiency > 0 && p.Efficiency < 1, field+".Efficiency", p.Efficiency, "above 0 and below 1") && ok
		if i > 0 {
			ok = l.Require(!(p.Flow <= points[i-1].Flow), field+".Flow", p.Flow, "a flow above that of the point before") && ok
		}
	}
	return ok
}

// fitEfficiency fits a parabola, from four points a cubic, by least squares.
func fitEfficiency(l *check.List, points []EfficiencyPoint) efficiency {
	scale := float64(points[len(points)-1].Flow)
	var t, y []float64
	for _, p := range points {
		t, y = append(t, float64(p.Flow)/scale), append(y, p.Efficiency)
	}
	powers := []int{1, 2, 3}
	if len(points) < 4 {
		powers = powers[:2]
	}
	x, ok := leastSquares(t, y, powers)
	if !l.Require(ok, "EfficiencyPoints", len(points), "points that a curve can follow") {
		return efficiency{}
	}
	e := efficiency{e1: x[1] / scale, e2: x[2] / (scale * scale), e3: x[3] / (scale * scale * scale), end: scale}
	for i, p := range points {
		at := e.at(float64(p.Flow))
		l.Require(math.Abs(at-p.Efficiency) <= worstEfficiency, fmt.Sprintf("EfficiencyPoints[%d].Efficiency", i), p.Efficiency,
			fmt.Sprintf("a value within %v of the fitted curve's %.3f", worstEfficiency, at))
	}
	checkBetween(l, &e)
	return e
}

// checkBetween requires an efficiency between 0 and 1 between the points too.
func checkBetween(l *check.List, e *efficiency) {
	for percent := range 101 {
		q := e.end * float64(percent) / 100
		if !(e.perFlow(q) > 0 && e.at(q) < 1) {
			l.Fault("EfficiencyPoints", fmt.Sprintf("a fit of %.3f at %d %% of the last flow", e.at(q), percent),
				"points whose fitted curve stays between 0 and 1")
			return
		}
	}
}

// at returns η; zero at zero flow unless it is constant.
func (e *efficiency) at(q float64) float64 {
	if e.constant != 0 {
		return e.constant
	}
	q = math.Min(q, e.end)
	return q * e.perFlow(q)
}

// perFlow returns the polynomial's η/q, which is finite at zero flow.
func (e *efficiency) perFlow(q float64) float64 {
	return e.e1 + float64(q*(e.e2+float64(q*e.e3)))
}

// shaft returns the shaft power for a flow and head at full speed. It is not a
// number where the pump does not pump: in reverse flow and below zero head.
func (e *efficiency) shaft(q, head float64) float64 {
	switch {
	case !(q >= 0 && head >= 0):
		return math.NaN()
	case e.constant != 0:
		return q * head / e.constant
	case q > e.end:
		return q * head / e.at(q)
	default:
		return head / e.perFlow(q)
	}
}
