package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

// loopConfig is a loop without controller, of a heat curve and 50 W/K.
func loopConfig(t tb, heat control.HeatCurve, e control.FinalElement) control.LoopConfig {
	t.Helper()
	plant, err := control.NewPlant(control.PlantConfig{
		Conductance: 50 * units.WattPerKelvin, TimeConstant: time.Hour, DeadTime: time.Minute,
	}, heat, 0, units.Celsius(20))
	require.NoError(t, err)
	return control.LoopConfig{Element: e, Plant: plant}
}

// risen are conditions under which 50 W/K need so much heat.
func risen(heat units.Power) control.Conditions {
	base := units.Celsius(20)
	return control.Conditions{SetPoint: base.Add(units.TemperatureDifference(heat / 50)), Base: base}
}

// The linearised process of a curve h² at 0.5 ± 0.1 has slope 1, of its own heat.
func TestLoopProcess(t *testing.T) {
	square := control.HeatCurve(func(h float64, _ units.Temperature) units.Power { return units.Power(1000*h*h) * units.Watt })
	p, err := loopConfig(t, square, control.Ideal{}).Process(risen(250), 0.2)
	require.NoError(t, err)
	assert.InDelta(t, 20, float64(p.Config().Gain), 1e-9)
	assert.Equal(t, time.Hour, p.Config().TimeConstant)
	assert.Equal(t, time.Minute, p.Config().DeadTime)
	cooling := func(h float64, b units.Temperature) units.Power { return -square(h, b) }
	p, err = loopConfig(t, cooling, control.Ideal{}).Process(risen(-1000), 0.2) // at 1; cut to 0.9 … 1
	require.NoError(t, err)
	assert.InDelta(t, 20*1.9, float64(p.Config().Gain), 1e-9)
	p, err = loopConfig(t, square, control.Ideal{}).Process(risen(1000*0.02*0.02), 0.1) // at 0.02; cut to 0 … 0.07
	require.NoError(t, err)
	assert.InDelta(t, 20*0.07, float64(p.Config().Gain), 1e-9)

	biased := risen(250)
	biased.SensorError = units.TemperatureDifference(250.0/50 - 1000*0.3*0.3/50) // the plant is held at 0.3
	p, err = loopConfig(t, square, control.Ideal{}).Process(biased, 0.2)
	require.NoError(t, err)
	assert.InDelta(t, 20*0.6, float64(p.Config().Gain), 1e-9)
}

func TestLoopProcessRefuses(t *testing.T) {
	good := loopConfig(t, linear(1000), control.Ideal{})
	for name, bad := range map[string]func() (control.Process, error){
		"Plant": func() (control.Process, error) {
			return control.LoopConfig{Element: control.Ideal{}}.Process(risen(500), 0.1)
		},
		"Element":  func() (control.Process, error) { return control.LoopConfig{Plant: good.Plant}.Process(risen(500), 0.1) },
		"Width":    func() (control.Process, error) { return good.Process(risen(500), 0) },
		"SetPoint": func() (control.Process, error) { return good.Process(risen(1001), 0.1) },
		"Gain": func() (control.Process, error) {
			return loopConfig(t, linear(0), control.Ideal{}).Process(risen(0), 0.1)
		},
	} {
		_, err := bad()
		require.ErrorIs(t, err, units.ErrInvalid, name)
		assert.ErrorContains(t, err, name)
	}
	_, err := good.Process(risen(units.Power(math.NaN())), 0.1)
	require.ErrorIs(t, err, units.ErrInvalid)
}

// The dead time has in it the mean delay of drive and controller. That of the drive is
// found again in a step of the drive itself: the area between the step and the travel.
func TestProcessHasTheDelays(t *testing.T) {
	shaped := mounted(t, func(c *actuator.Config) { c.Shaping = actuator.ZeroBasedEqualPercentage(50) })
	modulating, err := control.NewModulating(control.ModulatingConfig{}, shaped, 0)
	require.NoError(t, err)
	threePoint := newThreePoint(t, control.ThreePointConfig{OpeningTime: 100 * time.Second, ClosingTime: time.Minute}, 0)
	quick := wax
	quick.Cycle = 20 * time.Second
	thermal := newThermal(t, quick)
	for name, c := range map[string]struct {
		element control.FinalElement
		waits   time.Duration // on average, for its own cycle
		within  float64       // s
	}{
		"ideal":       {control.Ideal{}, 0, 1e-9},
		"modulating":  {&modulating, 0, 0.02},
		"three-point": {&threePoint, 0, 0.02},
		"thermal":     {&thermal, quick.Cycle / 2, 2},
	} {
		t.Run(name, func(t *testing.T) {
			cfg := loopConfig(t, linear(1000), c.element)
			cfg.Cycle = 10 * time.Second
			p, err := cfg.Process(risen(500), 0.1)
			require.NoError(t, err)
			element := p.Config().DeadTime - time.Minute - 5*time.Second
			assert.InDelta(t, stepDelay(c.element)+c.waits.Seconds(), element.Seconds(), c.within)
		})
	}
	assert.Equal(t, 3*time.Second, threePoint.Delay(0.6, 0.5), "closing is faster")
}

// stepDelay is what Delay promises, of the step that the process was found by, in
// seconds.
func stepDelay(e control.FinalElement) (delay float64) {
	low, high := 0.0, 1.0
	for range 60 { // the output at a travel of 0.5
		if middle := (low + high) / 2; e.Settle(middle) < 0.5 {
			low = middle
		} else {
			high = middle
		}
	}
	end := e.Settle(low + 0.05)
	start := e.Settle(low - 0.05)
	const dt = 0.02
	for range 100_000 {
		delay += dt * (end - e.Step(seconds(dt), low+0.05)) / (end - start)
	}
	return delay
}

// A loop put at rest stays there, whatever its element and its controller.
func TestSettle(t *testing.T) {
	square := control.HeatCurve(func(h float64, base units.Temperature) units.Power {
		return units.Power(1000*h*h) * units.Watt * units.Power(units.Celsius(60).Sub(base)/(40*units.Kelvin))
	})
	modulating := newModulating(t, control.ModulatingConfig{Resolution: 1.0 / 1024}, 0)
	threePoint := newThreePoint(t, control.ThreePointConfig{OpeningTime: time.Minute}, 0)
	for name, c := range map[string]struct {
		element control.FinalElement
		within  float64
	}{"ideal": {control.Ideal{}, 1e-9}, "modulating": {&modulating, 0.01}, "three-point": {&threePoint, 1e-9}} {
		t.Run(name, func(t *testing.T) {
			cfg := loopConfig(t, square, c.element)
			cfg.Cycle = 7 * time.Second
			cfg.Controller = newController(t, control.Config{Tuning: newTuning(0.1, 900, 30, 0)})
			loop, err := control.NewLoop(cfg)
			require.NoError(t, err)
			at := control.Conditions{SetPoint: units.Celsius(18), Base: units.Celsius(12), SensorError: 0.5}
			m := loop.Settle(at)
			assert.InDelta(t, -0.5, float64(m.Deviation), 1e-9)
			assert.InDelta(t, math.Sqrt(5.5*50/1200), m.Travel, 1e-9) // 5.5 K above a base of 12 °C, in closed form
			for range 3600 {
				m = loop.Step(time.Second, at)
			}
			assert.InDelta(t, -0.5, float64(m.Deviation), c.within)
			assert.Equal(t, time.Hour, loop.Elapsed())
		})
	}
}

func TestSettleBeyondReachAndWithoutIntegral(t *testing.T) {
	settled := func(cfg control.Config, at control.Conditions) (control.Moment, control.Moment) {
		c := loopConfig(t, linear(1000), control.Ideal{})
		c.Controller = newController(t, cfg)
		loop, err := control.NewLoop(c)
		require.NoError(t, err)
		first := loop.Settle(at)
		m := first
		for range 7200 {
			m = loop.Step(time.Second, at)
		}
		return first, m
	}
	pi := control.Config{Tuning: newTuning(0.1, 900, 0, 0), Least: 0.1, Greatest: 0.8}
	for load, end := range map[units.Power]float64{-200: 0.1, 2000: 0.8} {
		first, later := settled(pi, risen(load))
		assert.InDelta(t, end, first.Output, 1e-12)
		assert.InDelta(t, end, later.Output, 1e-12)
		assert.InDelta(t, 0, float64(later.Temperature.Sub(first.Temperature)), 1e-9)
	}
	// Gain 0.1 a kelvin on 20 K: o = bias + 0.1·(r − 20·o), so o = (0.2 + 1)/3 at r = 10 K.
	first, later := settled(control.Config{Tuning: newTuning(0.1, 0, 0, 0), Bias: 0.2}, risen(500))
	assert.InDelta(t, 0.4, first.Output, 1e-9)
	assert.InDelta(t, 0.4, later.Output, 1e-9)
	assert.InDelta(t, -2, float64(later.Deviation), 1e-9)
	first, _ = settled(pi, risen(units.Power(math.NaN())))
	assert.True(t, math.IsNaN(first.Output))
}

func TestThermalSettles(t *testing.T) {
	for _, inverted := range []bool{false, true} {
		cfg := wax
		cfg.OpenWithoutPower = inverted
		e, slow := newThermal(t, cfg), newThermal(t, cfg)
		mean := e.Settle(0.5)
		at := e.Step(0, 0.5)
		for range 100 {
			slow.Step(cfg.Cycle, 0.5)
		}
		assert.InDelta(t, slow.Step(0, 0.5), at, 1e-9, "as after many cycles")
		assert.InDelta(t, at, e.Step(cfg.Cycle, 0.5), 1e-9)
		assert.NotEqual(t, mean, at, "it ripples")
	}
	var zero control.Thermal
	assert.Zero(t, zero.Settle(0.5))
}

func TestSettleTakesNoNaN(t *testing.T) {
	modulating := newModulating(t, control.ModulatingConfig{}, 0.3)
	threePoint := newThreePoint(t, control.ThreePointConfig{OpeningTime: time.Minute}, 0.3)
	thermal := newThermal(t, wax)
	thermal.Settle(0.3)
	for _, e := range []control.FinalElement{&modulating, &threePoint, &thermal} {
		before := e.Step(0, 0.3)
		e.Settle(math.NaN())
		assert.InDelta(t, before, e.Step(0, 0.3), 1e-12)
	}
}
