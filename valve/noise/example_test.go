package noise_test

import (
	"fmt"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/noise"
	"github.com/indexrun/indexrun/valve/sizing"
)

// globe is a DN 100 globe valve that takes 3.5 bar out of cold water at 10 bar,
// the case with which python3-fluids documents its function: 81.58200097996 dB(A).
func globe() noise.Config {
	return noise.Config{
		Case: sizing.Case{
			Liquid: sizing.Liquid{
				Density:        997 * units.KilogramPerCubicMetre,
				VapourPressure: units.Absolute(2.32 * units.Kilopascal),
				Viscosity:      1 * units.SquareMillimetrePerSecond,
			},
			Inlet:  units.Absolute(1000 * units.Kilopascal),
			Outlet: units.Absolute(650 * units.Kilopascal),
			Valve:  sizing.Valve{Diameter: 100 * units.Millimetre, FL: 0.92, Fd: 0.42},
		},
		Kv:          77.848 * units.Kv,
		Flow:        units.Flow(40.0/997) * units.CubicMetrePerSecond,
		LiquidSound: 1400 * units.MetrePerSecond,
		Pipe:        noise.Pipe{InsideDiameter: 107.1 * units.Millimetre, Wall: 3.6 * units.Millimetre},
		Air:         noise.Air{Density: 1.293 * units.KilogramPerCubicMetre},
	}
}

func ExamplePredict() {
	r, err := noise.Predict(globe())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f dB(A), %v\n", r.Level, r.Regime)
	fmt.Printf("xF %.3f, cavitation from %.3f\n", r.XF, r.XFz)
	fmt.Println("peaks inside:", r.TurbulentPeak.Fixed(units.Hertz, 0), "and", r.CavitationPeak.Fixed(units.Hertz, 0))
	fmt.Println("ring frequency:", r.RingFrequency.Fixed(units.Kilohertz, 1))
	// Output:
	// 81.58 dB(A), cavitating
	// xF 0.351, cavitation from 0.239
	// peaks inside: 654 Hz and 1089 Hz
	// ring frequency: 14.9 kHz
}

// Towards flashing the level that the standard predicts falls (invented data): a limit
// is compared with the greatest one.
func ExamplePredict_towardsFlashing() {
	for _, outlet := range []units.Pressure{650 * units.Kilopascal, 100 * units.Kilopascal, 10 * units.Kilopascal} {
		cfg := globe()
		cfg.Case.Outlet = units.Absolute(outlet)
		r, err := noise.Predict(cfg)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("p2 %v: %.1f dB(A), greatest %.1f, beyond it: %v\n", outlet, r.Level, r.GreatestLevel, r.BeyondGreatest)
	}
	// Output:
	// p2 650 kPa: 81.6 dB(A), greatest 81.6, beyond it: false
	// p2 100 kPa: 88.7 dB(A), greatest 94.8, beyond it: true
	// p2 10 kPa: 82.8 dB(A), greatest 95.1, beyond it: true
}

// A fan coil's valve (invented data): everything but the pipe's wall by default.
// The level is that of the flow which the valve passes at 60 kPa.
func ExamplePredict_defaults() {
	r, err := noise.Predict(noise.Config{
		Case: sizing.Case{
			Liquid: sizing.Liquid{
				Density:        999.9 * units.KilogramPerCubicMetre,
				VapourPressure: units.Absolute(940 * units.Pascal),
				Viscosity:      1.47 * units.SquareMillimetrePerSecond,
			},
			Inlet:  units.Absolute(300 * units.Kilopascal),
			Outlet: units.Absolute(240 * units.Kilopascal),
			Valve:  sizing.GlobeContouredOpening.Valve(15 * units.Millimetre),
		},
		Kv:   1 * units.Kv,
		Pipe: noise.Pipe{Wall: 2.6 * units.Millimetre},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f dB(A), %v, at %v\n", r.Level, r.Regime, r.Flow)
	// Output:
	// 24 dB(A), turbulent, at 0.2151 l/s
}
