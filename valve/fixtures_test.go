package valve_test

import (
	"fmt"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The valves of these tests are invented.

func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}

func twoWayConfig(c valve.Characteristic) valve.TwoWayConfig {
	return valve.TwoWayConfig{
		Kvs: 6.3 * units.Kv, Stroke: 15 * units.Millimetre, Curve: c,
		MaxPressure: 4 * units.Bar, SeatArea: 3 * units.SquareCentimetre,
	}
}

// coilValve is a globe valve for a heating or cooling coil.
func coilValve() valve.TwoWay {
	return must(valve.NewTwoWay(twoWayConfig(valve.EqualPercentage(50))))
}

// ballCurve is that of a ball valve with a characterising disc.
func ballCurve() valve.Characteristic {
	return valve.Tabulated([]valve.Point{{0, 0.004}, {0.2, 0.02}, {0.4, 0.07}, {0.6, 0.2}, {0.8, 0.5}, {1, 1}})
}

// fanCoilConfig follows p = 12 kPa + 4 kPa·(q/0.1 l/s)².
func fanCoilConfig() valve.PressureIndependentConfig {
	return valve.PressureIndependentConfig{
		Settings: []valve.Setting{
			{Mark: 20, Flow: 0.025 * units.LitrePerSecond, MinPressure: 12.25 * units.Kilopascal},
			{Mark: 50, Flow: 0.05 * units.LitrePerSecond, MinPressure: 13 * units.Kilopascal},
			{Mark: 100, Flow: 0.1 * units.LitrePerSecond, MinPressure: 16 * units.Kilopascal},
		},
		ProportionalBand: 10 * units.Percent,
		Stroke:           4 * units.Millimetre, Curve: valve.Linear(50),
		MaxPressure: 400 * units.Kilopascal,
	}
}

func fanCoilValve() valve.PressureIndependent {
	return must(valve.NewPressureIndependent(fanCoilConfig()))
}

// catalogue has 20 two-way and 20 pressure-independent valves.
func catalogue() []valve.Candidate {
	var list []valve.Candidate
	kvs := units.FlowCoefficient(0.16)
	flow := 0.02 * units.LitrePerSecond
	for range 20 {
		two := twoWayConfig(valve.EqualPercentage(50))
		two.Kvs = kvs
		list = append(list, valve.Candidate{Name: fmt.Sprintf("globe %.3g", float64(kvs)), Valve: must(valve.NewTwoWay(two))})
		indep := fanCoilConfig()
		indep.Settings = []valve.Setting{
			{Mark: 1, Flow: flow / 5, MinPressure: 15 * units.Kilopascal},
			{Mark: 5, Flow: flow, MinPressure: 20 * units.Kilopascal},
		}
		list = append(list, valve.Candidate{Name: fmt.Sprintf("regulating %v", flow), Valve: must(valve.NewPressureIndependent(indep))})
		kvs, flow = valve.R10.AtLeast(kvs*1.1), flow*1.3
	}
	return list
}

func coilDuty() valve.Duty {
	return valve.Duty{
		Branch:    valve.Branch{Flow: 0.3 * units.LitrePerSecond, Drop: 15 * units.Kilopascal, Available: 40 * units.Kilopascal},
		Authority: 0.3,
	}
}
