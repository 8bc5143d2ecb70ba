package fluid_test

import (
	"encoding/json"
	"fmt"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/units"
)

// What 30 % of ethylene glycol does to chilled water: it is denser, carries
// less heat in each litre and is more than twice as viscous.
func Example() {
	glycol, err := fluid.EthyleneGlycolByMass(30 * units.Percent)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range []fluid.Fluid{fluid.Water(), glycol} {
		s, err := f.At(units.Celsius(9), units.Absolute(3*units.Bar))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %s, %s, %s\n", f,
			s.Density().Fixed(units.KilogramPerCubicMetre, 1),
			s.SpecificHeat().Fixed(units.KilojoulePerKilogramKelvin, 3),
			s.KinematicViscosity().Fixed(units.SquareMillimetrePerSecond, 2))
	}
	// Output:
	// water: 999.9 kg/m³, 4.196 kJ/(kg·K), 1.34 mm²/s
	// ethylene glycol 30 % mass: 1042.2 kg/m³, 3.685 kJ/(kg·K), 2.96 mm²/s
}

// The same 30 % protects differently by mass and by volume.
func ExampleFluid_FreezingMargin() {
	coldest := units.Celsius(-10)
	for _, text := range []string{"MEG 30 mass-%", "MEG 30 vol-%", "MPG 30 vol-%"} {
		f, err := fluid.Parse(text)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v freezes at %s: margin %s\n", f,
			f.FreezingTemperature().Fixed(units.CelsiusScale, 1), f.FreezingMargin(coldest).Fixed(units.Kelvin, 1))
	}
	// Output:
	// ethylene glycol 30 % mass freezes at -14.6 °C: margin 4.6 K
	// ethylene glycol 30 % volume freezes at -16.5 °C: margin 6.5 K
	// propylene glycol 30 % volume freezes at -13.3 °C: margin 3.3 K
}

// A percentage has to say by what.
func ExampleParse() {
	for _, text := range []string{"water", "30 wt-% MEG", "mpg 25% (v/v)", "MEG 30 %"} {
		f, err := fluid.Parse(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(f)
	}
	// Output:
	// water
	// ethylene glycol 30 % mass
	// propylene glycol 25 % volume
	// fluid: text: got "MEG 30 %", want "mass" or "volume" with the percentage: 30 % by volume is 32.3 % by mass of ethylene glycol and 30.8 % of propylene glycol, which moves the freezing point
}

// A state that is not a liquid is refused with the range that would do.
func ExampleFluid_At() {
	_, err := fluid.Water().At(units.Celsius(120), units.Absolute(1.5*units.Bar))
	fmt.Println(err)

	s, err := fluid.Water().At(units.Celsius(120), units.Absolute(3*units.Bar))
	fmt.Println(s.Density(), s.VapourPressure(), err)
	// Output:
	// fluid: pressure: got 150 kPa abs, want 198.666 … 100000 kPa abs, above the vapour pressure of water and within the data for water
	// 943.2 kg/m³ 198.7 kPa abs <nil>
}

// A fluid is text in JSON.
func ExampleFluid_MarshalText() {
	plant := struct {
		Heating fluid.Fluid
		Cooling fluid.Fluid
	}{Cooling: fluid.MustParse("propylene glycol 25 % volume")}
	data, err := json.Marshal(plant)
	fmt.Println(string(data), err)
	// Output: {"Heating":"water","Cooling":"propylene glycol 25 % volume"} <nil>
}

func ExampleSaturationTemperature() {
	boils, err := fluid.SaturationTemperature(units.Atmospheric())
	fmt.Println(boils.Fixed(units.CelsiusScale, 2), err)
	// Output: 99.97 °C <nil>
}
