package pump_test

import (
	"fmt"
	"log"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/hydronics/pump"
	"github.com/indexrun/indexrun/units"
)

// An invented pump on a circuit that takes 45 kPa at 1.6 l/s.
func ExamplePump_Operate() {
	p, err := pump.New(pump.Config{
		Points: []pump.Point{
			{Flow: 0, Head: 62 * units.Kilopascal},
			{Flow: 1 * units.LitrePerSecond, Head: 57 * units.Kilopascal},
			{Flow: 2 * units.LitrePerSecond, Head: 42 * units.Kilopascal},
		},
		Efficiency: 0.55,
		Drive:      0.8,
	})
	if err != nil {
		log.Fatal(err)
	}
	circuit, err := pump.NewSystem(pump.SystemConfig{
		Loss: pump.Point{Flow: 1.6 * units.LitrePerSecond, Head: 45 * units.Kilopascal},
	})
	if err != nil {
		log.Fatal(err)
	}
	print := func(s pump.State) {
		fmt.Printf("%.0f %%: %s, %s, shaft %s, supply %s, %v\n", 100*s.Speed, s.Flow.Fixed(units.LitrePerSecond, 3),
			s.Head.Fixed(units.Kilopascal, 2), s.Shaft.Fixed(units.Watt, 1), s.Electric.Fixed(units.Watt, 1), s.Status)
	}
	print(p.Operate(circuit))
	slow, err := p.AtSpeed(0.8)
	if err != nil {
		log.Fatal(err)
	}
	print(slow.Operate(circuit))
	// Output:
	// 100 %: 1.657 l/s, 48.27 kPa, shaft 145.4 W, supply 181.8 W, normal
	// 80 %: 1.326 l/s, 30.89 kPa, shaft 74.5 W, supply 93.1 W, normal
}

// The same on laws of other packages: 60 m of pipe, and a terminal that takes 20
// kPa at 0.8 l/s.
func ExamplePump_OperateOn() {
	p, err := pump.New(pump.Config{
		ShutOff: 60 * units.Kilopascal,
		Duty:    pump.Point{Flow: 1 * units.LitrePerSecond, Head: 45 * units.Kilopascal},
	})
	if err != nil {
		log.Fatal(err)
	}
	size, err := pipe.Find(pipe.EN10255Medium(), "DN32")
	if err != nil {
		log.Fatal(err)
	}
	run, err := pipe.New(pipe.Config{
		Length: 60 * units.Metre, Bore: size.Bore(), Roughness: pipe.CommercialSteel.Roughness(),
		Density: 998.2 * units.KilogramPerCubicMetre, Viscosity: 1.002 * units.MillipascalSecond,
	})
	if err != nil {
		log.Fatal(err)
	}
	terminal, err := hydronics.ResistanceAt(0.8*units.LitrePerSecond, 20*units.Kilopascal)
	if err != nil {
		log.Fatal(err)
	}
	state, err := p.OperateOn(pump.LawFunc(func(q units.Flow) units.Pressure {
		return run.Pressure(q) + terminal.Pressure(q)
	}))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(state.Flow.Fixed(units.LitrePerSecond, 3), "at", state.Head.Fixed(units.Kilopascal, 2))
	fmt.Println("of which the pipe takes", run.Pressure(state.Flow).Fixed(units.Kilopascal, 2))
	// Output:
	// 0.945 l/s at 46.62 kPa
	// of which the pipe takes 18.73 kPa
}

// A rising curve is refused, and every fault is named.
func ExampleNew() {
	_, err := pump.New(pump.Config{
		Points: []pump.Point{
			{Flow: 0, Head: 60 * units.Kilopascal},
			{Flow: 1 * units.LitrePerSecond, Head: 63 * units.Kilopascal},
			{Flow: 2 * units.LitrePerSecond, Head: 50 * units.Kilopascal},
		},
		Drive: 80,
	})
	fmt.Println(err)
	// Output:
	// pump: Points[1].Head: got 63 kPa, want a head no higher than at the point before: a rising curve has two flows for one head and no steady operating point
	// pump: Drive: got 80, want above 0 and at most 1, or 0 if not known
}

// What three controls draw when the flow has fallen to half.
func ExampleNewControlled() {
	p, err := pump.New(pump.Config{
		ShutOff:    60 * units.Kilopascal,
		Duty:       pump.Point{Flow: 2 * units.LitrePerSecond, Head: 40 * units.Kilopascal},
		Efficiency: 0.55,
		Drive:      0.8,
	})
	if err != nil {
		log.Fatal(err)
	}
	for _, cfg := range []pump.ControlConfig{
		{Mode: pump.FixedSpeed},
		{Mode: pump.ConstantPressure, SetPoint: 40 * units.Kilopascal},
		{Mode: pump.ProportionalPressure, SetPoint: 40 * units.Kilopascal, DesignFlow: 2 * units.LitrePerSecond, ZeroFlowShare: 0.5},
		{Mode: pump.IndexUnit, SetPoint: 15 * units.Kilopascal,
			Run: pump.Point{Flow: 2 * units.LitrePerSecond, Head: 25 * units.Kilopascal}},
	} {
		c, err := pump.NewControlled(cfg, p)
		if err != nil {
			log.Fatal(err)
		}
		half := c.State(1 * units.LitrePerSecond)
		fmt.Printf("%-21v %s at %.0f %% speed, %s\n", cfg.Mode, half.Head.Fixed(units.Kilopascal, 1), 100*half.Speed,
			half.Electric.Fixed(units.Watt, 0))
	}
	// Output:
	// fixed-speed           55.0 kPa at 100 % speed, 125 W
	// constant-pressure     40.0 kPa at 87 % speed, 91 W
	// proportional-pressure 30.0 kPa at 76 % speed, 68 W
	// index-unit            21.2 kPa at 66 % speed, 48 W
}

// A strong and a weak pump side by side: at low flow the weak one is held shut.
func ExampleParallel() {
	strong, err := pump.New(pump.Config{ShutOff: 60 * units.Kilopascal, Duty: pump.Point{Flow: 2 * units.LitrePerSecond, Head: 40 * units.Kilopascal}})
	if err != nil {
		log.Fatal(err)
	}
	weak, err := strong.AtSpeed(0.9)
	if err != nil {
		log.Fatal(err)
	}
	both, err := pump.Parallel(strong, weak)
	if err != nil {
		log.Fatal(err)
	}
	for _, q := range []units.Flow{1 * units.LitrePerSecond, 3 * units.LitrePerSecond} {
		fmt.Println(both.Head(q).Fixed(units.Kilopascal, 1), "by",
			both.Pump(0, q).Flow.Fixed(units.LitrePerSecond, 2), "and", both.Pump(1, q).Flow.Fixed(units.LitrePerSecond, 2), both.Pump(1, q).Status)
	}
	// Output:
	// 55.0 kPa by 1.00 l/s and 0.00 l/s no-flow
	// 42.3 kPa by 1.88 l/s and 1.12 l/s normal
}

// The head available at the inlet of a pump in a hot-water circuit: 82 °C, the
// expansion vessel's connection 2 m above the pump holds 1.8 bar absolute.
func ExampleSuction_NPSH() {
	inlet := pump.Suction{
		Pressure: units.Absolute(1.8 * units.Bar),
		Height:   2 * units.Metre,
		Loss:     4 * units.Kilopascal,
		Vapour:   units.Absolute(51.4 * units.Kilopascal),
		Density:  970.5 * units.KilogramPerCubicMetre,
	}
	npsh, err := inlet.NPSH(3 * units.Metre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(npsh.Available.Fixed(units.Metre, 2), "available, margin", npsh.Margin.Fixed(units.Metre, 2))
	// Output:
	// 15.09 m available, margin 12.09 m
}
