package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

// The laws of the parts in closed form, by hand: K = 0.1/K, error 2 K.
func TestPartsInClosedForm(t *testing.T) {
	const k, e = 0.1, 2.0
	r, y := units.Celsius(22), units.Celsius(20)
	for name, c := range map[string]struct {
		cfg  control.Config
		want func(n float64) float64 // after n steps of 3 s
	}{
		"P, heating": {control.Config{Tuning: newTuning(k, 0, 0, 0), Bias: 0.3},
			func(float64) float64 { return 0.3 + k*e }},
		"P, cooling": {control.Config{Action: control.DirectActing, Tuning: newTuning(k, 0, 0, 0), Bias: 0.3},
			func(float64) float64 { return 0.3 - k*e }},
		"PI": {control.Config{Tuning: newTuning(k, 600, 0, 0)},
			func(n float64) float64 { return k * e * (1 + 3*n/600) }},
		"PI, cooling": {control.Config{Action: control.DirectActing, Tuning: newTuning(k, 600, 0, 0), Bias: 0.9},
			func(n float64) float64 { return 0.9 - k*e*(1+3*n/600) }},
		"PID, nothing moves": {control.Config{Tuning: newTuning(k, 600, 60, 0)},
			func(n float64) float64 { return k * e * (1 + 3*n/600) }},
	} {
		t.Run(name, func(t *testing.T) {
			ctl := newController(t, c.cfg)
			for n := range 50 {
				assert.InDelta(t, c.want(float64(n+1)), ctl.Step(3*time.Second, r, y), 1e-12)
			}
			assert.InDelta(t, c.want(50), ctl.Output(), 1e-12)
		})
	}
}

// On a steady rise of the measurement the derivative settles at K·Td·slope, and after a
// jump it starts at K·Td/(h + Td/N) and dies geometrically.
func TestDerivative(t *testing.T) {
	const k, td, n = 0.1, 30.0, 8.0
	r := units.Celsius(20)
	ctl := newController(t, control.Config{Tuning: newTuning(k, 0, td, n), Bias: 0.5})
	y := r
	for range 400 {
		ctl.Step(time.Second, r, y)
		y = y.Add(0.002)
	}
	before := y.Add(-0.002)
	assert.InDelta(t, 0.5-k*float64(before.Sub(r))-k*td*0.002, ctl.Output(), 1e-9)

	ctl = newController(t, control.Config{Tuning: newTuning(k, 0, td, n), Bias: 0.5})
	assert.InDelta(t, 0.5, ctl.Step(time.Second, r, r), 1e-12, "no kick at the start")
	kick := k * 0.1 * td / (1 + td/n)
	for range 5 {
		assert.InDelta(t, 0.5-k*0.1-kick, ctl.Step(time.Second, r, r.Add(0.1)), 1e-12)
		kick *= td / (td + n)
	}
	assert.InDelta(t, 0.5+k*0.9-kick, ctl.Step(time.Second, r.Add(1), r.Add(0.1)), 1e-12, "none from the set point")
}

// With the whole reduction a set-point step gives no kick, with half of it half.
func TestSetPointReduction(t *testing.T) {
	for _, reduction := range []float64{0, 0.5, 1} {
		ctl := newController(t, control.Config{Tuning: newTuning(0.1, 1e6, 0, 0), SetPointReduction: reduction, Bias: 0.4})
		ctl.Step(time.Millisecond, units.Celsius(20), units.Celsius(20))
		assert.InDelta(t, 0.4+(1-reduction)*0.2, ctl.Step(time.Millisecond, units.Celsius(22), units.Celsius(20)), 1e-9)
	}
}

// After hours at its limit the controller leaves it as soon as the proportional part
// does: nothing has wound up.
func TestNoWindup(t *testing.T) {
	r := units.Celsius(21)
	for _, action := range []control.Action{control.ReverseActing, control.DirectActing} {
		sign := units.TemperatureDifference(1)
		if action == control.DirectActing {
			sign = -1
		}
		ctl := newController(t, control.Config{Action: action, Tuning: newTuning(0.25, 300, 0, 0), Greatest: 0.8})
		for range 5 * 3600 {
			ctl.Step(time.Second, r, r.Add(-3*sign))
		}
		assert.InDelta(t, 0.8, ctl.Output(), 1e-12)
		assert.InDelta(t, 0.8-0.25*0.1, ctl.Step(0, r, r.Add(-2.9*sign)), 1e-12, "leaves at once")
		for range 5 * 3600 {
			ctl.Step(time.Second, r, r.Add(0.1*sign))
		}
		assert.Zero(t, ctl.Output())
		assert.InDelta(t, 0.25*0.1, ctl.Step(0, r, r), 1e-12)
	}
}

// A saturated proportional part does not move the integral, whichever way it is at
// fault, and one long step is the same as many.
func TestIntegralStopsAtTheLimit(t *testing.T) {
	r := units.Celsius(21)
	ctl := newController(t, control.Config{Tuning: newTuning(1, 600, 0, 0), Bias: 0.2})
	ctl.Step(time.Hour, r, r.Add(-5)) // P alone is 5
	assert.InDelta(t, 0.2, ctl.Step(0, r, r), 1e-12, "the integral is where it was")

	one := newController(t, control.Config{Tuning: newTuning(0.1, 600, 0, 0), Bias: 0.2})
	many := one
	one.Step(3*time.Hour, r, r.Add(-2))
	for range 3 * 3600 {
		many.Step(time.Second, r, r.Add(-2))
	}
	assert.InDelta(t, one.Step(0, r, r), many.Step(0, r, r), 1e-12)
	assert.InDelta(t, 0.8, one.Output(), 1e-12)
}

func TestPreset(t *testing.T) {
	r, y := units.Celsius(21), units.Celsius(19)
	ctl := newController(t, control.Config{Tuning: newTuning(0.2, 600, 60, 0)})
	ctl.Step(time.Second, r, units.Celsius(5))
	ctl.Preset(0.35, r, y)
	assert.InDelta(t, 0.35, ctl.Output(), 1e-12)
	assert.InDelta(t, 0.35, ctl.Step(0, r, y), 1e-12)
	assert.InDelta(t, 0.35+0.2*2*6/600, ctl.Step(6*time.Second, r, y), 1e-12)
	ctl.Preset(1.7, r, y)
	assert.InDelta(t, 1, ctl.Step(0, r, y), 1e-12)
	before := ctl
	ctl.Preset(math.NaN(), r, y)
	ctl.Preset(0.1, units.AbsoluteKelvin(math.NaN()), y)
	assert.Equal(t, before, ctl)

	p := newController(t, control.Config{Tuning: newTuning(0.2, 0, 0, 0), Bias: 0.1})
	p.Preset(0.9, r, y)
	assert.InDelta(t, 0.5, p.Output(), 1e-12, "a proportional controller has nothing to preset")
}

func TestControllerKeepsItsStateOnNaN(t *testing.T) {
	ctl := newController(t, control.Config{Tuning: newTuning(0.2, 600, 60, 0)})
	ctl.Step(time.Second, units.Celsius(21), units.Celsius(20))
	before := ctl
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		assert.True(t, math.IsNaN(ctl.Step(time.Second, units.Celsius(21), units.AbsoluteKelvin(bad))))
		assert.True(t, math.IsNaN(ctl.Step(time.Second, units.AbsoluteKelvin(bad), units.Celsius(21))))
	}
	assert.Equal(t, before, ctl)
	assert.InDelta(t, before.Output(), ctl.Step(-time.Hour, units.Celsius(21), units.Celsius(20)), 1e-12, "no time backwards")
}

func TestZeroControllerGivesNothing(t *testing.T) {
	var c control.Controller
	assert.Zero(t, c.Step(time.Second, units.Celsius(21), units.Celsius(20)))
}

// The output keeps within the limits whatever comes, copies are independent, and the
// same steps give the same outputs.
func TestControllerProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(0, 0.4).Draw(t, "low")
		high := rapid.Float64Range(0.5, 1).Draw(t, "high")
		cfg := control.Config{
			Action:            control.Action(rapid.IntRange(0, 1).Draw(t, "action")),
			Tuning:            newTuning(rapid.Float64Range(0.01, 5).Draw(t, "k"), rapid.Float64Range(1, 5000).Draw(t, "ti"), rapid.Float64Range(0, 500).Draw(t, "td"), 0),
			SetPointReduction: rapid.Float64Range(0, 1).Draw(t, "reduction"),
			Bias:              rapid.Float64Range(0, 1).Draw(t, "bias"),
			Least:             low, Greatest: high,
		}
		a := newController(t, cfg)
		b := a
		sign := 1.0
		if cfg.Action == control.DirectActing {
			sign = -1
		}
		for range rapid.IntRange(1, 60).Draw(t, "steps") {
			dt := seconds(rapid.Float64Range(0, 1000).Draw(t, "dt"))
			r := units.Celsius(rapid.Float64Range(-20, 90).Draw(t, "set point"))
			y := units.Celsius(rapid.Float64Range(-20, 90).Draw(t, "measurement"))
			u := a.Step(dt, r, y)
			assert.GreaterOrEqual(t, u, low)
			assert.LessOrEqual(t, u, high)
			assert.InDelta(t, u, b.Step(dt, r, y), 0)
			far := a
			assert.GreaterOrEqual(t, sign*(far.Step(0, r, y.Add(-1))-u), -1e-9, "the action holds")
		}
	})
}

func TestControllerRefuses(t *testing.T) {
	nan := math.NaN()
	for name, cfg := range map[string]control.Config{
		"Tuning.Band":             {},
		"Tuning.IntegralTime":     {Tuning: control.Tuning{Band: 1, IntegralTime: -time.Second}},
		"Tuning.DerivativeTime":   {Tuning: control.Tuning{Band: 1, DerivativeTime: 10000 * time.Hour}},
		"Tuning.DerivativeFilter": {Tuning: control.Tuning{Band: 1, DerivativeFilter: 0.5}},
		"SetPointReduction":       {Tuning: control.Tuning{Band: 1}, SetPointReduction: 0.5},
		"Bias":                    {Tuning: control.Tuning{Band: 1}, Bias: nan},
		"Least":                   {Tuning: control.Tuning{Band: 1}, Least: -0.1, Greatest: 1},
		"Greatest":                {Tuning: control.Tuning{Band: 1}, Least: 0.5, Greatest: 0.5},
		"Action":                  {Tuning: control.Tuning{Band: 1}, Action: 7},
	} {
		_, err := control.NewController(cfg)
		require.ErrorIs(t, err, units.ErrInvalid, name)
		assert.ErrorContains(t, err, "control: "+name+":")
	}
	_, err := control.NewController(control.Config{Tuning: control.Tuning{Band: 1e-310 * units.Kelvin}}) // its gain would be infinite
	require.ErrorContains(t, err, "Tuning.Band")
	_, err = control.NewController(control.Config{Bias: 2, Action: 9})
	for _, field := range []string{"Band", "Bias", "Action"} {
		assert.ErrorContains(t, err, field, "all faults at once")
	}
}
