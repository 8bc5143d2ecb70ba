// Package pipe holds the pressure loss of liquids in round pipes: friction,
// fittings, the tables of sizes and roughness that go with them, and the choice
// of a size.
//
// # A run of pipe
//
// A [Pipe] is a run of one size with what is in it. Its law is Darcy–Weisbach,
//
//	Δp = (f·L/D + K + K₁/Re) · ρv²/2
//
// It answers both ways, [Pipe.Pressure] and [Pipe.Flow], with the slope of each,
// [Pipe.PressureSlope] (dΔp/dq) and [Pipe.Slope] (dq/dΔp):
//
//	size, err := pipe.Find(pipe.EN10255Medium(), "DN25")
//	…
//	run, err := pipe.New(pipe.Config{
//		Length:    24 * units.Metre,
//		Bore:      size.Bore(),
//		Roughness: pipe.CommercialSteel.Roughness(),
//		Losses:    elbow.Times(6).Plus(valve),
//		Density:   998.2 * units.KilogramPerCubicMetre,
//		Viscosity: 1.002 * units.MillipascalSecond,
//	})
//	dp := run.Pressure(0.4 * units.LitrePerSecond)
//
// The law is strictly rising through zero with a continuous slope, as a network
// solver needs it: laminar up to Re 2000, Colebrook–White from 4000, and a blend
// in the critical zone, where no law is sure; see [FrictionFactor]. The fluid is
// given by its density and viscosity at the mean temperature; package fluid has
// them for water and glycols.
//
// # Fittings
//
// A [Loss] is a coefficient K by the velocity in a stated bore, with a second
// part for low Reynolds numbers. Losses add up ([Loss.Plus], [Loss.Times]) once
// they are by the same bore ([Loss.Rebase]). They come from the table of
// [Fitting], from geometry ([SuddenExpansion], [SuddenContraction],
// [GradualExpansion], [GradualContraction], [Bend]), from the Kv of a component
// ([LossOfKv]) or from a handbook.
//
// # Sizing
//
// [NewSizing] takes a table ([EN10255Medium], [EN1057], [ASMEB3610Schedule40],
// [ASMEB3610Schedule80] or your own), a fluid and the limits of pressure
// gradient and velocity. [Sizing.Smallest] gives the smallest size for a flow,
// the limit that decided and what was wrong with the next smaller size.
//
// # Sources
//
// Each law names its own: Darcy–Weisbach, White 6.10; Hagen–Poiseuille, White 6.13;
// Colebrook–White, White 6.48 (F. M. White, Fluid Mechanics); sizes by EN 10255:2004,
// Table 2, EN 1057:2006, Table 3, and ASME B36.10M, Table 1; Kv by IEC
// 60534-2-1:2011, equation 1. Numbers of clauses, tables and equations are from memory.
//
// # Units and errors
//
// Quantities are those of package units; Reynolds number, relative roughness,
// friction factor and K are pure numbers. The friction factor is Darcy's, four
// times Fanning's. Constructors report every fault as a *units.FieldError;
// methods of a Pipe cannot fail, do not allocate and may be used concurrently.
package pipe
