package hydronics

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// HeatShare returns the heat at an opening demand as a share of the full heat, as
// [HeatChain.HeatShare] does.
func (u *CircuitChain) HeatShare(opening float64) float64 {
	return u.end.shareAt(opening, u.Heat, u.full)
}

// OpeningForShare returns the opening demand that gives a share of the full heat,
// the inverse of [CircuitChain.HeatShare]: 0 for what leaks and less, NaN above 1.
func (u *CircuitChain) OpeningForShare(share float64) float64 {
	return u.end.openingFor(share, u.SignalForHeat, u.full)
}

// SignalForHeat returns the signal that gives a heat, the inverse of
// [CircuitChain.Respond]: within 1e-9 of the full heat. It is found by halving the
// travel; should the consumer's flow swing so much that the heat does not rise all
// the way, it is one of the signals that give the heat. Heats that leak and heats that
// cannot be had are as in [HeatChain.SignalForHeat].
func (u *CircuitChain) SignalForHeat(heat units.Power) (signal.Signal, error) {
	l := check.List{Package: packageName}
	if !u.made(&l) {
		return signal.Signal{}, l.Err()
	}
	drive := &u.chain.drive
	least, greatest := drive.LeastTravel(), drive.GreatestTravel()
	share := float64(heat / u.full)
	if !(share >= 0 && share <= 1+rounding) {
		return signal.Signal{}, u.unreachable(heat)
	}
	travel := greatest
	if share < 1-rounding {
		travel = u.travelFor(share, least, greatest)
	}
	s, _ := drive.SignalFor(travel)
	return s, nil
}

// travelFor is the travel between lo and hi for a share of the full heat, by
// bisection: lo if that gives more.
func (u *CircuitChain) travelFor(share, lo, hi float64) float64 {
	over := func(h float64) bool { return float64(u.HeatAtTravel(h)/u.full) >= share }
	if over(lo) {
		return lo
	}
	for mid := lo + (hi-lo)/2; mid > lo && mid < hi; mid = lo + (hi-lo)/2 {
		if over(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// unreachable says what the circuit can give, and whether the terminal or the
// circuit is to blame: the terminal if no flow of unmixed water would be enough.
func (u *CircuitChain) unreachable(heat units.Power) error {
	drive := &u.chain.drive
	least, greatest := drive.LeastTravel(), drive.GreatestTravel()
	q, err := u.unit.FlowFor(heat, u.conditions)
	if err == nil {
		err = &valve.UnreachableError{Wanted: q, Least: u.circuit.Flows(least).Control, Greatest: u.circuit.Flows(greatest).Control}
	}
	return &UnreachableHeatError{Wanted: heat, Least: u.HeatAtTravel(least), Greatest: u.full, Cause: err}
}

// Gain returns the slope of the heat at an opening demand, as [HeatChain.Gain] does.
func (u *CircuitChain) Gain(opening float64) float64 { return gainAt(u.HeatShare, opening) }

// Linearity compares the response with a straight line, as [HeatChain.Linearity]
// does.
func (u *CircuitChain) Linearity(over HeatRange) (Linearity, error) {
	l := check.List{Package: packageName}
	over.check(&l, "HeatRange")
	u.made(&l)
	if err := l.Err(); err != nil {
		return Linearity{}, err
	}
	least, _ := u.LeastLoad(Resolution{})
	return linearityOf(u.HeatShare, u.OpeningForShare, over, least.Share), nil
}

// LeastLoad returns the least load that the unit controls with a resolution, as
// [HeatChain.LeastLoad] does, by the closing region of the control port.
func (u *CircuitChain) LeastLoad(r Resolution) (LeastLoad, error) {
	l := check.List{Package: packageName}
	r.check(&l)
	u.made(&l)
	if err := l.Err(); err != nil {
		return LeastLoad{}, err
	}
	opening, travel := u.end.leastControlled(&u.chain.drive, u.closing, r)
	heat := u.HeatAtTravel(travel)
	return LeastLoad{opening, travel, u.circuit.Flows(travel).Control, heat, float64(heat / u.full)}, nil
}

func (u *CircuitChain) made(l *check.List) bool {
	return l.Require(u.unit != nil, "CircuitChain", "the zero CircuitChain", "one made by NewCircuitChain")
}
