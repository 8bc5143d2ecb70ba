package control_test

import (
	"fmt"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Tune a loop from a step test and see what margins it leaves. The process is invented:
// in hand control, 10 % more output raised the supply air by 3 K, with a dead time of
// 40 s and 63 % of the rise two minutes after that.
func Example() {
	process, err := control.NewProcess(control.ProcessConfig{
		Gain: 30 * units.Kelvin, TimeConstant: 2 * time.Minute, DeadTime: 40 * time.Second,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	limit := process.Ultimate()
	fmt.Printf("swings for ever at a band of %s, every %v\n", limit.Band.Fixed(units.Kelvin, 1), limit.Period.Round(time.Second))
	for _, rule := range []struct {
		name   string
		tuning control.Tuning
	}{
		{"SIMC", control.SIMC(process, 0)},
		{"AMIGO", control.AMIGOPI(process)},
		{"Ziegler-Nichols", control.ZieglerNicholsPI(limit)},
	} {
		m := process.Margins(rule.tuning)
		fmt.Printf("%-15s band %s, integral time %3.0f s: gain margin %.1f, phase margin %s, Ms %.2f\n", rule.name,
			rule.tuning.Band.Fixed(units.Kelvin, 1), rule.tuning.IntegralTime.Seconds(), m.Gain, m.Phase.Fixed(units.Degree, 0), m.Sensitivity)
	}
	// Output:
	// swings for ever at a band of 5.6 K, every 2m23s
	// SIMC            band 20.0 K, integral time 120 s: gain margin 3.1, phase margin 61 °, Ms 1.59
	// AMIGO           band 47.1 K, integral time 104 s: gain margin 7.2, phase margin 73 °, Ms 1.23
	// Ziegler-Nichols band 12.4 K, integral time 119 s: gain margin 1.9, phase margin 44 °, Ms 2.30
}

// A heating controller in a program of one's own: one call for each cycle.
func ExampleController() {
	c, err := control.NewController(control.Config{
		Action: control.ReverseActing, // heating: colder opens
		Tuning: control.Tuning{Band: 4 * units.Kelvin, IntegralTime: 10 * time.Minute},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, measured := range []float64{19.0, 19.5, 20.5, 21.5} {
		output := c.Step(time.Minute, units.Celsius(21), units.Celsius(measured))
		fmt.Println(units.Celsius(measured), signal.Range0To10V().Encode(output))
	}
	// Output:
	// 19 °C 5.5 V
	// 19.5 °C 4.625 V
	// 20.5 °C 2.25 V
	// 21.5 °C 0 V
}

// The same loop with two valves, each tuned at half load. On a mild day, at 15 %, the
// linear valve has more than four times the gain that it was tuned for. The
// coil, the air and the valves are invented.
func ExampleDetectHunting() {
	for _, curve := range []valve.Characteristic{valve.EqualPercentage(50), valve.Linear(50)} {
		loop, err := airHeater(curve)
		if err != nil {
			fmt.Println(err)
			return
		}
		mild := control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(17)}
		series := control.NewSeries(time.Second, 4*time.Hour)
		loop.Run(func(time.Duration) control.Conditions { return mild }, &series)

		lastTwoHours := series.Deviation[2*3600:]
		swing := control.DetectHunting(lastTwoHours, series.Step, 0.3*units.Kelvin)
		moved := control.MovementOf(series.Travel[2*3600:])
		fmt.Printf("%v: %v, ±%s, period %v, %.1f strokes an hour\n", curve, swing.Verdict,
			swing.Amplitude.Fixed(units.Kelvin, 1), swing.Period.Round(time.Second), moved.Strokes/2)
	}
	// Output:
	// equal-percentage 50: steady, ±0.0 K, period 0s, 0.2 strokes an hour
	// linear 50: hunting, ±0.6 K, period 1m6s, 4.5 strokes an hour
}

// airHeater is a supply-air loop: controller, 0–10 V actuator, valve at an authority of
// 0.4, coil, air. It is tuned where the coil gives half its heat.
func airHeater(curve valve.Characteristic) (*control.Loop, error) {
	heat, err := coilBehind(curve)
	if err != nil {
		return nil, err
	}
	cfg := control.PlantConfig{
		Conductance:  1200 * units.WattPerKelvin, // 1 m³/s of air
		TimeConstant: time.Minute, DeadTime: 15 * time.Second,
	}
	plant, err := control.NewPlant(cfg, heat, 0, units.Celsius(17))
	if err != nil {
		return nil, err
	}
	process, err := cfg.Process(heat, halfLoad(heat), 0.1)
	if err != nil {
		return nil, err
	}
	controller, err := control.NewController(control.Config{Tuning: control.SIMC(process, 0)})
	if err != nil {
		return nil, err
	}
	drive, err := drive60s()
	if err != nil {
		return nil, err
	}
	element, err := control.NewModulating(control.ModulatingConfig{DeadBand: 0.01}, drive, 0)
	if err != nil {
		return nil, err
	}
	return control.NewLoop(control.LoopConfig{Controller: controller, Element: &element, Plant: plant})
}

// coilBehind is the heat of a coil of 24 kW, 80/60 °C and air at 0 °C, by the travel of a valve.
func coilBehind(curve valve.Characteristic) (control.HeatCurve, error) {
	v, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: 2.5 * units.Kv, Stroke: 5 * units.Millimetre, Curve: curve, Rangeability: 50})
	if err != nil {
		return nil, err
	}
	installed, err := v.Installed(0.4)
	if err != nil {
		return nil, err
	}
	coil, err := terminal.NewCoil(terminal.CoilConfig{
		Heat:   24 * units.Kilowatt,
		Design: terminal.Temperatures{Supply: units.Celsius(80), Return: units.Celsius(60), Air: units.Celsius(0)}, LeavingAir: units.Celsius(20),
		WaterShare: 20 * units.Percent,
	})
	if err != nil {
		return nil, err
	}
	return func(travel float64) units.Power {
		return units.Power(coil.HeatShare(installed.At(travel))) * 24 * units.Kilowatt
	}, nil
}

func halfLoad(heat control.HeatCurve) (travel float64) {
	for heat(travel) < heat(1)/2 {
		travel += 0.001
	}
	return travel
}

func drive60s() (actuator.Mounted, error) {
	a, err := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), Action: actuator.Reverse, ClosingEnd: actuator.Extended,
		Stroke: 5 * units.Millimetre, RunningTime: time.Minute,
	})
	if err != nil {
		return actuator.Mounted{}, err
	}
	return a.MountOn(5 * units.Millimetre)
}

// A relay test: the output was switched between 40 % and 60 % by the sign of the error,
// and the temperature swung by ±0.8 K every 200 s (invented).
func ExampleUltimateFromRelay() {
	limit := control.UltimateFromRelay(0.6-0.4, 0.8*units.Kelvin, 200*time.Second)
	t := control.ZieglerNicholsPI(limit)
	fmt.Printf("limit %s; no narrower than %s with %v\n", limit.Band.Fixed(units.Kelvin, 1), t.Band.Fixed(units.Kelvin, 1), t.IntegralTime.Round(time.Second))
	// Output:
	// limit 6.3 K; no narrower than 14.0 K with 2m47s
}

// A three-point motor whose closing is faster than its controller believes: the valve
// stands elsewhere after a morning of small corrections, until it meets a stop.
func ExampleThreePoint() {
	motor, err := control.NewThreePoint(control.ThreePointConfig{
		OpeningTime: 120 * time.Second, ClosingTime: 110 * time.Second, DeadZone: 0.02,
	}, 0.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for range 20 {
		motor.Step(time.Minute, 0.55)
		motor.Step(time.Minute, 0.50)
	}
	fmt.Printf("reckoned %.2f, in truth %.2f\n", motor.Reckoned(), motor.Step(0, 0.5))
	motor.Step(3*time.Minute, 0)
	fmt.Printf("after closing: %.2f\n", motor.Step(3*time.Minute, 0.5))
	// Output:
	// reckoned 0.50, in truth 0.41
	// after closing: 0.50
}
