package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// realTerminals are those of package terminal whose laws differ in cost, with how their conditions
// follow the base of the plant, and the bases of the day.
func realTerminals(tb testing.TB) map[string]struct {
	x       terminal.Terminal
	follows func(base units.Temperature) terminal.Conditions
	mean    float64 // °C
} {
	tb.Helper()
	fail := func(err error) {
		if err != nil {
			tb.Fatal(err)
		}
	}
	coil, err := terminal.NewCoil(terminal.CoilConfig{
		Heat: 6 * units.Kilowatt, LeavingAir: units.Celsius(30), WaterShare: 20 * units.Percent,
		Design: terminal.Temperatures{Supply: units.Celsius(60), Return: units.Celsius(50), Air: units.Celsius(0)},
	})
	fail(err)
	cross, err := terminal.NewCoil(terminal.CoilConfig{
		Heat: 6 * units.Kilowatt, LeavingAir: units.Celsius(30), WaterShare: 20 * units.Percent, Arrangement: terminal.CrossFlow,
		Design: terminal.Temperatures{Supply: units.Celsius(60), Return: units.Celsius(50), Air: units.Celsius(0)},
	})
	fail(err)
	wet, err := terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat: 6 * units.Kilowatt, Humidity: 50 * units.Percent, AirFlow: 0.3 * units.CubicMetrePerSecond, WaterShare: 20 * units.Percent,
		Design: terminal.Temperatures{Supply: units.Celsius(6), Return: units.Celsius(12), Air: units.Celsius(28)},
	})
	fail(err)
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 4 * units.Kilowatt})
	fail(err)
	air := func(base units.Temperature) terminal.Conditions { return terminal.Conditions{Air: base} }
	compensated := func(base units.Temperature) terminal.Conditions {
		return terminal.Conditions{Supply: units.Celsius(50 - 1.2*base.Celsius())}
	}
	return map[string]struct {
		x       terminal.Terminal
		follows func(base units.Temperature) terminal.Conditions
		mean    float64
	}{
		"coil": {coil, air, 5}, "cross-flow coil": {cross, air, 5}, "wet coil": {wet, air, 28}, "radiator": {radiator, compensated, 5},
	}
}

// benchDay runs a day at steps of 1 s on a plant, with all that a modulating actuator does.
func benchDay(b *testing.B, plant *control.Plant, c control.Conditions, action control.Action) {
	b.Helper()
	m := mounted(b, func(c *actuator.Config) { c.Shaping = actuator.ZeroBasedEqualPercentage(20) })
	element, err := control.NewModulating(control.ModulatingConfig{DeadBand: 0.01, Resolution: 1.0 / 255, Hysteresis: 0.02}, m, 0)
	if err != nil {
		b.Fatal(err)
	}
	loop := newLoop(b, newController(b, control.Config{Action: action, Tuning: newTuning(0.05, 600, 60, 0)}), &element, plant)
	series := control.NewSeries(time.Second, 24*time.Hour)
	conditions := func(at time.Duration) control.Conditions {
		now := c
		now.Base = c.Base.Add(units.TemperatureDifference(4 * math.Sin(2*math.Pi*at.Hours()/24)))
		return now
	}
	b.ReportAllocs()
	for b.Loop() {
		loop.Run(conditions, &series)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*series.Len()), "ns/step")
}

// Budget: one simulated day at steps of 1 s in 50 ms, 0 allocations. Terminals as they are,
// and as tables of 64 by 64 cells.
func BenchmarkDayOfATerminal(b *testing.B) {
	v, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: 4 * units.Kv, Stroke: 5 * units.Millimetre, Curve: valve.EqualPercentage(50), Rangeability: 50,
	})
	if err != nil {
		b.Fatal(err)
	}
	installed, err := v.Installed(0.4)
	if err != nil {
		b.Fatal(err)
	}
	config := control.PlantConfig{Conductance: 200 * units.WattPerKelvin, TimeConstant: 10 * time.Minute, DeadTime: time.Minute}
	for name, t := range realTerminals(b) {
		design := t.x.Design().Flow
		sign, action, setPoint := 1.0, control.ReverseActing, units.Celsius(20)
		if name == "wet coil" {
			sign, action = -1, control.DirectActing
		}
		fixed := control.HeatCurve(func(h float64, _ units.Temperature) units.Power {
			return units.Power(sign) * t.x.Heat(units.Flow(installed.At(h))*design)
		})
		follows := control.HeatCurve(func(h float64, base units.Temperature) units.Power {
			return units.Power(sign) * t.x.Output(units.Flow(installed.At(h))*design, t.follows(base)).Heat
		})
		mean := units.Celsius(t.mean)
		day := func(kind string) func(*control.Plant, error) {
			return func(plant *control.Plant, err error) {
				b.Run(name+"/"+kind, func(b *testing.B) {
					if err != nil {
						b.Fatal(err)
					}
					benchDay(b, plant, control.Conditions{SetPoint: setPoint, Base: mean}, action)
				})
			}
		}
		for kind, heat := range map[string]control.HeatCurve{
			"fixed": fixed, "follows": follows, "tabulated": follows.Tabulated(64, mean.Add(-5), mean.Add(5)),
		} {
			day(kind)(control.NewPlant(config, heat, 0, mean))
		}
		if name != "radiator" {
			continue
		}
		bare := control.RoomHeatCurve(func(h float64, base, room units.Temperature) units.Power {
			now := t.follows(base)
			now.Air = room
			return t.x.Output(units.Flow(installed.At(h))*design, now).Heat
		})
		for kind, heat := range map[string]control.RoomHeatCurve{
			"room, tabulated": bare.Tabulated(64, [2]units.Temperature{mean.Add(-5), mean.Add(5)}, [2]units.Temperature{units.Celsius(0), units.Celsius(40)}),
			"room": func(h float64, _, room units.Temperature) units.Power {
				return t.x.Output(units.Flow(installed.At(h))*design, terminal.Conditions{Air: room}).Heat
			},
			"room, follows": bare,
		} {
			day(kind)(control.NewRoom(config, heat, 0, mean))
		}
	}
}
