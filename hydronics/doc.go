// Package hydronics joins the parts of a hydronic circuit: heat and flow, the
// resistances beside a control valve, and the response of a valve with its
// actuator from the controller's signal to the flow.
//
// # Heat and flow
//
// A [Duty] is heat to be carried between two temperatures by a fluid of package
// hydronics/fluid; [Duty.DesignFlow] gives the flow for it. [Heat],
// [MassFlowFor] and [DifferenceFor] are the three forms of the energy balance.
//
// # Circuits
//
// A [Resistance] is what is in series with a valve: terminal, pipes, fittings,
// balancing valves. [Series] and [Parallel] add resistances up,
// [ValvePressure] says how a branch shares its pressure between them and the
// valve, and [CircuitAuthority] gives the valve's authority in both of its
// meanings.
//
// # The chain
//
// [NewChain] mounts an actuator on a valve and refuses a pair that cannot work.
// Its methods follow the signal step by step, and back:
//
//	signal → demand → opening demand → shaping → relative travel → stem extension → flow
//
// They neither fail nor allocate, so a chain can sit in a controller's loop. A
// signal that is not valid is a fact that [Response] tells, not an error. Chains are
// immutable, but large, so that their methods take pointers: keep a chain in a
// variable or a slice, or pointers to chains in a map.
//
// Say which pressure: a chain takes the pressure difference over the valve, and
// one made by [Chain.InBranch] that over the whole branch.
//
// # Standard circuits
//
// A [Circuit] is one of the circuits in which a control valve feeds a consumer
// beside pumps and headers of constant pressure:
//
//	NewMixingCircuit              consumer's flow constant, supply temperature varies
//	NewDivertingCircuit           source's flow constant, consumer's flow varies
//	NewInjectionCircuit           both flows constant, parted by a common pipe
//	NewThrottledInjectionCircuit  consumer's flow constant, source's flow varies
//
// [Circuit.Flows] tells the flow in every pipe at a travel of the valve,
// [Circuit.ConsumerRange] and [Circuit.PrimaryRange] how constant they really are,
// [Circuit.WithHeat] and [Circuit.WithTerminal] the temperatures, and
// [Circuit.Authority] the valve's authority. A [CircuitChain] joins a circuit with an
// actuator and a terminal. [Mix] is the junction by itself.
//
// # From signal to heat
//
// [NewHeatChain] adds what the valve feeds, a terminal unit of package
// hydronics/terminal, to a chain:
//
//	unit, err := hydronics.NewHeatChain(chain, coil, 30*units.Kilopascal, terminal.Conditions{})
//	r := unit.Respond(signal.Volts(4.5))              // every step, flow, heat, return temperature
//	s, err := unit.SignalForHeat(6*units.Kilowatt)    // and back
//
// [HeatChain.Gain] and [HeatChain.Linearity] say how evenly the heat follows the
// signal, [HeatChain.LeastLoad] from which load on the unit controls at all, and
// [RankPairings] which actuator shaping on which valve characteristic suits the
// terminal and the authority best. Equal percentage for coils is the usual answer
// and not always the right one: RESPONSE.md beside this package has the table.
//
// That is a unit whose valve throttles its flow. [NewCircuitChain] does the same for a
// unit in a [Circuit], where the flow may stay and the supply temperature change, and
// [PairingConfig] takes a Circuit too. A [Chain] on the control port of a three-way
// valve alone knows nothing of the circuit.
//
// # Cautions
//
// What these models predict does not replace the design, the maker's instructions
// or measurement. Hot pressurised water, mains and 24 V wiring and moving stems
// injure: local codes and licensed practice come first, and an actuator is never
// powered unless it is mounted on its valve.
package hydronics
