package wiring_test

import (
	"fmt"
	"os"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// threeDrives is an invented cable: a 24 V transformer and the controller at one end,
// three half-wave drives of 5 VA every 10 m of 1 mm², one common for supply and signal.
func threeDrives() wiring.Config {
	drive := wiring.Load{Power: 5 * wiring.VoltAmpere, Rectification: wiring.HalfWave}
	return wiring.Config{
		Supply: wiring.Supply{Kind: wiring.Alternating, Voltage: 24 * units.Volt},
		Common: wiring.SharedCommon,
		Cable:  wiring.Cable{Conductor: wiring.IEC60228(1*units.SquareMillimetre, wiring.Class2)},
		Signal: signal.Volts(10),
		Devices: []wiring.Device{
			{Name: "V1", Length: 10 * units.Metre, Load: drive, Input: 100 * units.Kilohm},
			{Name: "V2", Length: 10 * units.Metre, Load: drive, Input: 100 * units.Kilohm},
			{Name: "V3", Length: 10 * units.Metre, Load: drive, Input: 100 * units.Kilohm},
		},
	}
}

// 24 V alternating, 30 m of 1 mm², three drives of 5 VA, shared common: what does the
// last one see for 10 V?
func Example() {
	chain, err := wiring.New(threeDrives())
	if err != nil {
		fmt.Println(err)
		return
	}
	last, _ := chain.At(2)
	fmt.Printf("%s: supply %s, sees %.3f V for %v\n", last.Name, last.Supply.Fixed(units.Volt, 2), last.Seen.Number(), last.Sent)

	line, _ := chain.Transfer(2)
	fmt.Printf("to be seen as 10 V, send %.3f V\n", line.Inverse(signal.Volts(10)).Number())
	// Output:
	// V3: supply 23.34 V, sees 9.852 V for 10 V
	// to be seen as 10 V, send 10.148 V
}

// The whole result, with the cautions that go with it.
func ExampleChain_WriteText() {
	chain, err := wiring.New(threeDrives())
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := chain.WriteText(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// Supply 24 V alternating at the near end, controller at the near end, shared common, 30 m of 1 mm²
	//
	// device      at   supply  margin  current      sent     seen    offset  ripple p-p
	// V1      10.0 m  23.67 V  4.47 V   211 mA  10.000 V  9.926 V  -0.074 V     0.231 V
	// V2      20.0 m  23.45 V  4.25 V   213 mA  10.000 V  9.877 V  -0.123 V     0.386 V
	// V3      30.0 m  23.34 V  4.14 V   214 mA  10.000 V  9.852 V  -0.148 V     0.463 V
	//
	// From the supply: 639 mA, 407 mA direct, 15.33 VA; nameplates 15 VA
	//
	// Caution: isolate and lock off the supply, mains and 24 V alike, before touching a terminal. Mains work
	// is for licensed persons under the local code. Keep mains and 24 V wiring apart. Check the polarity: 24 V
	// on a signal terminal destroys outputs. Never power an actuator that is not mounted on its valve.
	// Calculated values do not replace a measurement at the terminals.
	// Caution: half-wave loads draw a direct current from the transformer, which magnetises it; the ripple
	// on the signal is averaged only by drives that filter it.
}

// Which way it errs: the controller at the end of the supply, then at the far end.
func ExampleTransfer_Limits() {
	for _, controller := range []wiring.End{wiring.NearEnd, wiring.FarEnd} {
		cfg := threeDrives()
		cfg.ControllerEnd = controller
		chain, err := wiring.New(cfg)
		if err != nil {
			fmt.Println(err)
			return
		}
		i := 2 // the drive that is farthest from the controller
		if controller == wiring.FarEnd {
			i = 0
		}
		line, _ := chain.Transfer(i)
		opens, closes := line.Limits(signal.Range0To10V(), true), line.Limits(signal.Range0To10V(), false)
		fmt.Printf("controller at the %v: rising opens %.3f … %.3f, rising closes %.3f … %.3f\n",
			controller, opens.Closed, opens.Open, closes.Closed, closes.Open)
	}
	// Output:
	// controller at the near-end: rising opens 0.000 … 0.985, rising closes 0.015 … 1.000
	// controller at the far-end: rising opens 0.007 … 1.000, rising closes 0.000 … 0.993
}

// How far may the same three drives be spread if the signal may err by 0.2 V, and which
// section would carry them over the distance that is needed?
func ExampleGreatestLength() {
	cfg, limit := threeDrives(), wiring.Limit{SignalError: 0.2 * units.Volt}
	longest, err := wiring.GreatestLength(cfg, limit)
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := longest.WriteText(os.Stdout); err != nil {
		fmt.Println(err)
	}

	for i := range cfg.Devices {
		cfg.Devices[i].Length = 20 * units.Metre
	}
	conductor, err := wiring.ChooseConductor(cfg, limit, wiring.IECSizes(wiring.Class2))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("\nover 60 m:", conductor)
	// Output:
	// Cable: up to 40.3 m, then signal-error at device 3
	//
	// Caution: isolate and lock off the supply, mains and 24 V alike, before touching a terminal. Mains work
	// is for licensed persons under the local code. Keep mains and 24 V wiring apart. Check the polarity: 24 V
	// on a signal terminal destroys outputs. Never power an actuator that is not mounted on its valve.
	// Calculated values do not replace a measurement at the terminals.
	//
	// over 60 m: 1.5 mm²
}

// A 4–20 mA output made for a burden of 500 Ω, on a shunt of 500 Ω across a voltage input
// of 100 kΩ, 200 m away.
func ExampleNewLoop() {
	shunt, err := signal.NewShunt(signal.ShuntConfig{Resistor: 500 * units.Ohm, Input: 100 * units.Kilohm})
	if err != nil {
		fmt.Println(err)
		return
	}
	loop, err := wiring.NewLoop(wiring.LoopConfig{
		Source:    10 * units.Volt,
		Burden:    shunt.Resistance(),
		Conductor: wiring.IEC60228(0.75*units.SquareMillimetre, wiring.Class2),
		Length:    200 * units.Metre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	got := loop.At(signal.Milliamps(20))
	fmt.Printf("20 mA becomes %.2f mA, %.2f V\n\n", got.Number(), shunt.Convert(got).Number())
	if err := loop.WriteText(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// 20 mA becomes 19.71 mA, 9.81 V
	//
	// Loop: 507.3 Ω, 10.15 V needed at 20 mA, -0.15 V spare; cable up to 51 m: too much resistance: full current is not reached
	//
	// Caution: isolate and lock off the supply, mains and 24 V alike, before touching a terminal. Mains work
	// is for licensed persons under the local code. Keep mains and 24 V wiring apart. Check the polarity: 24 V
	// on a signal terminal destroys outputs. Never power an actuator that is not mounted on its valve.
	// Calculated values do not replace a measurement at the terminals.
}

// Eleven drives, and a quarter to spare.
func ExampleNewTransformer() {
	loads := make([]wiring.ApparentPower, 11)
	for i := range loads {
		loads[i] = 5 * wiring.VoltAmpere
	}
	t, err := wiring.NewTransformer(wiring.TransformerConfig{Loads: loads, Spare: 25 * units.Percent})
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := t.WriteText(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// Transformer: loads 55 VA, with spare 68.75 VA, size 80 VA, used 69 %
	//
	// Caution: isolate and lock off the supply, mains and 24 V alike, before touching a terminal. Mains work
	// is for licensed persons under the local code. Keep mains and 24 V wiring apart. Check the polarity: 24 V
	// on a signal terminal destroys outputs. Never power an actuator that is not mounted on its valve.
	// Calculated values do not replace a measurement at the terminals.
}

// An output of 1 kΩ on four inputs of 100 kΩ side by side loses 3.8 %.
func ExampleNewDivider() {
	line, err := wiring.NewDivider(wiring.DividerConfig{Output: 1 * units.Kilohm, Input: 100 * units.Kilohm, Inputs: 4})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("10 V becomes %.3f V\n", line.At(signal.Volts(10)).Number())
	// Output:
	// 10 V becomes 9.615 V
}

// Conductors travel as text.
func ExampleParseConductor() {
	for _, text := range []string{"1.5 mm2", "1 mm² class 5", "18 AWG", "2 x 0.75 mm²", "36.6 Ω/km", "1,5 mm²"} {
		c, err := wiring.ParseConductor(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%v: %s for 100 m at 40 °C\n", c, c.Resistance(100*units.Metre, units.Celsius(40)).Fixed(units.Ohm, 3))
	}
	// Output:
	// 1.5 mm²: 1.305 Ω for 100 m at 40 °C
	// 1 mm² class 5: 2.103 Ω for 100 m at 40 °C
	// AWG 18: 2.259 Ω for 100 m at 40 °C
	// 2 × 0.75 mm²: 1.321 Ω for 100 m at 40 °C
	// 36.6 Ω/km: 3.948 Ω for 100 m at 40 °C
	// wiring: conductor: got "1,5 mm²", want text such as "1.5 mm²", "1 mm² class 5", "AWG 18", "36.6 Ω/km" or "2 × 1 mm²", with a decimal point
}
