package hydronics

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// HeatShare returns the heat at an opening demand as a share of the full heat: 1
// at 1, and that of the valve's leakage at 0. Demands outside 0 … 1 are clamped,
// NaN gives NaN.
func (h *HeatChain) HeatShare(opening float64) float64 {
	return h.end.shareAt(opening, h.Heat, h.full)
}

// OpeningForShare returns the opening demand that gives a share of the full heat,
// the inverse of [HeatChain.HeatShare]: 0 for what leaks and less, NaN above 1.
func (h *HeatChain) OpeningForShare(share float64) float64 {
	return h.end.openingFor(share, h.SignalForHeat, h.full)
}

// SignalForHeat returns the signal that gives a heat, the inverse of
// [HeatChain.Respond]: within 1e-9 of the full heat. A heat of no more than the
// valve's leakage brings gets the signal that closes the valve. A heat that the unit
// cannot give, too much or of the wrong sign, is an [UnreachableHeatError] that says
// what it can.
func (h *HeatChain) SignalForHeat(heat units.Power) (signal.Signal, error) {
	if h.unit == nil {
		return signal.Signal{}, &units.FieldError{Package: packageName, Field: "HeatChain", Value: "the zero HeatChain", Want: "one made by NewHeatChain"}
	}
	if math.Abs(float64(heat-h.full)) <= rounding*math.Abs(float64(h.full)) {
		s, _ := h.chain.drive.SignalFor(h.chain.drive.GreatestTravel())
		return s, nil
	}
	q, err := h.unit.FlowFor(heat, h.conditions)
	if err == nil {
		var s signal.Signal
		if s, err = h.chain.SignalFor(q, h.pressure); err == nil {
			return s, nil
		}
	}
	return signal.Signal{}, &UnreachableHeatError{Wanted: heat, Least: h.Heat(h.SignalAt(0)), Greatest: h.full, Cause: err}
}

// UnreachableHeatError is a heat that a unit cannot give as it stands. It unwraps
// to [terminal.ErrUnreachable] and to its Cause.
type UnreachableHeatError struct {
	Wanted   units.Power
	Least    units.Power // with the valve closed
	Greatest units.Power // with the valve fully open; negative if the conditions turn the heat round
	Cause    error       // from the terminal or the valve: which of the two cannot
}

// Error returns the heat wanted, what can be had, and the cause.
func (e *UnreachableHeatError) Error() string {
	return fmt.Sprintf("hydronics: a heat of %v cannot be reached, the open valve gives %v: %v", e.Wanted, e.Greatest, e.Cause)
}

// Unwrap returns the errors that it stands for.
func (e *UnreachableHeatError) Unwrap() []error { return []error{terminal.ErrUnreachable, e.Cause} }
