package control_test

import (
	"time"

	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

// tb is what a test and a rapid property share.
type tb interface {
	require.TestingT
	Helper()
}

func seconds(s float64) time.Duration { return time.Duration(s*1e9 + 0.5) }

func newProcess(t tb, gain, lag, dead float64) control.Process {
	t.Helper()
	p, err := control.NewProcess(control.ProcessConfig{
		Gain: units.TemperatureDifference(gain) * units.Kelvin, TimeConstant: seconds(lag), DeadTime: seconds(dead),
	})
	require.NoError(t, err)
	return p
}

func newTuning(gain, ti, td, n float64) control.Tuning {
	return control.Tuning{
		Band:         units.TemperatureDifference(1/gain) * units.Kelvin,
		IntegralTime: seconds(ti), DerivativeTime: seconds(td), DerivativeFilter: n,
	}
}

func newController(t tb, cfg control.Config) control.Controller {
	t.Helper()
	c, err := control.NewController(cfg)
	require.NoError(t, err)
	return c
}

// newPlant is a plant of 1 W/K at rest at zero travel.
func newPlant(t tb, lag, dead time.Duration, heat control.HeatCurve, base units.Temperature) *control.Plant {
	t.Helper()
	p, err := control.NewPlant(control.PlantConfig{
		Conductance: units.WattPerKelvin, TimeConstant: lag, DeadTime: dead, LeastStep: 100 * time.Millisecond,
	}, heat, 0, base)
	require.NoError(t, err)
	return p
}

func newLoop(t tb, c control.Controller, e control.FinalElement, p *control.Plant) *control.Loop {
	t.Helper()
	l, err := control.NewLoop(control.LoopConfig{Controller: c, Element: e, Plant: p})
	require.NoError(t, err)
	return l
}

// linear is the heat of a valve and terminal without curvature.
func linear(most units.Power) control.HeatCurve {
	return func(travel float64, _ units.Temperature) units.Power { return units.Power(travel) * most }
}

// stays is the condition that never changes.
func stays(c control.Conditions) func(time.Duration) control.Conditions {
	return func(time.Duration) control.Conditions { return c }
}
