package valve_test

import (
	"fmt"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// A three-way valve is two two-way valves on one stem. All data of these
// examples are invented.
func ExampleNewThreeWay() {
	v, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Function: valve.Mixing,
		Control:  valve.PortConfig{Kvs: 6.3 * units.Kv, Curve: valve.EqualPercentage(50)},
		Bypass:   valve.PortConfig{Kvs: 4 * units.Kv, Curve: valve.Linear(50), Leakage: 0.5 * units.Percent},
		Stem:     valve.PushToClose, Stroke: 15 * units.Millimetre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, h := range []float64{0, 0.5, 1} {
		control, bypass := v.Coefficients(h)
		fmt.Printf("h = %.1f: A–AB Kv %.3f, B–AB Kv %.3f\n", h, control.In(units.Kv), bypass.In(units.Kv))
	}
	fmt.Println("the stem of the bypass is", v.Bypass().Stem())
	// Output:
	// h = 0.0: A–AB Kv 0.000, B–AB Kv 4.000
	// h = 0.5: A–AB Kv 0.891, B–AB Kv 2.040
	// h = 1.0: A–AB Kv 6.300, B–AB Kv 0.020
	// the stem of the bypass is push-to-open
}

// How far the total flow strays over the travel, at an authority of 0.5 in both
// circuits.
func ExampleThreeWay_InstalledTotal() {
	for _, c := range []struct{ control, bypass valve.Characteristic }{
		{valve.Linear(50), valve.Linear(50)},
		{valve.EqualPercentage(50), valve.Linear(50)},
		{valve.EqualPercentage(50), valve.EqualPercentage(50)},
	} {
		v := must(valve.NewThreeWay(valve.ThreeWayConfig{
			Control: valve.PortConfig{Kvs: 6.3 * units.Kv, Curve: c.control},
			Bypass:  valve.PortConfig{Curve: c.bypass},
			Stroke:  15 * units.Millimetre,
		}))
		total, err := v.InstalledTotal(0.5, 0.5)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v with %v:", c.control, c.bypass)
		for _, h := range []float64{0, 0.25, 0.5, 0.75, 1} {
			fmt.Printf(" %.2f", total.At(h))
		}
		fmt.Println()
	}
	// Output:
	// linear 50 with linear 50: 1.00 1.21 1.29 1.21 1.00
	// equal-percentage 50 with linear 50: 1.00 0.93 0.84 0.86 1.00
	// equal-percentage 50 with equal-percentage 50: 1.00 0.57 0.40 0.57 1.00
}
