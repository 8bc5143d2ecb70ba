package hydronics

import (
	"cmp"
	"math"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// HeatChain is the whole response of a terminal unit, a [Chain] with what it
// feeds, at one pressure difference and one set of conditions:
//
//	signal → demand → opening demand → shaping → relative travel → stem extension → flow → heat
//
// It is an immutable value made by [NewHeatChain], safe for concurrent use; its
// methods do not lock, panic or (an error aside) allocate, if those of the
// terminal do not. The zero HeatChain has no terminal: its numbers are NaN. For the
// same of a terminal in a [Circuit] there is [CircuitChain].
//
// Shares of heat count from the heat of the fully open valve, [HeatChain.FullHeat],
// which is the design heat only if pressure and conditions are those of the
// design. Openings are opening demands, 0 closed and 1 open, so that curves rise
// whatever the action of the actuator.
type HeatChain struct {
	chain      Chain
	unit       terminal.Terminal
	pressure   units.Pressure
	conditions terminal.Conditions
	end        signalSide
	closing    float64 // relative travel where the valve's closing region ends
	full       units.Power
}

// NewHeatChain joins a valve with its actuator to a terminal that gets the valve's
// flow at the supply temperature of the source: a unit throttled by its valve, or
// fed past a diverting valve whose pressure stays. dp is the pressure
// difference over the valve, or over the branch for a chain made by
// [Chain.InBranch], the terminal included; the zero Conditions are those of the
// terminal's design.
//
// Flow is volume flow at the valve, and terminals count it at the density of the
// return at design: let the valve have that density
// ([terminal.DesignPoint].Density), or 80/60 °C comes out 0.8 % low.
//
// A chain on the control port of a three-way valve is taken for what it is, a two-way
// valve, and the terminal for one behind it. That is not a mixing or an injection
// circuit, where the terminal's flow stays and its supply temperature follows the
// valve: [NewCircuitChain] is for those.
func NewHeatChain(c Chain, unit terminal.Terminal, dp units.Pressure, at terminal.Conditions) (HeatChain, error) {
	l := check.List{Package: packageName}
	l.Require(c.kind != noValve, "Chain", "the zero Chain", "a chain made by NewChain")
	checkTerminal(&l, unit)
	if err := l.Err(); err != nil {
		return HeatChain{}, err
	}
	h := HeatChain{chain: c, unit: unit, end: signalSideOf(&c.drive), closing: c.closingTravel()}
	return h.With(dp, at)
}

// With returns the chain at another pressure difference and other conditions, as
// they are measured while a building runs, say. A measurement that is not a
// number is an error, and so are temperatures between which no heat flows.
func (h HeatChain) With(dp units.Pressure, at terminal.Conditions) (HeatChain, error) {
	l := check.List{Package: packageName}
	if h.unit == nil {
		l.Fault("HeatChain", "the zero HeatChain", "one made by NewHeatChain")
		return HeatChain{}, l.Err()
	}
	check.Positive(&l, "Pressure", dp)
	checkConditions(&l, h.unit, at)
	if err := l.Err(); err != nil {
		return HeatChain{}, err
	}
	h.pressure, h.conditions = dp, at
	h.full = h.HeatAtTravel(h.chain.drive.GreatestTravel())
	if !(math.Abs(float64(h.full)) > 0) {
		l.Fault("FullHeat", h.full, "a heat, from the fully open valve at this pressure and these conditions")
		return HeatChain{}, l.Err()
	}
	return h, nil
}

func checkTerminal(l *check.List, unit terminal.Terminal) {
	l.Require(unit != nil && unit.Design().Flow > 0, "Terminal", "none", "a terminal made by a constructor of package terminal")
}

func checkConditions(l *check.List, unit terminal.Terminal, at terminal.Conditions) {
	supply, air := orDesign(at.Supply, unit.Design().Conditions.Supply), orDesign(at.Air, unit.Design().Conditions.Air)
	known := checkTemperature(l, "Conditions.Supply", supply)
	if checkTemperature(l, "Conditions.Air", air) && known && supply == air {
		l.Fault("Conditions.Supply", supply, "a temperature that differs from that of the air, or no heat flows")
	}
	check.Within(l, "Conditions.Humidity", at.Humidity, 0, 1)
	if !at.PrimaryAir.IsZero() {
		checkTemperature(l, "Conditions.PrimaryAir", at.PrimaryAir)
	}
}

func orDesign(t, design units.Temperature) units.Temperature {
	if t.IsZero() {
		return design
	}
	return t
}

// The temperatures that a terminal may meet: no liquid of package fluid is outside.
var coldest, hottest = units.Celsius(-100), units.Celsius(250)

func checkTemperature(l *check.List, field string, t units.Temperature) bool {
	if possible(t) {
		return true
	}
	l.Fault(field, t, "−100 … 250 °C")
	return false
}

func possible(t units.Temperature) bool { return t.Compare(coldest) >= 0 && t.Compare(hottest) <= 0 }

// A HeatResponse is where a signal brings a terminal unit, step by step.
type HeatResponse struct {
	Response
	terminal.Output
}

// Respond returns every step from a signal to heat and return temperature.
// Without a valid signal the actuator does what it is set to do; where that is to
// hold, the signal does not tell the position, and all that follows from it is
// NaN: see [Chain.Respond].
func (h *HeatChain) Respond(s signal.Signal) (r HeatResponse) {
	h.chain.respond(s, h.pressure, &r.Response)
	r.Output = h.Terminal().Output(r.Flow, h.conditions)
	return r
}

// Heat returns the heat of [HeatChain.Respond], in less time.
func (h *HeatChain) Heat(s signal.Signal) units.Power { return h.heatOf(h.chain.Flow(s, h.pressure)) }

// HeatAtTravel returns the heat at a relative travel of the valve, whatever the
// actuator: what a HeatCurve of hydronics/control is made from, where heat is
// positive for heating.
func (h *HeatChain) HeatAtTravel(travel float64) units.Power {
	return h.heatOf(h.chain.flow(travel, h.pressure))
}

// heatOf is the heat at a flow; most terminals have a shorter way at their
// design conditions.
func (h *HeatChain) heatOf(q units.Flow) units.Power {
	if h.conditions == (terminal.Conditions{}) {
		return h.Terminal().Heat(q)
	}
	return h.unit.Output(q, h.conditions).Heat
}

// Pressure returns the pressure difference that the chain is at.
func (h *HeatChain) Pressure() units.Pressure { return h.pressure }

// Conditions returns the conditions that the chain is at, those of the design
// filled in.
func (h *HeatChain) Conditions() terminal.Conditions {
	c, design := h.conditions, h.Terminal().Design().Conditions
	c.Supply, c.Air, c.PrimaryAir = orDesign(c.Supply, design.Supply), orDesign(c.Air, design.Air), orDesign(c.PrimaryAir, design.PrimaryAir)
	c.Humidity = cmp.Or(c.Humidity, design.Humidity)
	return c
}

// FullHeat returns the heat of the fully open valve: at an opening demand of 1.
// It is negative where the conditions turn the heat round.
func (h *HeatChain) FullHeat() units.Power { return h.full }

// Chain returns the part from signal to flow.
func (h *HeatChain) Chain() Chain { return h.chain }

// Terminal returns what the valve feeds.
func (h *HeatChain) Terminal() terminal.Terminal {
	if h.unit == nil {
		return terminal.Coil{} // without a model, its numbers are NaN
	}
	return h.unit
}

// SignalAt returns the signal for an opening demand of 0 … 1.
func (h *HeatChain) SignalAt(opening float64) signal.Signal { return h.end.signalAt(opening) }
