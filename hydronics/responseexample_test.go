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

// exampleCoil is an invented heating coil.
func exampleCoil() (terminal.Coil, error) {
	return terminal.NewCoil(terminal.CoilConfig{
		Heat:       12 * units.Kilowatt,
		Design:     terminal.Temperatures{Supply: units.Celsius(80), Return: units.Celsius(60), Air: units.Celsius(16)},
		LeavingAir: units.Celsius(35),
		WaterShare: 20 * units.Percent,
	})
}

// exampleChain is a valve with its actuator in the branch of that coil, which has
// 30 kPa.
func exampleChain(coil terminal.Coil) (hydronics.Chain, error) {
	act, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: 5.5 * units.Millimetre})
	if err != nil {
		return hydronics.Chain{}, err
	}
	val, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: 1.6 * units.Kv, Stroke: 5.5 * units.Millimetre, Curve: valve.EqualPercentage(50), Density: coil.Design().Density,
	})
	if err != nil {
		return hydronics.Chain{}, err
	}
	chain, err := hydronics.NewChain(act, val)
	if err != nil {
		return hydronics.Chain{}, err
	}
	rest, err := hydronics.ResistanceAt(coil.Design().Flow, 18*units.Kilopascal) // coil and pipes
	if err != nil {
		return hydronics.Chain{}, err
	}
	return chain.InBranch(rest)
}

// How much heat does 4.5 V give, and which signal gives half the heat?
func ExampleNewHeatChain() {
	coil, err := exampleCoil()
	if err != nil {
		fmt.Println(err)
		return
	}
	chain, err := exampleChain(coil)
	if err != nil {
		fmt.Println(err)
		return
	}
	unit, err := hydronics.NewHeatChain(chain, coil, 30*units.Kilopascal, terminal.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	r := unit.Respond(signal.Volts(4.5))
	fmt.Printf("4.5 V: travel %.2f, %v, %v, return %v\n", r.Travel, r.Flow, r.Heat, r.Return.Fixed(units.CelsiusScale, 1))
	s, err := unit.SignalForHeat(6 * units.Kilowatt)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("6 kW:", s)
	_, err = unit.SignalForHeat(14 * units.Kilowatt)
	fmt.Println(err)

	// The same unit on a mild day: the supply is compensated.
	mild, err := unit.With(30*units.Kilopascal, terminal.Conditions{Supply: units.Celsius(55)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("fully open on a mild day:", mild.FullHeat())
	// Output:
	// 4.5 V: travel 0.45, 101.6 l/h, 5.556 kW, return 32.2 °C
	// 6 kW: 4.79939 V
	// hydronics: a heat of 14 kW cannot be reached, the open valve gives 12.08 kW: valve: 0.3098 l/s cannot be reached: least 0 l/s, greatest 0.1493 l/s
	// fully open on a mild day: 7.36 kW
}

// How straight is the heat in the signal, and from which load on does the unit
// control at all?
func ExampleHeatChain_Linearity() {
	coil, err := exampleCoil()
	if err != nil {
		fmt.Println(err)
		return
	}
	chain, err := exampleChain(coil)
	if err != nil {
		fmt.Println(err)
		return
	}
	unit, err := hydronics.NewHeatChain(chain, coil, 30*units.Kilopascal, terminal.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := unit.Linearity(hydronics.HeatRange{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("gain %.2f at %.0f %% of the signal to %.2f at %.0f %%: ratio %.1f\n",
		l.LeastGain, 100*l.LeastAt, l.GreatestGain, 100*l.GreatestAt, l.GainRatio())
	least, err := unit.LeastLoad(hydronics.Resolution{Signal: 0.01, Stem: 0.005})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("least load %.0f %%, at %v\n", 100*least.Share, least.Flow)
	// Output:
	// gain 0.37 at 1 % of the signal to 1.28 at 55 %: ratio 3.4
	// least load 11 %, at 18.37 l/h
}

// Which pairing suits this coil?
func ExampleRankPairings() {
	coil, err := exampleCoil()
	if err != nil {
		fmt.Println(err)
		return
	}
	ranking, err := hydronics.RankPairings(hydronics.PairingConfig{Terminal: coil, Authority: 0.4})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range append(ranking[:3], ranking[len(ranking)-1]) {
		fmt.Printf("%-45v off by %.1f %%, gain ratio %4.1f, least load %.0f %%\n", r.Pairing, 100*r.Deviation, r.GainRatio(), 100*r.LeastLoad.Share)
	}
	// Output:
	// zero-based-equal-percentage 50 on linear 50   off by 3.5 %, gain ratio  2.5, least load 14 %
	// linear on equal-percentage 50                 off by 4.0 %, gain ratio  3.6, least load 10 %
	// zero-based-equal-percentage 100 on linear 50  off by 4.9 %, gain ratio  3.5, least load 14 %
	// linear on linear 50                           off by 33.0 %, gain ratio 11.0, least load 14 %
}

// A preheating coil with a pump of its own and a valve that injects: its flow stays,
// its supply temperature follows the valve. How does the heat follow the signal, and
// which pairing would make it straighter?
func ExampleNewCircuitChain() {
	coil, err := exampleCoil()
	if err != nil {
		fmt.Println(err)
		return
	}
	d := coil.Design()
	val, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: 1.6 * units.Kv, Stroke: 5.5 * units.Millimetre, Curve: valve.EqualPercentage(50), Density: d.Density,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	circuit, err := hydronics.NewThrottledInjectionCircuit(val, hydronics.ThrottledInjectionConfig{
		Header: 20 * units.Kilopascal, Pump: 25 * units.Kilopascal, SpecificHeat: d.SpecificHeat,
		Primary:  must(hydronics.ResistanceAt(d.Flow, 8*units.Kilopascal)),
		Consumer: must(hydronics.ResistanceAt(d.Flow, 25*units.Kilopascal)),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	act, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: 5.5 * units.Millimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	unit, err := hydronics.NewCircuitChain(act, circuit, coil, terminal.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	r := unit.Respond(signal.Volts(4.5))
	fmt.Printf("4.5 V: %v of %v injected, coil %v/%v, %v\n",
		r.State.Control.Fixed(units.LitrePerHour, 0), r.State.Consumer.Fixed(units.LitrePerHour, 0),
		r.State.ConsumerSupply.Fixed(units.CelsiusScale, 1), r.State.ConsumerReturn.Fixed(units.CelsiusScale, 1), r.Heat)
	s, err := unit.SignalForHeat(6 * units.Kilowatt)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("6 kW:", s)
	ranking, err := hydronics.RankPairings(hydronics.PairingConfig{Terminal: coil, Circuit: circuit})
	if err != nil {
		fmt.Println(err)
		return
	}
	best := ranking[0]
	fmt.Printf("%v: off by %.1f %%, gain ratio %.1f, least load %.0f %%\n", best.Pairing, 100*best.Deviation, best.GainRatio(), 100*best.LeastLoad.Share)
	// Output:
	// 4.5 V: 83 l/h of 524 l/h injected, coil 40.1 °C/32.6 °C, 4.526 kW
	// 6 kW: 5.54627 V
	// zero-based-equal-percentage 30 on linear 50: off by 2.6 %, gain ratio 2.2, least load 12 %
}
