package hydronics_test

import (
	"fmt"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// From a duty to the flow that carries it.
func ExampleDuty_DesignFlow() {
	flow, err := hydronics.Duty{
		Heat:   3.2 * units.Kilowatt,
		Supply: units.Celsius(6),
		Return: units.Celsius(12),
	}.DesignFlow()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(flow.Flow.Fixed(units.LitrePerSecond, 4), "at", flow.Density)
	// Output: 0.1271 l/s at 999.6 kg/m³
}

// A coil valve: what does 6.2 V give, and which signal gives 0.08 l/s?
func ExampleNewChain() {
	act, err := actuator.New(actuator.Config{
		Input:   signal.Range0To10V(),
		Action:  actuator.Reverse, // a rising signal retracts the stem
		Shaping: actuator.ZeroBasedEqualPercentage(50),
		Stroke:  5 * units.Millimetre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	val, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Stem:        valve.PushToClose,
		Stroke:      5 * units.Millimetre,
		Curve:       valve.Linear(50), // theoretical ratio Kvs/Kv0
		MaxPressure: 400 * units.Kilopascal,
		Settings: []valve.Setting{ // invented
			{Mark: 20, Flow: 100 * units.LitrePerHour, MinPressure: 16.2 * units.Kilopascal},
			{Mark: 100, Flow: 500 * units.LitrePerHour, MinPressure: 21 * units.Kilopascal},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	val, err = val.WithFlow(0.12 * units.LitrePerSecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	chain, err := hydronics.NewChain(act, val)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := chain.Respond(signal.Volts(6.2), 40*units.Kilopascal)
	fmt.Printf("6.2 V: demand %.2f, travel %.3f, %v\n", r.Demand, r.Travel, r.Flow)
	s, err := chain.SignalFor(0.08*units.LitrePerSecond, 40*units.Kilopascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("0.08 l/s:", s)
	_, err = chain.SignalFor(0.2*units.LitrePerSecond, 40*units.Kilopascal)
	fmt.Println(err)
	// Output:
	// 6.2 V: demand 0.62, travel 0.210, 97.7 l/h
	// 0.08 l/s: 8.96339 V
	// valve: 0.2 l/s cannot be reached: least 0 l/s, greatest 0.12 l/s
}

// How a branch shares its pressure, and the authority of the valve in it.
func ExampleCircuitAuthority() {
	coil, err := hydronics.ResistanceAt(0.3*units.LitrePerSecond, 20*units.Kilopascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	val, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: 2.5 * units.Kv, Stroke: 5.5 * units.Millimetre, Curve: valve.EqualPercentage(50)})
	if err != nil {
		fmt.Println(err)
		return
	}
	authority, err := hydronics.CircuitAuthority(val, coil, 0.3*units.LitrePerSecond, 60*units.Kilopascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("by the fully open flow of %v: %.2f\n", authority.OpenFlow, authority.Open)
	fmt.Printf("by the design flow: %.2f\n", authority.Design)
	// Output:
	// by the fully open flow of 0.3737 l/s: 0.48
	// by the design flow: 0.31
}
