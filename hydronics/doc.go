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
// signal that is not valid is a fact that [Response] tells, not an error.
//
// Say which pressure: a chain takes the pressure difference over the valve, and
// one made by [Chain.InBranch] that over the whole branch.
//
// # Cautions
//
// What these models predict does not replace the design, the maker's instructions
// or measurement. Hot pressurised water, mains and 24 V wiring and moving stems
// injure: local codes and licensed practice come first, and an actuator is never
// powered unless it is mounted on its valve.
package hydronics
