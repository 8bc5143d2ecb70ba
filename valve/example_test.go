package valve_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// A two-way valve: what passes half open at 20 kPa, and how far it must open
// for a flow. All data of these examples are invented.
func Example() {
	v, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: 6.3 * units.Kv, Stroke: 15 * units.Millimetre,
		Stem: valve.PushToClose, Curve: valve.EqualPercentage(50),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Flow(0.5, 20*units.Kilopascal).Fixed(units.CubicMetrePerHour, 3))
	h, err := v.TravelForFlow(0.5*units.LitrePerSecond, 20*units.Kilopascal)
	fmt.Printf("h = %.3f %v\n", h, err)
	_, err = v.TravelForFlow(2*units.LitrePerSecond, 20*units.Kilopascal)
	fmt.Println(errors.Is(err, valve.ErrUnreachable), err)
	// Output:
	// 0.398 m³/h
	// h = 0.885 <nil>
	// true valve: 2 l/s cannot be reached: least 0 l/s, greatest 0.7826 l/s
}

func ExampleNewPressureIndependent() {
	v, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Settings: []valve.Setting{
			{Mark: 20, Flow: 0.025 * units.LitrePerSecond, MinPressure: 12.25 * units.Kilopascal},
			{Mark: 50, Flow: 0.05 * units.LitrePerSecond, MinPressure: 13 * units.Kilopascal},
			{Mark: 100, Flow: 0.1 * units.LitrePerSecond, MinPressure: 16 * units.Kilopascal},
		},
		Stroke: 4 * units.Millimetre, Curve: valve.Linear(50),
		MaxPressure: 400 * units.Kilopascal,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err = v.WithFlow(0.08 * units.LitrePerSecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mark %.0f, needs %v\n", v.Mark(), v.MinPressure())
	for _, dp := range []units.Pressure{5 * units.Kilopascal, 20 * units.Kilopascal, 100 * units.Kilopascal} {
		fmt.Println(dp, v.GreatestFlow(dp).Fixed(units.LitrePerSecond, 4), v.Regime(1, dp))
	}
	// Output:
	// mark 80, needs 14.56 kPa
	// 5 kPa 0.0469 l/s starved
	// 20 kPa 0.0800 l/s regulated
	// 100 kPa 0.0800 l/s regulated
}

// Every fault of a description is reported at once.
func ExampleNewTwoWay_faults() {
	_, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: -1 * units.Kv, Curve: valve.EqualPercentage(0.5)})
	fmt.Println(err)
	// Output:
	// valve: Kvs: got -1 Kv, want a finite value above zero
	// valve: Stroke: got 0 m, want 0.1 mm … 1 m
	// valve: Curve: got 0.5, want a ratio of 1.01 … 1e6
}

func ExampleTwoWay_Authority() {
	v := must(valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: 2.5 * units.Kv, Stroke: 15 * units.Millimetre, Curve: valve.EqualPercentage(50),
	}))
	a, err := v.Authority(valve.Branch{
		Flow:      0.3 * units.LitrePerSecond,
		Drop:      15 * units.Kilopascal, // coil, pipes and balancing valve
		Available: 40 * units.Kilopascal,
	})
	fmt.Printf("by the open flow %.2f, by the design flow %.2f, open %v %v\n", a.Open, a.Design, a.OpenFlow, err)
	installed, err := v.Installed(a.Open)
	fmt.Printf("half open: %.0f %% of the open flow, turndown %.0f %v\n", 100*installed.At(0.5), installed.Turndown(), err)
	// Output:
	// by the open flow 0.55, by the design flow 0.47, open 0.327 l/s <nil>
	// half open: 19 % of the open flow, turndown 36 <nil>
}

func ExampleCoefficientFor() {
	kv := valve.CoefficientFor(0.3*units.LitrePerSecond, 20*units.Kilopascal, valve.ReferenceDensity)
	fmt.Println(kv, valve.R5.AtLeast(kv))
	// Output: 2.415 Kv 2.5 Kv
}

func ExampleSelect() {
	var list []valve.Candidate
	for _, kvs := range []units.FlowCoefficient{1.6, 2.5, 4, 6.3} {
		v := must(valve.NewTwoWay(valve.TwoWayConfig{Kvs: kvs, Stroke: 15 * units.Millimetre, Curve: valve.EqualPercentage(50)}))
		list = append(list, valve.Candidate{Name: kvs.String(), Valve: v})
	}
	sel, err := valve.Select(valve.Duty{
		Branch:    valve.Branch{Flow: 0.3 * units.LitrePerSecond, Drop: 15 * units.Kilopascal, Available: 40 * units.Kilopascal},
		Authority: 0.3,
	}, list, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(sel.Reason())
	for i := range sel.RunnersUp {
		fmt.Println(sel.WhyNot(i))
	}
	// Output:
	// 2.5 Kv: suits: drops 18.66 kPa, authority 0.55 by the open flow, 0.47 by the design flow
	// 4 Kv: authority too low: drops 7.29 kPa, authority 0.33 by the open flow, 0.18 by the design flow
	// 6.3 Kv: authority too low: drops 2.939 kPa, authority 0.16 by the open flow, 0.07 by the design flow
	// 1.6 Kv: needs 45.56 kPa, which is 20.56 kPa more than is left to it
}

// A rotary valve has an angle in place of a stroke; its curve is tabulated, or an
// ordinary law where a characterising disc corrects it to one.
func ExampleRotary() {
	ball := must(valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: 10 * units.Kv, Stem: valve.Rotary, Angle: 90 * units.Degree,
		Curve: valve.Tabulated([]valve.Point{{0, 0.004}, {0.2, 0.02}, {0.4, 0.07}, {0.6, 0.2}, {0.8, 0.5}, {1, 1}}),
	}))
	h := ball.TravelFor(0.35)
	fmt.Println((units.Angle(h) * ball.Angle()).Fixed(units.Degree, 1))
	// Output: 64.4 °
}

// A description works in JSON, its curve and quantities as text.
func ExampleTwoWayConfig_json() {
	data, err := json.Marshal(valve.EqualPercentage(50))
	fmt.Println(string(data), err)
	var cfg valve.TwoWayConfig
	err = json.Unmarshal([]byte(`{"Kvs": "2.5 Kv", "Stem": "push-to-open", "Stroke": "4 mm", "Curve": "linear 30"}`), &cfg)
	fmt.Println(cfg.Kvs, cfg.Stem, cfg.Stroke, cfg.Curve, err)
	// Output:
	// "equal-percentage 50" <nil>
	// 2.5 Kv push-to-open 4 mm linear 30 <nil>
}
