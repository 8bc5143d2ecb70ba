package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// CircuitChain is the whole response of a terminal unit in a [Circuit]: what
// [HeatChain] is for one that its valve throttles.
//
//	signal → demand → opening demand → shaping → relative travel → flows, temperatures → heat
//
// It is an immutable value made by [NewCircuitChain], safe for concurrent use; its
// methods do not lock, panic or (an error aside) allocate, if those of the terminal
// do not. The zero CircuitChain has no terminal: its numbers are NaN.
//
// From a signal, Heat of a coil takes 0.3 to 0.7 µs, and 1.1 µs in an injection circuit
// with a three-way valve, whose two junctions are solved one inside the other. Where the
// heat does not go with the distance from the air the mixed supply takes more trials:
// for a radiator 2 µs, 2.6 µs in that circuit, and 0.5 µs in a diverting circuit, which
// mixes nothing. That is on a machine where the same coil in a HeatChain takes 0.09 µs,
// the radiator 0.25 µs.
//
// Heat counts as the terminal counts it, above zero for the duty of its design,
// cooling too. Shares of heat, openings and what is said of them are those of a
// [HeatChain]; the full heat is that of the valve's control port fully open.
type CircuitChain struct {
	circuit    Circuit
	chain      Chain // of the control port; its flow is not used
	unit       terminal.Terminal
	conditions terminal.Conditions
	end        signalSide
	closing    float64 // relative travel where the control port's closing region ends
	direction  float64 // +1 if the terminal's duty is heating, −1 cooling
	full       units.Power
}

// NewCircuitChain mounts an actuator on the valve of a circuit, as [NewChain] does
// and with its rules, and lets the circuit feed a terminal. at are the conditions
// about the terminal, at.Supply being the temperature of the source; the zero
// Conditions are those of the terminal's design.
//
// Let the valve have the density and the circuit the heat capacity that the terminal
// works with, see [Circuit.WithTerminal].
func NewCircuitChain(act actuator.Actuator, c Circuit, unit terminal.Terminal, at terminal.Conditions) (CircuitChain, error) {
	l := check.List{Package: packageName}
	u := CircuitChain{circuit: c, unit: unit}
	if l.Require(c.model != nil, "Circuit", "the zero Circuit", "a circuit made by one of the constructors") {
		var err error
		u.chain, err = NewChain(act, c.get().controlled())
		l.Add(err)
	}
	checkTerminal(&l, unit)
	if err := l.Err(); err != nil {
		return CircuitChain{}, err
	}
	u.end, u.closing, u.direction = signalSideOf(&u.chain.drive), u.chain.closingTravel(), 1
	if design := unit.Design().Conditions; design.Supply.Compare(design.Air) < 0 {
		u.direction = -1
	}
	return u.With(at)
}

// With returns the chain at other conditions, as they are measured while a building
// runs, say. A measurement that is not a number is an error, and so are temperatures
// between which no heat flows.
func (u CircuitChain) With(at terminal.Conditions) (CircuitChain, error) {
	l := check.List{Package: packageName}
	if u.unit == nil {
		l.Fault("CircuitChain", "the zero CircuitChain", "one made by NewCircuitChain")
		return CircuitChain{}, l.Err()
	}
	checkConditions(&l, u.unit, at)
	if err := l.Err(); err != nil {
		return CircuitChain{}, err
	}
	u.conditions = at
	u.full = u.HeatAtTravel(u.chain.drive.GreatestTravel())
	if !(math.Abs(float64(u.full)) > 0) {
		l.Fault("FullHeat", u.full, "a heat, from the fully open valve at these conditions")
		return CircuitChain{}, l.Err()
	}
	return u, nil
}

// A CircuitResponse is where a signal brings a terminal unit in a circuit.
type CircuitResponse struct {
	actuator.Position
	Coefficient float64     // relative flow coefficient φ of the control port
	Heat        units.Power // as the terminal counts it, above zero in cooling too
	// State has the flows and temperatures; its Heat is below zero in cooling.
	State CircuitState
}

// Respond returns every step from a signal to flows, temperatures and heat. Without
// a valid signal the actuator does what it is set to do; where that is to hold, the
// signal does not tell the position, and all that follows from it is NaN: see
// [Chain.Respond].
func (u *CircuitChain) Respond(s signal.Signal) (r CircuitResponse) {
	u.chain.drive.RespondTo(s, &r.Position)
	travel := r.Travel
	if r.Held || u.unit == nil {
		travel = math.NaN()
	}
	r.Coefficient, _ = u.chain.coefficientAndFlow(travel, 0)
	r.State = u.circuit.WithTerminal(travel, u.unit, u.conditions)
	r.Heat = units.Power(u.direction) * r.State.Heat
	return r
}

// Heat returns the heat of [CircuitChain.Respond].
func (u *CircuitChain) Heat(s signal.Signal) units.Power {
	travel, ok := u.chain.drive.Travel(s)
	if !ok || u.unit == nil {
		return units.Power(math.NaN())
	}
	return u.HeatAtTravel(travel)
}

// HeatAtTravel returns the heat at a relative travel of the valve, whatever the
// actuator: what a HeatCurve of hydronics/control is made from.
func (u *CircuitChain) HeatAtTravel(travel float64) units.Power {
	return units.Power(u.direction) * u.circuit.WithTerminal(travel, u.unit, u.conditions).Heat
}

// FullHeat returns the heat of the fully open control port: at an opening demand of
// 1. It is negative where the conditions turn the heat round.
func (u *CircuitChain) FullHeat() units.Power { return u.full }

// Circuit returns what feeds the terminal.
func (u *CircuitChain) Circuit() Circuit { return u.circuit }

// Drive returns the actuator as it is mounted.
func (u *CircuitChain) Drive() actuator.Mounted { return u.chain.drive }

// SignalAt returns the signal for an opening demand of 0 … 1.
func (u *CircuitChain) SignalAt(opening float64) signal.Signal { return u.end.signalAt(opening) }
