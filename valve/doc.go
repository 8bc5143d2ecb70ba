// Package valve holds models of hydronic control valves: from relative travel
// to flow coefficient, and from pressure difference to flow and back.
//
// # Words
//
// Relative travel h is 0 closed … 1 open. The flow coefficient Kv is the flow
// in m³/h of water at 15 °C over 1 bar; Kvs is that of the open valve and φ =
// Kv/Kvs the relative flow coefficient (IEC 60534-1). The theoretical ratio R0
// = Kvs/Kv0 is the constant of the formulas, the inherent rangeability Kvs/Kvr
// what a valve really follows them over.
//
// # Two kinds of valve
//
// A [TwoWay] valve passes q = Kv·√(Δp/1 bar · ρ0/ρ), so that what it does
// depends on the pressure in its branch: [TwoWay.Authority] says how much of
// that it commands, [TwoWay.Installed] what becomes of its characteristic.
//
// A [PressureIndependent] valve has a regulator inside that holds the pressure
// across its orifice, so that the flow follows the travel alone, as long as the
// valve gets its least pressure. A dial sets its greatest flow:
//
//	v, err := valve.NewPressureIndependent(cfg)     // at the highest setting
//	v, err = v.WithFlow(0.08 * units.LitrePerSecond)
//	fmt.Println(v.Mark(), v.MinPressure())
//
// Both are made from a Config, a plain description as in a data sheet; the
// constructor reports every fault of it at once. Both are small immutable
// values, safe for concurrent use, whose laws neither fail nor allocate, and
// both satisfy [Valve].
//
// # Three ways, two circuits
//
// A [ThreeWay] valve is two two-way valves on one stem, of which one opens as the
// other shuts: [ThreeWay.Control] and [ThreeWay.Bypass] are its ports A and B as
// [TwoWay] valves, each with a characteristic, a Kvs and a leakage of its own.
// Its travel counts by the control port. [ThreeWay.InstalledTotal] says how far
// the flow through the common port strays over the travel; the circuits around it
// are in package hydronics. A [ChangeOver] valve turns one rotation into the
// openings of two circuits with a closed middle between them.
//
// # Closed is not nothing
//
// The laws of the data sheets ([EqualPercentage], [Linear]) do not reach zero.
// A valve therefore has a closing region: below its closing travel (see
// [DefaultClosingTravel]) the curve runs straight to the leakage at h = 0. φ is
// exactly 1 at h = 1 and exactly the leakage at h = 0, and TravelFor of the
// leakage or less is 0.
//
// # Two-terminal laws
//
// For networks each valve offers q(Δp), Δp(q) and dq/dΔp at every travel,
// continuous and strictly increasing through zero: below 1 Pa the law is
// laminar instead of a square root, and no valve is tighter than
// [LeastLeakage]. The slope of a pressure-independent valve has a kink where
// regulation begins.
//
// # Which pressure
//
// A dp here is always across the valve alone, except for Available in a
// [Branch] and a [Duty], which is across the whole branch.
//
// # Choosing
//
// [CoefficientFor] gives the Kv a flow needs, [R5] or [R10] the next preferred number,
// and [Select] the best valve of a list with the reason, and the runners-up
// with why they lost.
//
// # Cautions
//
// The models are about flow. Before a valve or actuator is touched: hot water
// under pressure scalds, stems and linkages move without warning and with
// force, and mains or 24 V wiring is work for the qualified. Never power an
// actuator that is not mounted on its valve.
//
// The package does not know actuators; package hydronics puts both together.
// Choked flow, cavitation and viscosity are the business of valve/sizing.
package valve
