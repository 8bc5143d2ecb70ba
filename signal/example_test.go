package signal_test

import (
	"encoding/json"
	"fmt"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func Example() {
	input := signal.Range4To20mA()
	for _, s := range []signal.Signal{signal.Milliamps(12), signal.Milliamps(20.2), signal.Milliamps(3.2), {}, signal.Volts(5)} {
		r := input.Read(s)
		fmt.Printf("%-7v demand %.2f, %v\n", s, r.Demand, r.Status)
	}
	// Output:
	// 12 mA   demand 0.50, in-range
	// 20.2 mA demand 1.00, in-range
	// 3.2 mA  demand 0.00, failed
	// none    demand 0.00, no-signal
	// 5 V     demand 0.00, wrong-kind
}

func ExampleRange_Encode() {
	fmt.Println(signal.Range2To10V().Encode(0.25))
	fmt.Println(signal.Range0To10V().Inverse().Encode(0.25))
	// Output:
	// 4 V
	// 7.5 V
}

func ExampleRange_Within() {
	// The heating valve opens from 4.5 V down to 0 V on a controller that sends 0–10 V.
	heating, err := signal.NewRange(signal.Volts(4.5), signal.Volts(0))
	if err != nil {
		fmt.Println(err)
		return
	}
	heating, err = heating.Within(signal.Range0To10V())
	fmt.Println(heating, err)
	fmt.Println(heating.Read(signal.Volts(9)))
	// Output:
	// 4.5-0 V of 0-10 V <nil>
	// {0 in-range}
}

func ExampleParseRange() {
	for _, text := range []string{"0…10 V", "4 – 20 mA", "10 to 2 V", "0,5-4,5 V"} {
		r, err := signal.ParseRange(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(r)
	}
	// Output:
	// 0-10 V
	// 4-20 mA
	// 10-2 V
	// signal: range: got "0,5-4,5 V", want a decimal point: the comma is ambiguous, write for example 0.5-4.5 V
}

func ExampleRange_MarshalText() {
	b, err := json.Marshal(struct{ Input signal.Range }{signal.Range0To20mA()})
	fmt.Println(string(b), err)
	// Output: {"Input":"0-20 mA"} <nil>
}

func ExampleShunt() {
	shunt, err := signal.NewShunt(signal.ShuntConfig{Resistor: 500 * units.Ohm, Input: 100 * units.Kilohm})
	if err != nil {
		fmt.Println(err)
		return
	}
	volts := shunt.Convert(signal.Milliamps(20))
	fmt.Println(shunt.Resistance(), volts)
	fmt.Printf("%.4f\n", signal.Range2To10V().Read(volts).Demand)
	// Output:
	// 497.5 Ω 9.95025 V
	// 0.9938
}

func ExampleSequence() {
	s, err := signal.NewSequence(signal.SequenceConfig{Stages: []signal.StageConfig{
		{Name: "heating", From: 0.45, To: 0},
		{Name: "cooling", From: 0.55, To: 1},
	}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, stage := range s.Stages() {
		input, err := stage.Range(signal.Range0To10V())
		fmt.Println(stage.Name(), input, err)
	}
	for _, demand := range []float64{0, 0.225, 0.5, 0.775, 1} {
		fmt.Printf("%.3f %.2f\n", demand, s.AppendDemands(nil, demand))
	}
	// Output:
	// heating 4.5-0 V of 0-10 V <nil>
	// cooling 5.5-10 V of 0-10 V <nil>
	// 0.000 [1.00 0.00]
	// 0.225 [0.50 0.00]
	// 0.500 [0.00 0.00]
	// 0.775 [0.00 0.50]
	// 1.000 [0.00 1.00]
}

func ExampleConverter_Resolution() {
	output, err := signal.NewConverter(signal.ConverterConfig{Bits: 8, FullScale: signal.Range0To10V()})
	if err != nil {
		fmt.Println(err)
		return
	}
	used, err := output.Resolution(signal.Range2To10V())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v a step, %d values, %.2f %% each\n", output.Step(), used.Values, 100*used.DemandStep)
	fmt.Println(output.Quantise(signal.Volts(6.2)))
	// Output:
	// 0.0392157 V a step, 205 values, 0.49 % each
	// 6.19608 V
}
