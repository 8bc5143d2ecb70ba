package schedule_test

import (
	"fmt"
	"strings"

	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/units"
)

// invented is a catalogue of one valve and one actuator that do not exist.
const invented = `{
  "valves": [{"id": "V1", "kind": "pressure-independent", "stem": "push-to-close", "stroke": "5 mm",
    "characteristic": "linear 50", "max-pressure": "400 kPa",
    "settings": [{"mark": 20, "flow": "100 l/h", "min-pressure": "16.2 kPa"},
                 {"mark": 100, "flow": "500 l/h", "min-pressure": "21 kPa"}]}],
  "actuators": [{"id": "A1", "ranges": ["0-10 V"], "actions": ["direct", "reverse"],
    "closing-ends": ["extended"], "shapings": ["linear", "zero-based-equal-percentage 50"], "strokes": ["5 mm"]}]
}`

// A schedule and a catalogue become settings.
func ExampleSelect() {
	rows, err := schedule.ReadCSV(strings.NewReader(
		"tag,duty,supply,difference,available pressure,branch drop,output range\n" +
			"FC-1,2.4 kW,6 °C,6 K,60 kPa,22 kPa,0-10 V\n" +
			"FC-2,1.9 kW,6 °C,6 K,35 kPa,22 kPa,0-10 V\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	catalogue, err := schedule.ReadCatalogue(strings.NewReader(invented))
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := schedule.Select(rows, catalogue)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, u := range plan.Units {
		fmt.Printf("%s: %s, %s at mark %.1f, %v action\n", u.Row.Tag, u.Design.Flow.Fixed(units.LitrePerSecond, 3),
			u.Valve.Model.ID, u.Valve.Mark, u.Actuator.Config.Action)
		for _, w := range u.Warnings {
			fmt.Println(" ", w)
		}
	}
	// Output:
	// FC-1: 0.095 l/s, V1 at mark 68.7, reverse action
	// FC-2: 0.075 l/s, V1 at mark 54.4, reverse action
	//   the valve needs 17.5 kPa and gets 13.0 kPa: raise the pressure at the branch, lower its other losses or take a larger valve
}

// Every problem of a file is told at once, with its line and column.
func ExampleReadCSV() {
	_, err := schedule.ReadCSV(strings.NewReader(
		"tag,duty,supply,return,available pressure,output range\n" +
			"FC-1,\"2,4 kW\",6 °C,12 °C,60 kPa,0-10 V\n" +
			"FC-1,1.9 kW,6 °C,12 °C,35,0-10 V\n"))
	fmt.Println(err)
	// Output:
	// 2:6: duty: got "2,4 kW", want a decimal point and no thousands separators: the comma is ambiguous, write 2.4 kW
	// 3:1: tag: got "FC-1", want a tag of its own: line 2 has this one
	// 3:26: available pressure: got "35", want a unit after the number: one of Pa, kPa, MPa, mbar, hPa, bar, mH2O, mmH2O, psi, ftH2O, inH2O
}
