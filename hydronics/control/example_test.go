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

// The same air heater with two valves, each tuned by SIMC at half load, where the
// entering air has 10 °C. On a mild day the linear valve has more gain than the tuning
// allows for, and a shower after an hour sets it swinging; its period is near that of
// the limit of stability, as it is when the gain is the reason. The coil, the air
// and the valves are invented.
func ExampleDetectHunting() {
	mild := control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(17.5)}
	afternoon := func(at time.Duration) control.Conditions {
		now := mild
		if at >= time.Hour && at < time.Hour+5*time.Minute {
			now.Base = units.Celsius(15.5)
		}
		return now
	}
	for _, curve := range []valve.Characteristic{valve.EqualPercentage(50), valve.Linear(50)} {
		loop, process, margins, err := tunedAtHalfLoad(curve, mild)
		if err != nil {
			fmt.Println(err)
			return
		}
		loop.Settle(mild)
		series := control.NewSeries(time.Second, 4*time.Hour)
		loop.Run(afternoon, &series)

		last := series.Between(2*time.Hour, 4*time.Hour)
		swing := control.DetectHunting(last.Deviation, last.Step, 0.3*units.Kelvin)
		strokes, _, _ := control.MovementOf(last.Drive, last.Step).Hourly()
		fmt.Printf("%v: gain margin %.1f, %v, ±%s, %.1f strokes an hour\n", curve, margins.Gain,
			swing.Verdict, swing.Amplitude.Fixed(units.Kelvin, 1), strokes)
		if swing.Verdict == control.Hunting {
			fmt.Printf("every %v; limit of stability %v\n", swing.Period.Round(time.Second), process.Ultimate().Period.Round(time.Second))
		}
	}
	// Output:
	// equal-percentage 50: gain margin 8.9, steady, ±0.0 K, 0.1 strokes an hour
	// linear 50: gain margin 0.6, hunting, ±0.6 K, 3.5 strokes an hour
	// every 1m15s; limit of stability 1m5s
}

// tunedAtHalfLoad returns the loop, and its process and margins under other conditions.
func tunedAtHalfLoad(curve valve.Characteristic, now control.Conditions) (*control.Loop, control.Process, control.Margins, error) {
	fail := func(err error) (*control.Loop, control.Process, control.Margins, error) {
		return nil, control.Process{}, control.Margins{}, err
	}
	cfg, err := airHeater(curve)
	if err != nil {
		return fail(err)
	}
	half, err := cfg.Process(control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(10)}, 0.1)
	if err != nil {
		return fail(err)
	}
	tuning := control.SIMC(half, 0)
	process, err := cfg.Process(now, 0.02)
	if err != nil {
		return fail(err)
	}
	cfg.Controller, err = control.NewController(control.Config{Tuning: tuning})
	if err != nil {
		return fail(err)
	}
	loop, err := control.NewLoop(cfg)
	return loop, process, process.Margins(tuning), err
}

// airHeater is a supply-air loop without its controller: 0–10 V actuator, valve at an
// authority of 0.4, coil, 1 m³/s of air. The controller runs every 5 s.
func airHeater(curve valve.Characteristic) (control.LoopConfig, error) {
	heat, err := coilBehind(curve)
	if err != nil {
		return control.LoopConfig{}, err
	}
	drive, err := drive60s()
	if err != nil {
		return control.LoopConfig{}, err
	}
	element, err := control.NewModulating(control.ModulatingConfig{DeadBand: 0.01}, drive, 0)
	if err != nil {
		return control.LoopConfig{}, err
	}
	plant, err := control.NewPlant(control.PlantConfig{
		Conductance:  1200 * units.WattPerKelvin,
		TimeConstant: time.Minute, DeadTime: 15 * time.Second,
	}, heat, 0, units.Celsius(17))
	return control.LoopConfig{Element: &element, Plant: plant, Cycle: 5 * time.Second}, err
}

// coilBehind is the heat of a coil of 24 kW at 60/50 °C and air of 0 °C, by the travel of a
// valve and the temperature of the entering air.
func coilBehind(curve valve.Characteristic) (control.HeatCurve, error) {
	v, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: 6.3 * units.Kv, Stroke: 5 * units.Millimetre, Curve: curve, Rangeability: 50})
	if err != nil {
		return nil, err
	}
	installed, err := v.Installed(0.4)
	if err != nil {
		return nil, err
	}
	coil, err := terminal.NewCoil(terminal.CoilConfig{
		Heat:   24 * units.Kilowatt,
		Design: terminal.Temperatures{Supply: units.Celsius(60), Return: units.Celsius(50), Air: units.Celsius(0)}, LeavingAir: units.Celsius(20),
		WaterShare: 20 * units.Percent,
	})
	if err != nil {
		return nil, err
	}
	return func(travel float64, base units.Temperature) units.Power {
		flow := units.Flow(installed.At(travel)) * coil.Design().Flow
		return coil.Output(flow, terminal.Conditions{Air: base}).Heat
	}, nil
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

// A room with a radiator for 1 kW at 75/65/20 °C and a loss of 1 kW at 30 K, on a valve that is straight
// in flow; invented. That the radiator gives less to a warmer room makes the room quicker, and
// the controller's task easier, than the room alone would be. The table is for speed.
func ExampleNewRoom() {
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: units.Kilowatt})
	if err != nil {
		fmt.Println(err)
		return
	}
	outdoors := units.Celsius(-5)
	heat := control.RoomHeatCurve(func(travel float64, _, room units.Temperature) units.Power {
		return radiator.Output(units.Flow(travel)*radiator.Design().Flow, terminal.Conditions{Air: room}).Heat
	}).Tabulated(128, [2]units.Temperature{outdoors, outdoors}, [2]units.Temperature{outdoors, units.Celsius(40)})
	plant, err := control.NewRoom(control.PlantConfig{
		Conductance:  units.ThermalConductance(1000.0/30) * units.WattPerKelvin,
		TimeConstant: 20 * time.Hour, DeadTime: 10 * time.Minute,
	}, heat, 0, outdoors)
	if err != nil {
		fmt.Println(err)
		return
	}
	loop := control.LoopConfig{Element: control.Ideal{}, Plant: plant}
	process, err := loop.Process(control.Conditions{SetPoint: units.Celsius(20), Base: outdoors}, 0.1)
	if err != nil {
		fmt.Println(err)
		return
	}
	found := process.Config()
	fmt.Printf("gain %s, time constant %.1f h\n", found.Gain.Fixed(units.Kelvin, 1), found.TimeConstant.Hours())
	// Output:
	// gain 11.7 K, time constant 12.9 h
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
