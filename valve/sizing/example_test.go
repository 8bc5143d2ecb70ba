package sizing_test

import (
	"fmt"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// example1 is the case of the standard's worked example 1: hot water, a globe
// valve with a contoured plug of the pipe's size.
func example1() sizing.Case {
	return sizing.Case{
		Liquid: sizing.Liquid{
			Density:          965.4 * units.KilogramPerCubicMetre,
			VapourPressure:   units.Absolute(70.1 * units.Kilopascal),
			CriticalPressure: units.Absolute(22120 * units.Kilopascal),
			Viscosity:        0.326 * units.SquareMillimetrePerSecond,
		},
		Inlet:  units.Absolute(680 * units.Kilopascal),
		Outlet: units.Absolute(220 * units.Kilopascal),
		Valve:  sizing.GlobeContouredOpening.Valve(150 * units.Millimetre),
	}
}

// Example 1 of IEC 60534-2-1, incompressible flow, not choked, no fittings: the
// standard prints FF 0.944, choked Δp 497 kPa, Kv 165, Rev 2.97e6.
func ExampleSize() {
	r, err := sizing.Size(360*units.CubicMetrePerHour, example1())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("FF", fmt.Sprintf("%.3f", r.FF), "choked at", r.ChokedPressureDrop.Fixed(units.Kilopascal, 0))
	fmt.Println(r.Kv.Fixed(units.Kv, 2), r.Regime, fmt.Sprintf("Rev %.2e", r.Rev))
	// Output:
	// FF 0.944 choked at 497 kPa
	// 165.00 Kv turbulent Rev 2.97e+06
}

// Example 2 of IEC 60534-2-1, incompressible flow, choked, no fittings: a ball
// valve with a segmented ball for the same service; the standard prints choked Δp
// 221 kPa, Kv 238.
func ExampleSize_choked() {
	c := example1()
	c.Valve = sizing.BallSegmented.Valve(100 * units.Millimetre)
	r, err := sizing.Size(360*units.CubicMetrePerHour, c)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("choked:", r.Choked, "at", r.ChokedPressureDrop.Fixed(units.Kilopascal, 0))
	fmt.Println(r.Kv.Fixed(units.Kv, 2))
	// Output:
	// choked: true at 221 kPa
	// 238.06 Kv
}

// Example 1 again with an 80 mm valve between reducers to 100 and 90 mm. The
// reducers make the flow choke, just.
func ExampleSize_reducers() {
	c := example1()
	c.Valve.Diameter = 80 * units.Millimetre
	c.InletPipe = 100 * units.Millimetre
	c.OutletPipe = 90 * units.Millimetre
	r, err := sizing.Size(360*units.CubicMetrePerHour, c)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Kv.Fixed(units.Kv, 3))
	fmt.Printf("FP %.4f FLP %.4f\n", r.FP, r.FLP)
	fmt.Println("choked:", r.Choked, "at", r.ChokedPressureDrop.Fixed(units.Kilopascal, 1), "of", r.PressureDrop.Fixed(units.Kilopascal, 1))
	// Output:
	// 177.880 Kv
	// FP 0.9300 FLP 0.8030
	// choked: true at 457.6 kPa of 460.0 kPa
}

// Example 1 with a liquid ten thousand times as thick.
func ExampleSize_viscous() {
	c := example1()
	c.Liquid.Viscosity *= 10000
	r, err := sizing.Size(360*units.CubicMetrePerHour, c)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Kv.Fixed(units.Kv, 2), r.Regime)
	fmt.Printf("Rev %.1f FR %.4f\n", r.Rev, r.FR)

	r, err = sizing.Size(0.36*units.CubicMetrePerHour, c)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Kv.Fixed(units.Kv, 3), r.Regime)
	fmt.Printf("Rev %.2f FR %.4f\n", r.Rev, r.FR)
	// Output:
	// 236.07 Kv transitional
	// Rev 249.8 FR 0.6989
	// 3.367 Kv laminar
	// Rev 2.06 FR 0.0490
}

// A cooling coil's valve: which Kv for 0.35 l/s of 35 % glycol at 2 °C (invented
// data) over 12 kPa, and what a valve of Kv 4 would pass.
func ExampleFlow() {
	glycol := sizing.Liquid{
		Density:        1055 * units.KilogramPerCubicMetre,
		VapourPressure: units.Absolute(600 * units.Pascal),
		Viscosity:      4.6 * units.SquareMillimetrePerSecond,
	}
	c := sizing.Case{
		Liquid: glycol,
		Inlet:  units.Absolute(320 * units.Kilopascal),
		Outlet: units.Absolute(308 * units.Kilopascal),
		Valve:  sizing.GlobeContouredOpening.Valve(20 * units.Millimetre),
	}
	need, err := sizing.Size(0.35*units.LitrePerSecond, c)
	if err != nil {
		fmt.Println(err)
		return
	}
	gets, err := sizing.Flow(4*units.Kv, c)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("needs", need.Kv.Fixed(units.Kv, 2), need.Regime, fmt.Sprintf("FR %.3f", need.FR))
	fmt.Println("Kv 4 passes", gets.Flow.Fixed(units.LitrePerSecond, 3))
	// Output:
	// needs 3.98 Kv transitional FR 0.939
	// Kv 4 passes 0.352 l/s
}

func ExampleCavitationAt() {
	c := example1()
	cav, err := sizing.CavitationAt(165*units.Kv, c)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("xF %.3f, cavitation from xFz %.3f: %v\n", cav.XF, cav.XFzInlet, cav.State)
	fmt.Printf("σ %.3f\n", cav.Sigma)
	fmt.Println("with a fifth to spare:", cav.MaxPressureDrop(1.25).Fixed(units.Kilopascal, 0))
	// Output:
	// xF 0.754, cavitation from xFz 0.200: cavitating
	// σ 1.326
	// with a fifth to spare: 98 kPa
}

// Water and glycol from package fluid: the mixing valve of a heating circuit at
// 80 °C, and a chilled-water valve at 2 °C with 30 % by volume of propylene glycol
// (invented data).
func ExampleLiquid() {
	glycol, err := fluid.PropyleneGlycolByVolume(30 * units.Percent)
	if err != nil {
		fmt.Println(err)
		return
	}
	inlet := units.Absolute(320 * units.Kilopascal)
	for _, service := range []struct {
		fluid       fluid.Fluid
		temperature units.Temperature
	}{
		{fluid.Water(), units.Celsius(80)},
		{glycol, units.Celsius(2)},
	} {
		state, err := service.fluid.At(service.temperature, inlet)
		if err != nil {
			fmt.Println(err)
			return
		}
		r, err := sizing.Size(0.35*units.LitrePerSecond, sizing.Case{
			Liquid: sizing.Liquid{
				Density:        state.Density(),
				VapourPressure: state.VapourPressure(),
				Viscosity:      state.KinematicViscosity(),
			},
			Inlet:  inlet,
			Outlet: inlet.Add(-12 * units.Kilopascal),
			Valve:  sizing.GlobeContouredOpening.Valve(20 * units.Millimetre),
		})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %v, %v, FR %.3f\n", service.fluid, r.Kv.Fixed(units.Kv, 2), r.Regime, r.FR)
	}
	// Output:
	// water: 3.59 Kv, turbulent, FR 1.000
	// propylene glycol 30 % volume: 4.06 Kv, transitional, FR 0.910
}

// A drilled cage cavitates later than a contoured plug. Its holes have to be told:
// 60 are the style's, 5 mm is invented.
func ExampleEstimateXFz() {
	cage := sizing.GlobeDrilledCage60.Valve(150 * units.Millimetre)
	cage.HoleDiameter = 5 * units.Millimetre
	plug := sizing.GlobeContouredOpening.Valve(150 * units.Millimetre)
	fmt.Printf("cage %.3f\n", sizing.EstimateXFz(165*units.Kv, cage))
	fmt.Printf("plug %.3f\n", sizing.EstimateXFz(165*units.Kv, plug))
	// Output:
	// cage 0.371
	// plug 0.203
}

// Typical factors by style at Kv 40; FL and Fd are the style's, xFz falls as Kv rises.
func ExampleStyle() {
	for _, style := range []sizing.Style{
		sizing.GlobeContouredOpening, sizing.GlobeCageOutward, sizing.EccentricSphericalOpening,
		sizing.Butterfly70, sizing.BallSegmented,
	} {
		v := style.Valve(65 * units.Millimetre)
		fmt.Printf("%v: FL %.2f, Fd %.2f, xFz %.2f\n", style, v.FL, v.Fd, style.XFz(40*units.Kv))
	}
	// Output:
	// globe-contoured-opening: FL 0.90, Fd 0.46, xFz 0.28
	// globe-cage-outward: FL 0.90, Fd 0.41, xFz 0.30
	// eccentric-spherical-opening: FL 0.85, Fd 0.42, xFz 0.29
	// butterfly-70: FL 0.62, Fd 0.57, xFz 0.24
	// ball-segmented: FL 0.60, Fd 0.98, xFz 0.18
}

// Every fault of a case is reported.
func ExampleSize_faults() {
	c := example1()
	c.Outlet = units.Absolute(700 * units.Kilopascal)
	c.Liquid.VapourPressure = units.Absolute(800 * units.Kilopascal)
	c.Valve.FL = 90
	_, err := sizing.Size(360*units.CubicMetrePerHour, c)
	fmt.Println(err)
	// Output:
	// sizing: Liquid.VapourPressure: got 800 kPa abs, want below the inlet pressure, 680 kPa abs, or what arrives is no liquid
	// sizing: Outlet: got 700 kPa abs, want below the inlet pressure, 680 kPa abs
	// sizing: Valve.FL: got 90, want above 0, up to 1
}
