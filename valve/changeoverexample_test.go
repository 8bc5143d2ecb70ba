package valve_test

import (
	"fmt"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// A six-port ball valve: heating, closed middle, cooling. The data are invented.
func ExampleNewChangeOver() {
	v, err := valve.NewChangeOver(valve.ChangeOverConfig{
		Angle:  90 * units.Degree,
		First:  valve.SideConfig{Kvs: 0.63 * units.Kv, Opening: 35 * units.Degree, Curve: valve.EqualPercentage(30)}, // heating
		Second: valve.SideConfig{Kvs: 1.6 * units.Kv, Opening: 35 * units.Degree, Curve: valve.EqualPercentage(30)},  // cooling
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	dp := 10 * units.Kilopascal
	for _, rotation := range []float64{0, 0.25, 0.5, 0.75, 1} {
		heating, cooling := v.Flows(rotation, dp, dp)
		fmt.Printf("%.0f %%: heating %s, cooling %s, open: %v\n", 100*rotation,
			heating.Fixed(units.LitrePerSecond, 3), cooling.Fixed(units.LitrePerSecond, 3), v.Open(rotation))
	}
	fmt.Printf("cooling half open: %.3f\n", v.RotationFor(valve.SecondSide, 0.5))
	// Output:
	// 0 %: heating 0.055 l/s, cooling 0.000 l/s, open: first
	// 25 %: heating 0.006 l/s, cooling 0.000 l/s, open: first
	// 50 %: heating 0.000 l/s, cooling 0.000 l/s, open: neither
	// 75 %: heating 0.000 l/s, cooling 0.016 l/s, open: second
	// 100 %: heating 0.000 l/s, cooling 0.141 l/s, open: second
	// cooling half open: 0.806
}
