// Command quickstart is what a developer pastes first: one valve, one actuator,
// the flow that a signal gives and the signal that gives a flow. The valve is
// invented.
package main

import (
	"fmt"
	"log"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

func main() {
	act, err := actuator.New(actuator.Config{
		Input:   signal.Range0To10V(),
		Action:  actuator.Reverse, // a rising signal retracts the stem
		Shaping: actuator.ZeroBasedEqualPercentage(50),
		Stroke:  5 * units.Millimetre,
	})
	check(err)
	val, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Stem:   valve.PushToClose,
		Stroke: 5 * units.Millimetre,
		Curve:  valve.Linear(50),
		Settings: []valve.Setting{
			{Mark: 20, Flow: 100 * units.LitrePerHour, MinPressure: 16.2 * units.Kilopascal},
			{Mark: 100, Flow: 500 * units.LitrePerHour, MinPressure: 21 * units.Kilopascal},
		},
	})
	check(err)
	val, err = val.WithFlow(0.12 * units.LitrePerSecond)
	check(err)
	chain, err := hydronics.NewChain(act, val)
	check(err)

	fmt.Printf("set the dial to %.1f; the valve needs %v\n", val.Mark(), val.MinPressure())
	fmt.Println("6.2 V gives", chain.Flow(signal.Volts(6.2), 40*units.Kilopascal))
	need, err := chain.SignalFor(0.08*units.LitrePerSecond, 40*units.Kilopascal)
	check(err)
	fmt.Println("0.08 l/s takes", need)
}

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
