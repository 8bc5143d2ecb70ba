package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// coil is a heat curve with all that a real one costs: an equal-percentage valve at an
// authority, and a coil of invented data in counterflow, ε = NTU/(1 + NTU) at equal
// capacity rates, 6 kW and more of air at 0 °C and none of air at 60 °C.
func coil(tb testing.TB) control.HeatCurve {
	tb.Helper()
	v, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: 4 * units.Kv, Stroke: 5 * units.Millimetre, Curve: valve.EqualPercentage(50), Rangeability: 50,
	})
	if err != nil {
		tb.Fatal(err)
	}
	installed, err := v.Installed(0.4)
	if err != nil {
		tb.Fatal(err)
	}
	return func(travel float64, base units.Temperature) units.Power {
		q := installed.At(travel)
		ntu := 2 / math.Pow(q, 0.2)
		share := float64(units.Celsius(60).Sub(base) / (60 * units.Kelvin))
		return units.Power(6*share*q*ntu/(1+ntu)) * units.Kilowatt
	}
}

// Budget: one simulated day at steps of 1 s in 50 ms, 0 allocations.
func BenchmarkDay(b *testing.B) {
	m := mounted(b, func(c *actuator.Config) { c.Shaping = actuator.ZeroBasedEqualPercentage(20) })
	element, err := control.NewModulating(control.ModulatingConfig{DeadBand: 0.01, Resolution: 1.0 / 255, Hysteresis: 0.02}, m, 0)
	if err != nil {
		b.Fatal(err)
	}
	plant, err := control.NewPlant(control.PlantConfig{
		Conductance: 200 * units.WattPerKelvin, TimeConstant: 10 * time.Minute, DeadTime: time.Minute,
	}, coil(b), 0, units.Celsius(5))
	if err != nil {
		b.Fatal(err)
	}
	loop := newLoop(b, newController(b, control.Config{Tuning: newTuning(0.05, 600, 60, 0)}), &element, plant)
	series := control.NewSeries(time.Second, 24*time.Hour)
	conditions := func(at time.Duration) control.Conditions {
		swing := 8 * math.Sin(2*math.Pi*at.Hours()/24)
		return control.Conditions{SetPoint: units.Celsius(18), Base: units.Celsius(swing)}
	}
	b.ReportAllocs()
	for b.Loop() {
		loop.Run(conditions, &series)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*series.Len()), "ns/step")
}

// No budget of its own; a controller's step is some of the day's 300 nanoseconds.
func BenchmarkController(b *testing.B) {
	c := newController(b, control.Config{Tuning: newTuning(0.05, 600, 60, 0)})
	setPoint, y := units.Celsius(21), units.Celsius(20)
	b.ReportAllocs()
	for b.Loop() {
		c.Step(time.Second, setPoint, y)
	}
}

// No budget of its own; a day's record.
func BenchmarkDetectHunting(b *testing.B) {
	x := wave(sine, 86400, 700, 1, 0.1)
	b.ReportAllocs()
	for b.Loop() {
		if control.DetectHunting(x, time.Second, 0.2).Verdict != control.Hunting {
			b.Fatal("not hunting")
		}
	}
}

// No budget of its own.
func BenchmarkMargins(b *testing.B) {
	p := newProcess(b, 1, 10, 1)
	t := control.AMIGOPID(p)
	b.ReportAllocs()
	for b.Loop() {
		p.Margins(t)
	}
}
