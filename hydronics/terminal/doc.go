// Package terminal models the terminal units of a hydronic system: how much heat
// they give to a room, or take from one, as a function of the water that a valve
// lets through.
//
//	coil, err := terminal.NewCoil(terminal.CoilConfig{
//		Heat: 5 * units.Kilowatt,
//		Design: terminal.Temperatures{
//			Supply: units.Celsius(70), Return: units.Celsius(50), Air: units.Celsius(18),
//		},
//		LeavingAir: units.Celsius(35),
//		WaterShare: 25 * units.Percent,
//	})
//	half, err := coil.FlowFor(2.5*units.Kilowatt, terminal.Conditions{})
//
// # Why it matters
//
// Heat is not proportional to flow. A coil or radiator at half its flow still
// gives two thirds to 90 % of its heat, because the water stays longer and
// leaves closer to the air: the curve is steep at first and flat at the end,
// the more so the smaller the design drop of the water's temperature is beside
// its distance from the air. A valve's characteristic has to bend the other way
// for the heat to follow the signal. So output against flow is solved here,
// from the balance of the water and the law of the unit, and never assumed.
//
// # The models
//
//	Radiator      radiators, convectors        EN 442    Φ = Φn·(ΔT/ΔTn)^n
//	Ceiling       chilled and heated ceilings  EN 14240  the same (heated: EN 14037)
//	PassiveBeam   chilled beams, cooling only  EN 14518  the same
//	ActiveBeam    beams with primary air       EN 15116  the same, and the air's part
//	Floor         pipes in a floor             EN 1264   q = K_H·Δθ_H
//	Coil          heating, sensible cooling    ε-NTU (Kays & London; Incropera)
//	WetCoil       cooling with condensation    enthalpy ε-NTU (Braun, Klein & Mitchell 1989)
//
// Those of the first five have the logarithmic mean difference for ΔT,
// normalised at the rating point: at a tenth of its flow a radiator at 90/70/20
// gives 0.324 of its heat, where the arithmetic mean would have its return
// colder than the room, or at best as cold, which is 0.350. A coil's
// conductance is found from its design point; the share that the water side has
// in the thermal resistance is an input, and that share goes with q^0.8 down to
// a stated laminar floor. [Arrangement] holds the ε-NTU laws themselves.
//
// # One set of methods
//
// Each New function checks a Config, reports every fault in it, and returns an
// immutable value that is a [Terminal]:
//
//	Design      the design point: flow, heat, return
//	Heat        at a flow, at the design conditions
//	Output      at a flow and any Conditions: heat, return, leaving air
//	FlowFor     the inverse: which flow gives this heat?
//	HeatShare   the relative curve Φ/Φ100 over q/q100, FlowShare its inverse
//
// Each type has FlowForReturn too: which flow gives this return?
//
// Flow is volume flow at the density of the return at design, where control
// valves commonly stand; density and heat capacity stay what they were at
// design, whatever the [Conditions]. Heat is positive for cooling too, and
// negative if the conditions turn it round.
//
// # What holds
//
//   - The balance Heat = ρ·cp·q·|supply − return| holds to rounding.
//   - No flow, no heat, and the return has the temperature of the air: exactly.
//     A negative flow counts as none.
//   - Heat rises with the flow (to 1e-9 of itself, where a solver's rounding
//     ends), up to the limit at an infinite flow; Output takes +Inf and gives
//     the limit. As the flow vanishes, so does the difference of return and air.
//   - HeatShare(0) is 0 and HeatShare(1) is 1, exactly.
//   - FlowFor and FlowShare undo Heat and HeatShare to rounding, FlowForReturn
//     the Return of Output.
//   - NaN in, NaN out. Nothing panics, locks, or allocates (an error aside).
//
// # Limits
//
// All models are steady: nothing here knows the time that a screed or a
// cast-iron radiator takes. Air flow is constant; for a fan with several speeds
// make one model for each. The comments of the types say how far each law goes.
// Hot water scalds and systems stand under pressure: these are numbers for
// design and checks, not a licence to open a valve that somebody is working on.
package terminal
