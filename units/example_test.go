package units_test

import (
	"encoding/json"
	"fmt"

	"github.com/indexrun/indexrun/units"
)

func Example() {
	q := 0.3 * units.LitrePerSecond
	fmt.Println(q, "is", q.Fixed(units.CubicMetrePerHour, 2))
	fmt.Printf("%.2f\n", q.In(units.USGallonPerMinute))

	x := 18.0 // a number read elsewhere, in l/min
	q = units.Flow(x) * units.LitrePerMinute
	fmt.Println(q)
	// Output:
	// 0.3 l/s is 1.08 m³/h
	// 4.76
	// 0.3 l/s
}

func ExampleTemperature() {
	supply := units.Celsius(6)
	back := supply.Add(6 * units.Kelvin)
	fmt.Println(back, back.Sub(supply), back.Fixed(units.FahrenheitScale, 1))
	// Output: 12 °C 6 K 53.6 °F
}

func ExampleAbsolutePressure() {
	inlet := units.Atmospheric().Add(3 * units.Bar)
	fmt.Println(inlet.Fixed(units.Bar, 2), inlet.Sub(units.Absolute(2*units.Kilopascal)))
	// Output: 4.01 bar abs 399.3 kPa
}

func ExampleParseFlow() {
	for _, text := range []string{"0.3 l/s", "1.08 m3/h", "1,08 m³/h", "0.3"} {
		q, err := units.ParseFlow(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(q)
	}
	// Output:
	// 0.3 l/s
	// 0.3 l/s
	// units: flow: got "1,08 m³/h", want a decimal point and no thousands separators: the comma is ambiguous, write 1.08 m³/h
	// units: flow: got "0.3", want a unit after the number: one of m³/s, m³/h, l/s, l/min, l/h, US gpm
}

func ExampleFlow_UnmarshalJSON() {
	var row struct {
		Duty units.Power
		Flow units.Flow
	}
	fmt.Println(json.Unmarshal([]byte(`{"Duty": "3.2 kW", "Flow": "460 l/h"}`), &row))
	fmt.Println(row.Duty, row.Flow)
	fmt.Println(json.Unmarshal([]byte(`{"Duty": 3.2}`), &row))
	// Output:
	// <nil>
	// 3.2 kW 0.1278 l/s
	// units: power: got 3.2, want the unit written with the number, as a JSON string such as "1.5 kW"
}

func ExampleUnitByBACnet() {
	// A controller's point says: 0.3, in engineering unit 87.
	unit, ok := units.UnitByBACnet(87)
	if !ok || unit.Quantity() != units.QuantityFlow {
		fmt.Println("not a flow")
		return
	}
	q := units.Flow(unit.SI(0.3))
	fmt.Println(q, unit)
	// Output: 0.3 l/s l/s
}

func ExampleFlowCoefficient() {
	k := 10 * units.Cv
	fmt.Println(k, "=", k.Fixed(units.Cv, 1), "=", k.Fixed(units.SquareMetreAv, 6))
	// Output: 8.65 Kv = 10.0 Cv = 0.000240 m²
}
