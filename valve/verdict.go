package valve

import (
	"fmt"

	"github.com/indexrun/indexrun/units"
)

// Verdict is how a candidate does at a duty.
type Verdict struct {
	Index   int     // of the candidate in the list
	Name    string  // of the candidate
	Problem Problem // NoProblem if it suits

	// Pressure is what the valve needs at the design flow: the drop of the open
	// two-way valve, the least pressure of the setting of a
	// pressure-independent one.
	Pressure units.Pressure
	// Margin is what Available leaves beyond Pressure and the Drop of the
	// branch, below zero if they are more; 0 if Available is not given.
	Margin units.Pressure
	// Surplus is a flow over the design flow: that of the highest setting (of
	// the lowest if even that is too much), or that of the open two-way valve
	// with the pressure left to it (0 if Available is not given).
	Surplus float64
	// Authority is that of a two-way valve.
	Authority Authority
	// Mark is the setting of a pressure-independent valve.
	Mark float64

	miss float64 // orders verdicts of one problem, less is better
}

// before reports whether v is better than w.
func (v *Verdict) before(w *Verdict) bool {
	if v.Problem != w.Problem {
		return v.Problem < w.Problem
	}
	return v.miss < w.miss
}

// facts says what the valve needs and has.
func (v Verdict) facts() string {
	if v.Authority == (Authority{}) {
		return fmt.Sprintf("setting %.4g needs %v, highest setting is %.3g times the flow", v.Mark, v.Pressure, v.Surplus)
	}
	return fmt.Sprintf("drops %v, authority %.2f by the open flow, %.2f by the design flow", v.Pressure, v.Authority.Open, v.Authority.Design)
}

// trouble says what is wrong, in words with figures.
func (v Verdict) trouble() string {
	switch v.Problem {
	case AuthorityTooLow:
		return "authority too low: " + v.facts()
	case PressureTooLow:
		return fmt.Sprintf("needs %v, which is %v more than is left to it", v.Pressure, -v.Margin)
	case RatingExceeded:
		return "the pressure over the shut valve exceeds what it is rated for"
	case FlowBelowSettings:
		return fmt.Sprintf("its lowest setting is %.3g times the flow", v.Surplus)
	case FlowAboveSettings:
		return fmt.Sprintf("its highest setting is %.3g times the flow", v.Surplus)
	}
	return "suits: " + v.facts()
}

// Reason says in a sentence why the best candidate is the best.
func (s Selection) Reason() string {
	if s.Best.Problem != NoProblem {
		return s.Best.Name + ": no candidate suits, this one is nearest: " + s.Best.trouble()
	}
	return s.Best.Name + ": " + s.Best.trouble()
}

// WhyNot says in a sentence why a runner-up lost.
func (s Selection) WhyNot(runnerUp int) string {
	v := s.RunnersUp[runnerUp]
	switch {
	case v.Problem != NoProblem:
		return v.Name + ": " + v.trouble()
	case v.Surplus > s.Best.Surplus:
		return v.Name + ": suits too, but is larger than needed: " + v.facts()
	case v.Pressure > s.Best.Pressure:
		return v.Name + ": suits too, but needs more pressure: " + v.facts()
	}
	return v.Name + ": suits as well, but is later in the list"
}
