package terminal_test

import (
	"fmt"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// How much heat is left when a valve throttles a radiator?
func ExampleNewRadiator() {
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{
		RatedHeat: 1200 * units.Watt, // at 75/65/20 °C
		Exponent:  1.3,
		Design:    terminal.Temperatures{Supply: units.Celsius(70), Return: units.Celsius(55), Air: units.Celsius(20)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	design := radiator.Design()
	fmt.Println("design", design.Heat.Fixed(units.Watt, 0), design.Flow.Fixed(units.LitrePerHour, 1))
	for _, share := range []float64{0.5, 0.2, 0.1} {
		o := radiator.Output(units.Flow(share)*design.Flow, terminal.Conditions{})
		fmt.Printf("%3.0f %% of the flow: %s, return %s\n", share*100, o.Heat.Fixed(units.Watt, 0), o.Return.Fixed(units.CelsiusScale, 1))
	}
	// Output:
	// design 962 W 56.0 l/h
	//  50 % of the flow: 793 W, return 45.3 °C
	//  20 % of the flow: 503 W, return 30.8 °C
	//  10 % of the flow: 300 W, return 23.3 °C
}

// Which flow gives half the heat of a coil, and what if the supply is colder?
func ExampleCoil_FlowFor() {
	coil, err := terminal.NewCoil(terminal.CoilConfig{
		Heat:        5 * units.Kilowatt,
		Design:      terminal.Temperatures{Supply: units.Celsius(70), Return: units.Celsius(50), Air: units.Celsius(18)},
		LeavingAir:  units.Celsius(35),
		Arrangement: terminal.CrossFlow,
		WaterShare:  25 * units.Percent,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	q, err := coil.FlowFor(2.5*units.Kilowatt, terminal.Conditions{})
	fmt.Println(q.Fixed(units.LitrePerHour, 0), "of", coil.Design().Flow.Fixed(units.LitrePerHour, 0), err)

	_, err = coil.FlowFor(5*units.Kilowatt, terminal.Conditions{Supply: units.Celsius(45)})
	fmt.Println(err)
	// Output:
	// 56 l/h of 218 l/h <nil>
	// terminal: 5 kW cannot be reached: an infinite flow gives 4.016 kW
}

// A condensing boiler wants its water back at 30 °C: at which flow of a radiator
// does it leave so cold, and how much heat is left?
func ExampleRadiator_FlowForReturn() {
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{
		RatedHeat: 1200 * units.Watt, // at 75/65/20 °C
		Design:    terminal.Temperatures{Supply: units.Celsius(70), Return: units.Celsius(50), Air: units.Celsius(20)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	design := radiator.Design()
	q, err := radiator.FlowForReturn(units.Celsius(30), terminal.Conditions{})
	fmt.Println(q.Fixed(units.LitrePerHour, 1), "of", design.Flow.Fixed(units.LitrePerHour, 1), err)
	fmt.Println(radiator.Heat(q).Fixed(units.Watt, 0), "of", design.Heat.Fixed(units.Watt, 0))

	_, err = radiator.FlowForReturn(units.Celsius(18), terminal.Conditions{})
	fmt.Println(err)
	// Output:
	// 10.6 l/h of 38.2 l/h <nil>
	// 486 W of 877 W
	// terminal: a return of 18 °C cannot be reached: it lies between air of 20 °C and a supply of 70 °C
}

// A cooling coil that is wet at design and dry at low flow.
func ExampleNewWetCoil() {
	coil, err := terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat:       4 * units.Kilowatt,
		Design:     terminal.Temperatures{Supply: units.Celsius(6), Return: units.Celsius(12), Air: units.Celsius(27)},
		Humidity:   50 * units.Percent,
		AirFlow:    0.22 * units.CubicMetrePerSecond,
		WaterShare: 25 * units.Percent,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, share := range []float64{1, 0.5, 0.1} {
		o := coil.Output(units.Flow(share)*coil.Design().Flow, terminal.Conditions{})
		fmt.Printf("flow %3.0f %%: total %s, sensible %s, air %s\n", share*100,
			o.Heat.Fixed(units.Kilowatt, 2), o.Sensible.Fixed(units.Kilowatt, 2), o.Leaving.Fixed(units.CelsiusScale, 1))
	}
	// Output:
	// flow 100 %: total 4.00 kW, sensible 2.89 kW, air 16.3 °C
	// flow  50 %: total 2.91 kW, sensible 2.41 kW, air 18.1 °C
	// flow  10 %: total 1.08 kW, sensible 1.08 kW, air 23.0 °C
}

// The laws of ε-NTU by themselves: exact cross flow beside the approximation
// that textbooks print.
func ExampleArrangement_Effectiveness() {
	const ua, water, air = 500 * units.WattPerKelvin, 500 * units.WattPerKelvin, 500 * units.WattPerKelvin
	for _, a := range []terminal.Arrangement{terminal.CounterFlow, terminal.CrossFlow, terminal.CrossFlowApproximate} {
		fmt.Printf("%-22v %.4f\n", a, a.Effectiveness(ua, water, air))
	}
	// Output:
	// counter-flow           0.5000
	// cross-flow             0.4762
	// cross-flow-approximate 0.4685
}

// What is missing or wrong is said all at once.
func ExampleNewCeiling_faults() {
	_, err := terminal.NewCeiling(terminal.CeilingConfig{
		Rated:    terminal.Temperatures{Supply: units.Celsius(15), Return: units.Celsius(25), Air: units.Celsius(24)},
		Exponent: 11,
	})
	fmt.Println(err)
	// Output:
	// terminal: RatedHeat: got 0 kW, want a finite value above zero
	// terminal: Exponent: got 11, want 1 … 2
	// terminal: Rated.Return: got 25 °C, want between supply and air
}
