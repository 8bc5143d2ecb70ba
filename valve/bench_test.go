package valve_test

import (
	"testing"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

var sink units.Flow

// Travel → flow is part of the chain, whose budget is 0 allocations and 1.5 times
// the same in C (DEVELOPERS.md): a few nanoseconds for each of these.
func BenchmarkFlow(b *testing.B) {
	for _, c := range []struct {
		name  string
		valve valve.Valve
		dp    units.Pressure
	}{
		{"two-way equal-percentage", coilValve(), 40 * units.Kilopascal},
		{"two-way linear", must(valve.NewTwoWay(twoWayConfig(valve.Linear(50)))), 40 * units.Kilopascal},
		{"two-way table", must(valve.NewTwoWay(twoWayConfig(ballCurve()))), 40 * units.Kilopascal},
		{"pressure-independent regulated", fanCoilValve(), 60 * units.Kilopascal},
		{"pressure-independent starved", fanCoilValve(), 10 * units.Kilopascal},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			h := 0.1
			switch v := c.valve.(type) { // as a chain does, without the interface
			case valve.TwoWay:
				for b.Loop() {
					sink = v.Flow(h, c.dp)
					h = next(h)
				}
			case valve.PressureIndependent:
				for b.Loop() {
					sink = v.Flow(h, c.dp)
					h = next(h)
				}
			}
		})
	}
}

func next(h float64) float64 {
	if h > 0.9 {
		return 0.1
	}
	return h + 1e-3
}

// The inverse stands in the way of a signal for a flow; no budget of its own.
func BenchmarkTravelForFlow(b *testing.B) {
	v := fanCoilValve()
	b.ReportAllocs()
	for b.Loop() {
		_, _ = v.TravelForFlow(0.05*units.LitrePerSecond, 60*units.Kilopascal)
	}
}

// Planning 100 000 terminals has a budget of 1 s, 10 µs for each; the choice
// among a catalogue of 40 valves is the largest part.
func BenchmarkSelect(b *testing.B) {
	candidates := catalogue()
	duty := coilDuty()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := valve.Select(duty, candidates, 3); err != nil {
			b.Fatal(err)
		}
	}
}
