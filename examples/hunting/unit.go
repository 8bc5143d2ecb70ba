package main

import (
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// What all cases share. An air handler is to supply 1 m³/s of air at 20 °C. At design the
// air enters its heater at 0 °C, which takes 24 kW of water at 60/50 °C.
const (
	designHeat  = 24 * units.Kilowatt
	available   = 28 * units.Kilopascal // held over valve, coil and pipes
	restDrop    = 16 * units.Kilopascal // of coil and pipes at design flow
	stroke      = 10 * units.Millimetre
	runningTime = 90 * time.Second // of the actuator, for the whole stroke
	cycle       = 5 * time.Second  // of the controller
	testStep    = 0.1              // of the output, in the step test for tuning
)

var (
	setPoint  = units.Celsius(20)
	designAir = units.Celsius(0)
	halfLoad  = units.Celsius(10) // entering air at which half the heat is needed
	volts     = signal.Range0To10V()

	// The sensor is slow, and it takes the water a while to come from the valve.
	plant = control.PlantConfig{
		Conductance:  1200 * units.WattPerKelvin, // ṁ·cp of the air
		TimeConstant: time.Minute, DeadTime: 20 * time.Second,
	}
	faults = control.ModulatingConfig{Resolution: 1.0 / 255, DeadBand: 0.01, Hysteresis: 0.005}
)

// unit is the heater with one choice of valve and of the actuator's characteristic.
type unit struct {
	name  string
	valve valve.TwoWay
	drive actuator.Mounted
	coil  terminal.Coil
	rest  hydronics.Resistance // of coil and pipes
}

func newUnit(name string, kvs units.FlowCoefficient, shaping actuator.Shaping) (*unit, error) {
	act, err := actuator.New(actuator.Config{
		Input: volts, Action: actuator.Reverse, ClosingEnd: actuator.Extended,
		Shaping: shaping, Stroke: stroke, RunningTime: runningTime,
	})
	if err != nil {
		return nil, err
	}
	drive, err := act.MountOn(stroke)
	if err != nil {
		return nil, err
	}
	coil, err := terminal.NewCoil(terminal.CoilConfig{
		Heat:       designHeat,
		Design:     terminal.Temperatures{Supply: units.Celsius(60), Return: units.Celsius(50), Air: designAir},
		LeavingAir: setPoint,
		WaterShare: 20 * units.Percent,
	})
	if err != nil {
		return nil, err
	}
	v, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: kvs, Stroke: stroke, Curve: valve.Linear(50), Rangeability: 50,
		Density: coil.Design().Density, // at which the coil counts its flow
	})
	if err != nil {
		return nil, err
	}
	rest, err := hydronics.ResistanceAt(coil.Design().Flow, restDrop)
	return &unit{name, v, drive, coil, rest}, err
}

// heat is what the coil gives at a travel of the valve and a temperature of the entering air.
func (u *unit) heat(travel float64, air units.Temperature) units.Power {
	q := hydronics.BranchFlow(u.valve, u.rest, travel, available)
	return u.coil.Output(q, terminal.Conditions{Air: air}).Heat
}

// load is the share of the design heat that the air needs.
func load(air units.Temperature) float64 {
	return float64(setPoint.Sub(air) / setPoint.Sub(designAir))
}

// loop is the unit's loop, but for the controller.
func (u *unit) loop() (control.LoopConfig, error) {
	element, err := control.NewModulating(faults, u.drive, 0)
	if err != nil {
		return control.LoopConfig{}, err
	}
	heater, err := control.NewPlant(plant, u.heat, 0, designAir)
	return control.LoopConfig{Element: &element, Plant: heater, Cycle: cycle}, err
}

// process is what a step test in hand control would find at that temperature of the
// entering air: gain, lag, and a dead time that has in it half the actuator's way (short
// where its characteristic is flat) and half the controller's cycle.
func (u *unit) process(air units.Temperature) (control.Process, error) {
	l, err := u.loop()
	if err != nil {
		return control.Process{}, err
	}
	return l.Process(control.Conditions{SetPoint: setPoint, Base: air}, testStep)
}

func (u *unit) authority() (valve.Authority, error) {
	return hydronics.CircuitAuthority(u.valve, u.rest, u.coil.Design().Flow, available)
}
