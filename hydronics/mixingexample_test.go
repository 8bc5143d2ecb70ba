package hydronics_test

import (
	"fmt"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Two parts of hot water and one of cold.
func ExampleMix() {
	hot := hydronics.Stream{MassFlow: 2 * units.KilogramPerSecond, SpecificHeat: hydronics.ReferenceSpecificHeat, Temperature: units.Celsius(60)}
	cold := hydronics.Stream{MassFlow: 1 * units.KilogramPerSecond, SpecificHeat: hydronics.ReferenceSpecificHeat, Temperature: units.Celsius(15)}
	fmt.Println(hydronics.Mix(hot, cold).Temperature)
	// Output: 45 °C
}

// A heating circuit with a mixing valve, from the controller's signal to the
// temperatures. All data of these examples are invented.
func ExampleNewMixingCircuit() {
	val, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Control: valve.PortConfig{Kvs: 6.3 * units.Kv, Curve: valve.EqualPercentage(50)},
		Bypass:  valve.PortConfig{Curve: valve.Linear(50)},
		Stem:    valve.PushToOpen, Stroke: 15 * units.Millimetre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	const design = 0.5 * units.LitrePerSecond
	circuit, err := hydronics.NewMixingCircuit(val, hydronics.MixingConfig{
		Pump:     40 * units.Kilopascal,
		Primary:  must(hydronics.ResistanceAt(design, 5*units.Kilopascal)),
		Bypass:   must(hydronics.ResistanceAt(design, 5*units.Kilopascal)),
		Consumer: must(hydronics.ResistanceAt(design, 26*units.Kilopascal)),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	act, err := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), Stroke: 15 * units.Millimetre, ClosingEnd: actuator.Retracted,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	chain, err := hydronics.NewChain(act, val.Control())
	if err != nil {
		fmt.Println(err)
		return
	}
	radiators, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 20 * units.Kilowatt})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, volts := range []float64{2, 5, 8, 10} {
		r := chain.Respond(signal.Volts(volts), 0)
		s := circuit.WithTerminal(r.Travel, radiators, terminal.Conditions{})
		fmt.Printf("%.0f V: %s of %s from the boiler, %s → %s, %s\n", volts,
			s.Primary.Fixed(units.LitrePerSecond, 3), s.Consumer.Fixed(units.LitrePerSecond, 3),
			s.ConsumerSupply.Fixed(units.CelsiusScale, 1), s.ConsumerReturn.Fixed(units.CelsiusScale, 1), s.Heat.Fixed(units.Kilowatt, 1))
	}
	fmt.Printf("authority %.2f\n", circuit.Authority(design).Open)
	// Output:
	// 2 V: 0.030 l/s of 0.490 l/s from the boiler, 37.9 °C → 35.5 °C, 4.9 kW
	// 5 V: 0.105 l/s of 0.458 l/s from the boiler, 55.0 °C → 49.0 °C, 11.4 kW
	// 8 V: 0.313 l/s of 0.468 l/s from the boiler, 70.4 °C → 61.1 °C, 18.2 kW
	// 10 V: 0.505 l/s of 0.505 l/s from the boiler, 75.0 °C → 65.3 °C, 20.5 kW
	// authority 0.62
}

// A cooling coil in a diverting circuit: half way, two linear ports take a third
// more from the chiller than at the ends. With an authority of 0.3 an
// equal-percentage control port and a linear bypass keep its flow within 7 %.
func ExampleNewDivertingCircuit() {
	const design = 0.5 * units.LitrePerSecond
	for _, curve := range []valve.Characteristic{valve.Linear(50), valve.EqualPercentage(50)} {
		val, err := valve.NewThreeWay(valve.ThreeWayConfig{
			Control: valve.PortConfig{Kvs: 6.3 * units.Kv, Curve: curve},
			Bypass:  valve.PortConfig{Curve: valve.Linear(50)},
			Stroke:  15 * units.Millimetre,
		})
		if err != nil {
			fmt.Println(err)
			return
		}
		circuit, err := hydronics.NewDivertingCircuit(val, hydronics.DivertingConfig{
			Header:   40 * units.Kilopascal,
			Primary:  must(hydronics.ResistanceAt(design, 10*units.Kilopascal)),
			Consumer: must(hydronics.ResistanceAt(design, 22*units.Kilopascal)),
			Bypass:   must(hydronics.ResistanceAt(design, 22*units.Kilopascal)), // balanced
		})
		if err != nil {
			fmt.Println(err)
			return
		}
		r := circuit.PrimaryRange()
		fmt.Printf("%v: %s at h = %.2f … %s at h = %.2f\n", curve,
			r.Least.Fixed(units.LitrePerSecond, 3), r.LeastAt, r.Greatest.Fixed(units.LitrePerSecond, 3), r.GreatestAt)
	}
	// Output:
	// linear 50: 0.499 l/s at h = 0.00 … 0.654 l/s at h = 0.50
	// equal-percentage 50: 0.499 l/s at h = 0.00 … 0.535 l/s at h = 0.85
}

// A preheating coil fed by injection: the pumps at both sides keep their flows,
// and the consumer's supply temperature is mixed.
func ExampleNewInjectionCircuit() {
	val, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Control: valve.PortConfig{Kvs: 6.3 * units.Kv, Curve: valve.EqualPercentage(50)},
		Bypass:  valve.PortConfig{Curve: valve.Linear(50)},
		Stroke:  15 * units.Millimetre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	const design = 0.5 * units.LitrePerSecond
	circuit, err := hydronics.NewInjectionCircuit(val, hydronics.InjectionConfig{
		Header: 30 * units.Kilopascal, Pump: 25 * units.Kilopascal,
		Primary:   must(hydronics.ResistanceAt(design, 16*units.Kilopascal)),
		Injection: must(hydronics.ResistanceAt(design, 6*units.Kilopascal)),
		Bypass:    must(hydronics.ResistanceAt(design, 6*units.Kilopascal)),
		Consumer:  must(hydronics.ResistanceAt(design, 25*units.Kilopascal)),
		Common:    must(hydronics.ResistanceAt(design, 200*units.Pascal)),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	s := circuit.WithHeat(0.6, units.Celsius(60), 8*units.Kilowatt)
	fmt.Println("source", s.Primary.Fixed(units.LitrePerSecond, 3), "consumer", s.Consumer.Fixed(units.LitrePerSecond, 3), "injected", s.Control.Fixed(units.LitrePerSecond, 3))
	fmt.Println("consumer", s.ConsumerSupply.Fixed(units.CelsiusScale, 1), "→", s.ConsumerReturn.Fixed(units.CelsiusScale, 1))
	fmt.Println("back to the source", s.PrimaryReturn.Fixed(units.CelsiusScale, 1))
	// Output:
	// source 0.438 l/s consumer 0.499 l/s injected 0.152 l/s
	// consumer 51.3 °C → 47.4 °C
	// back to the source 55.6 °C
}

// The same with a two-way valve: the source's flow follows the load, and its
// return is as cold as the consumer's.
func ExampleNewThrottledInjectionCircuit() {
	val, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: 6.3 * units.Kv, Curve: valve.EqualPercentage(50), Stroke: 15 * units.Millimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	const design = 0.5 * units.LitrePerSecond
	circuit, err := hydronics.NewThrottledInjectionCircuit(val, hydronics.ThrottledInjectionConfig{
		Header: 20 * units.Kilopascal, Pump: 25 * units.Kilopascal,
		Primary:  must(hydronics.ResistanceAt(design, 12*units.Kilopascal)),
		Consumer: must(hydronics.ResistanceAt(design, 25*units.Kilopascal)),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, h := range []float64{0.5, 0.75, 1} {
		s := circuit.WithHeat(h, units.Celsius(60), units.Power(h)*8*units.Kilowatt)
		fmt.Printf("h = %.2f: source %s, consumer %s, back to the source %s\n", h,
			s.Primary.Fixed(units.LitrePerSecond, 3), s.Consumer.Fixed(units.LitrePerSecond, 3), s.PrimaryReturn.Fixed(units.CelsiusScale, 1))
	}
	// Output:
	// h = 0.50: source 0.109 l/s, consumer 0.500 l/s, back to the source 51.2 °C
	// h = 0.75: source 0.268 l/s, consumer 0.500 l/s, back to the source 54.6 °C
	// h = 1.00: source 0.498 l/s, consumer 0.500 l/s, back to the source 56.2 °C
}
