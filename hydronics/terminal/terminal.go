package terminal

import "github.com/indexrun/indexrun/units"

// packageName stands in the errors of this package.
const packageName = "terminal"

// A Terminal gives heat to a room or takes it from one, depending on how much
// water flows. All models of this package are Terminals; the response chain and
// the networks need no more than this. An implementation is immutable, safe for
// concurrent use and does not allocate in Heat, Output and HeatShare.
type Terminal interface {
	// Design returns the point that the terminal was chosen for.
	Design() DesignPoint

	// Heat returns the heat at flow q and the design conditions: 0 for a flow
	// of zero or less, rising, and short of an upper limit that it has at an
	// infinite flow.
	Heat(q units.Flow) units.Power

	// Output returns heat and return temperature at flow q and the conditions c,
	// the zero Conditions being those of the design.
	Output(q units.Flow, c Conditions) Output

	// FlowFor returns the flow that gives a heat at the conditions c. The error
	// wraps ErrUnreachable if no flow does.
	FlowFor(heat units.Power, c Conditions) (units.Flow, error)

	// HeatShare returns the heat as a share of the design heat at a flow that is
	// a share of the design flow, at the design conditions: 0 at 0, 1 at 1.
	HeatShare(flowShare float64) float64

	// FlowShare is the inverse of HeatShare: +Inf where no flow is enough.
	FlowShare(heatShare float64) float64
}

// Conditions are what surrounds a terminal. A field that is zero stands for the
// design's, so the zero Conditions are the design conditions.
type Conditions struct {
	Supply     units.Temperature // of the water to the terminal
	Air        units.Temperature // of the room, or of the air entering a coil
	Humidity   units.Ratio       // relative, of the air entering a wet coil; others ignore it
	PrimaryAir units.Temperature // blown into an active beam; others ignore it
}

// Output is what a terminal does at a flow.
//
// Heat, Sensible and Primary are positive where they go the way of the design
// duty, cooling too, and negative where the conditions turn them round. Heat is
// what the water loses or gains: Heat = ρ·cp·q·|supply − return|.
type Output struct {
	Heat     units.Power       // exchanged by the water
	Sensible units.Power       // the part of Heat that changes the air's temperature: all but for a wet coil
	Primary  units.Power       // brought by the primary air of an active beam beside Heat, whatever the water does
	Return   units.Temperature // of the water; that of the air if nothing flows
	Leaving  units.Temperature // of the air behind a coil; zero for a terminal without an air stream
}

// DesignPoint is the point that a terminal was chosen for. Density and
// SpecificHeat are those that the model keeps at all conditions: at 80/60 °C in
// place of 60/40 °C, water is 1 % lighter and its heat capacity 0.2 % greater.
type DesignPoint struct {
	Flow         units.Flow        // of the water at Density
	Heat         units.Power       // exchanged by the water at that flow
	Return       units.Temperature // of the water
	Conditions   Conditions
	Density      units.Density      // ρ at the return, where control valves commonly stand
	SpecificHeat units.SpecificHeat // cp, the mean of supply and return
}
