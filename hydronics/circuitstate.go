package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/internal/newton"
	"github.com/indexrun/indexrun/units"
)

// CircuitState is a circuit in operation: flows, temperatures and heat.
type CircuitState struct {
	CircuitFlows
	ConsumerSupply units.Temperature // of the water to the consumer, after mixing
	ConsumerReturn units.Temperature // of the water from it
	PrimaryReturn  units.Temperature // of the water back to the source, after mixing
	// Heat is what the consumer takes from the water: above zero in heating,
	// below zero in cooling (a terminal counts both above zero).
	Heat units.Power
}

// WithHeat returns the state of a circuit whose consumer takes a given heat from
// the water (below zero in cooling), with the source's supply temperature. From
// the balances of the junctions, with i for the part of the consumer's flow that
// comes from the source:
//
//	θ_consumer return = θ_source − Φ/(ρ·cp·q_i)
//	θ_consumer supply = θ_consumer return + Φ/(ρ·cp·q_consumer)
//	θ_primary return  = θ_source − Φ/(ρ·cp·q_primary)
//
// The water that is injected cannot carry every heat: that of a shut valve, its
// leakage, next to none. Where it would have to leave the consumer outside −100 …
// 250 °C, where no liquid of hydronics/fluid is, or none is injected, the three
// temperatures are NaN; flows and Heat stay. Use [Circuit.WithTerminal] where the
// heat depends on the water, as it does in a plant.
func (c Circuit) WithHeat(h float64, source units.Temperature, heat units.Power) CircuitState {
	m := c.get()
	s := CircuitState{CircuitFlows: c.Flows(h), Heat: heat}
	s.ConsumerReturn = source.Add(-m.drop(heat, s.injected()))
	if heat != 0 && !(s.injected() > 0 && possible(s.ConsumerReturn)) {
		nan := units.Celsius(math.NaN())
		s.ConsumerSupply, s.ConsumerReturn, s.PrimaryReturn = nan, nan, nan
		return s
	}
	s.ConsumerSupply = s.ConsumerReturn.Add(m.drop(heat, s.Consumer))
	s.PrimaryReturn = source.Add(-m.drop(heat, s.Primary))
	return s
}

// drop is Φ/(ρ·cp·q); nothing for no heat, whatever flows.
func (m *circuit) drop(heat units.Power, q units.Flow) units.TemperatureDifference {
	if heat == 0 {
		return 0
	}
	return units.TemperatureDifference(float64(heat) / (m.capacity * float64(q)))
}

// injected is the part of the consumer's flow that comes from the source: less
// than the control port passes if some of that runs past the consumer, or comes
// from the return through a bypass that is drawn backwards.
func (f *CircuitFlows) injected() units.Flow { return min(f.Control, f.Consumer, f.Primary) }

// WithTerminal returns the state of a circuit that feeds a terminal: the consumer
// answers to its flow and supply temperature with heat and return. at are the
// conditions about the terminal, but at.Supply is the source's temperature; the
// zero Conditions are those of the terminal's design. Without a terminal all but the
// flows is NaN.
//
// Let the valve have the density and the circuit the heat capacity that the
// terminal works with ([terminal.DesignPoint]), or the heat differs from the
// terminal's own by their ratio. With the same, Heat is what the terminal gives at
// Consumer and ConsumerSupply, to 1e-12 K of that water: within 1e-9 of the heat where
// the water changes by a millikelvin or more.
func (c Circuit) WithTerminal(h float64, unit terminal.Terminal, at terminal.Conditions) CircuitState {
	m := c.get()
	if unit == nil {
		unit = terminal.Radiator{}
	}
	design := unit.Design()
	if at.Supply.IsZero() {
		at.Supply = design.Conditions.Supply
	}
	if at.Air.IsZero() {
		at.Air = design.Conditions.Air
	}
	s := CircuitState{CircuitFlows: c.Flows(h)}
	mix := blend{s.Consumer, float64(s.injected() / s.Consumer), unit, at}
	s.ConsumerReturn = mix.solve(cooling(&design))
	s.Heat = units.Power(m.capacity * float64(s.injected()) * float64(at.Supply.Sub(s.ConsumerReturn)))
	s.ConsumerSupply = s.ConsumerReturn.Add(m.drop(s.Heat, s.Consumer))
	s.PrimaryReturn = at.Supply.Add(-m.drop(s.Heat, s.Primary))
	return s
}

// blend is the junction of the consumer's supply: injected water at the source's
// temperature meets water from the consumer's return.
type blend struct {
	consumer units.Flow
	injected float64 // share of the consumer's flow
	unit     terminal.Terminal
	at       terminal.Conditions // Supply is the source's
}

// blendFine is to what the balance is closed, in kelvin: the last digit of a
// temperature.
const blendFine = 1e-13

// miss is the balance of the junction per unit of the consumer's flow, in kelvin,
// for a supply that differs by d from the source, with the return that the
// terminal answers with. It rises with d.
func (b *blend) miss(d float64) (miss float64, back units.Temperature) {
	at := b.at
	at.Supply = at.Supply.Add(units.TemperatureDifference(d))
	back = b.unit.Output(b.consumer, at).Return
	miss = float64(b.injected*d) + float64((1-b.injected)*(d-float64(back.Sub(b.at.Supply))))
	if math.Abs(miss) < blendFine {
		miss = 0
	}
	return miss, back
}

// solve returns the consumer's return that closes the balance, for a supply
// between the source's temperature and the room's. The slope is that of the chord
// from the point before; the first one begins at the room's temperature, where no
// heat flows, so that the chord is the law itself of a terminal whose heat goes with
// the distance from the air. The first supply tried is that of a terminal with a given
// cooling.
func (b *blend) solve(cooling float64) (back units.Temperature) {
	room := float64(b.at.Air.Sub(b.at.Supply))
	if !(b.injected < 1) || room == 0 {
		_, back = b.miss(0)
		return back
	}
	recirculated := (1 - b.injected) * cooling
	guess := room * recirculated / (b.injected + recirculated)
	last, lastMiss := room, b.injected*room
	newton.Rising(func(d float64) (miss, slope float64) {
		miss, back = b.miss(d)
		slope = (miss - lastMiss) / (d - last)
		last, lastMiss = d, miss
		return miss, slope
	}, min(room, 0), max(room, 0), guess, 0)
	return back
}

// cooling is the design drop of the water over its distance from the air.
func cooling(d *terminal.DesignPoint) float64 {
	supply := d.Conditions.Supply
	return float64(supply.Sub(d.Return)) / float64(supply.Sub(d.Conditions.Air))
}
