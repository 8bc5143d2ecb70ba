// Package sizing sizes control valves for liquids by IEC 60534-2-1: the Kv that
// a flow needs, the flow that a Kv passes, and how far the valve is from
// cavitation.
//
// A [Case] says what the valve sees: the liquid, the absolute pressures before
// and after, the valve and the pipes. [Size] turns a flow into the Kv, [Flow] a
// Kv into the flow, and both return every factor on the way:
//
//	water := sizing.Liquid{
//		Density:        971.8 * units.KilogramPerCubicMetre,
//		VapourPressure: units.Absolute(47.4 * units.Kilopascal),
//		Viscosity:      0.365 * units.SquareMillimetrePerSecond,
//	}
//	res, err := sizing.Size(1.2*units.CubicMetrePerHour, sizing.Case{
//		Liquid: water,
//		Inlet:  units.Absolute(300 * units.Kilopascal),
//		Outlet: units.Absolute(270 * units.Kilopascal),
//		Valve:  sizing.GlobeContouredOpening.Valve(15 * units.Millimetre),
//	})
//
// # The law
//
// With q in m³/h, pressures in bar and ρ0 = 999.10 kg/m³ (water at 15 °C),
//
//	q = Kv·FP·FR·√(Δp_sizing·ρ0/ρ)
//	Δp_sizing = min(Δp, Δp_choked),  Δp_choked = (FLP/FP)²·(p1 − FF·pv)
//	FF = 0.96 − 0.28·√(pv/pc)
//
// FP and FLP are the work of reducers next to the valve, FR that of viscosity;
// all are 1 (FLP is FL) for water in a valve of the pipe's size. Because FP and
// FLP depend on Kv, and FR on Kv and flow, the standard iterates. Here turbulent
// sizing is a closed form, and the rest is solved to the last digits: the result
// satisfies the equations, it does not merely come near. [Flow] of the Kv that [Size]
// returns is the flow asked for, to 1e-10 or better, beside every kink too: where n
// becomes 1, laminar flow turns transitional or choking begins.
//
// # Where it stands
//
// In IEC 60534-2-1:2011 (numbers from memory):
//
//	flow and Kv in turbulent flow      6.1, equation (1)
//	Δp_sizing, Δp_choked, FF           6.2, equations (2), (3), (4)
//	viscous flow, FR and n             6.3 and Annex A
//	FP, Σζ, ζB, ζ1, ζ2                 8.1 and 8.2, equations (15) to (20)
//	FLP                                8.3, equation (21)
//	Rev                                clause 9, equation (23)
//	N1, N2, N4, N18, N19, N32          Table 1
//	FL and Fd by valve style           Table D.2
//
// and in IEC 60534-8-4:2015 the onset of cavitation, xFz.
//
// # Liquids from package fluid
//
// Packages below valve do not know those below hydronics. A state of
// hydronics/fluid becomes a [Liquid] field by field, by methods of the same names
// but for ν:
//
//	s, err := fluid.Water().At(units.Celsius(80), inlet)
//	liquid := sizing.Liquid{
//		Density:        s.Density(),
//		VapourPressure: s.VapourPressure(),
//		Viscosity:      s.KinematicViscosity(),
//	}
//
// with the critical pressure left to water's, for glycols too.
//
// # Where the standard leaves a choice
//
//   - Reducers in viscous flow: the standard has no data and advises to take FR
//     as for line size (from memory). Here FP and FLP stay in force beside FR,
//     and so does choking, so that nothing jumps at Rev = 10 000.
//   - Full-size and reduced trim: the factor n of FR changes its formula at
//     Kv/d² = 0.016·N18. FR jumps there: at Rev = 10 and FL = 0.9 from 0.2751 in
//     reduced trim, below, to 0.2640 in full-size trim, at and above. The jump is
//     the standard's and is kept. Sizing decides by the Kv that is sought; for the
//     flow of a Kv within rounding of the jump it may find the Kv on its other side,
//     or none that passes so much. In full-size trim at low Rev, n falls so fast that
//     a greater Kv can pass less: [Size] returns the least Kv that passes the flow.
//     Close to such a peak the flow hardly depends on Kv, and the last digits of Kv
//     mean little. Behind a lone outlet expander flow can rise again past the peak;
//     where peak and valley lie within 0.15 % of Kv they can be missed, and the Kv
//     returned, which passes the flow, is then not the least.
//   - Rev = 10: below it the standard takes the laminar FR alone, above it the
//     lesser of the laminar and the transitional one. Read to the letter, FR drops
//     as Rev rises through 10, by a factor of up to 8, if n < 1.45 or FL < 0.38,
//     and a Kv has several flows. Here the lesser is taken at every Rev, but the
//     transitional equation only from where it first exceeds the laminar one, so
//     that FR never falls. Both readings are the same but for 10 ≤ Rev < 25 with
//     n < 1.5 and Rev < 10 with FL < 0.4.
//   - Kv/d² enters n as 0.04 at most, where n is 1 (from memory).
//
// # Scope
//
// Newtonian liquids. The standard claims its accuracy up to Kv/d² = 0.047·N18;
// [Result.InScope] tells. FL, Fd and xFz are the maker's, measured ones if there
// are any; [Style] has typical values for a wide open valve. As a valve closes, FL
// and Fd change.
//
// The constants N1, N2, N4, N18, N19 and N32 are the standard's rounded ones for
// Kv, m³/h and mm. The worked examples 1 and 2 of the standard are examples of
// this package, and the tests compare every factor with a general-purpose library
// and with an independent solver (internal/reference).
//
// Caution: a cavitating valve erodes, shakes and may fail. Hot water under pressure
// turns to steam when it is let out: cool, isolate and drain before a valve is
// opened.
package sizing
