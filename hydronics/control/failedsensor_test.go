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

// notNumbers are NaNs of either sign, which only Copysign tells apart.
var notNumbers = map[string]float64{"NaN": math.NaN(), "−NaN": math.Copysign(math.NaN(), -1)}

// A three-point motor stops on an output that is no number, whatever it was doing, and
// goes on from there afterwards: 100 s for the stroke, 5 s of no output.
func TestThreePointStopsOnNaN(t *testing.T) {
	for name, c := range map[string]struct {
		before, at, after float64 // outputs before and after, the travel between them
	}{
		"no pulse": {0.5, 0.5, 0.6},
		"opening":  {0.9, 0.6, 0.9},
		"closing":  {0.1, 0.4, 0.1},
		"to open":  {1, 0.6, 0.3},
		"to close": {0, 0.4, 0.7},
	} {
		for sign, output := range notNumbers {
			t.Run(name+" "+sign, func(t *testing.T) {
				p := newThreePoint(t, control.ThreePointConfig{OpeningTime: 100 * time.Second, DeadZone: 0.02}, 0.5)
				p.Step(10*time.Second, c.before)
				assert.InDelta(t, c.at, p.Step(5*time.Second, output), 1e-12)
				assert.InDelta(t, c.at, p.Reckoned(), 1e-12)
				assert.InDelta(t, c.at, p.Step(time.Second, c.at+0.01), 1e-12, "the pulse is over: within the dead zone")
				assert.InDelta(t, c.after, p.Step(time.Minute, c.after), 1e-12)
				assert.InDelta(t, c.after, p.Reckoned(), 1e-12)
			})
		}
	}
}

// No element keeps anything of an output that was no number, and its travel stays one.
func TestElementsForgetNaN(t *testing.T) {
	holding := mounted(t, func(c *actuator.Config) { c.OpenWire = actuator.HoldOnOpenWire })
	for name, e := range elements(t, holding) {
		t.Run(name, func(t *testing.T) {
			for _, output := range []float64{0.5, math.NaN(), 0.2, math.Copysign(math.NaN(), -1), 0, math.NaN(), 1, math.NaN(), 0.8, math.Inf(1), math.NaN(), math.Inf(-1)} {
				for range 7 {
					travel := e.Step(3*time.Second, output)
					require.True(t, travel >= 0 && travel <= 1, "%v on %v", travel, output)
				}
			}
			assert.GreaterOrEqual(t, e.Delay(math.NaN(), 0.5), time.Duration(0))
			e.Settle(math.NaN())
			e.Settle(0.5)
			want := e.Step(2*time.Minute, 0.5)
			for range 3 {
				e.Step(time.Second, math.NaN())
			}
			e.Settle(0.5)
			assert.InDelta(t, want, e.Step(2*time.Minute, 0.5), 1e-9)
		})
	}
}

func elements(t tb, m actuator.Mounted) map[string]control.FinalElement {
	t.Helper()
	modulating, err := control.NewModulating(control.ModulatingConfig{DeadBand: 0.01, Resolution: 1.0 / 255, Hysteresis: 0.02}, m, 0)
	require.NoError(t, err)
	threePoint := newThreePoint(t, control.ThreePointConfig{OpeningTime: 100 * time.Second, DeadZone: 0.01}, 0)
	quick := wax
	quick.Cycle = 20 * time.Second
	thermal := newThermal(t, quick)
	return map[string]control.FinalElement{
		"modulating": &modulating, "three-point": &threePoint, "thermal": &thermal, "ideal": control.Ideal{},
	}
}

// A sensor fails for 5 s, once while the element opens, once while it closes, and once at
// rest; each time the loop comes back to its set point.
func TestLoopOutlivesAFailedSensor(t *testing.T) {
	for failure, sensor := range map[string]float64{
		"NaN": math.NaN(), "infinite": math.Inf(1), "absurd": math.MaxFloat64, "absurdly cold": -math.MaxFloat64,
	} {
		for name, e := range elements(t, mounted(t, nil)) {
			t.Run(failure+" "+name, func(t *testing.T) {
				cfg := loopConfig(t, linear(1000), e)
				cfg.Controller = newController(t, control.Config{
					Tuning: newTuning(0.05, 1800, 60, 0), SetPointReduction: 0.3,
				})
				loop, err := control.NewLoop(cfg)
				require.NoError(t, err)
				at := risen(400)
				loop.Settle(at)
				goal := at.SetPoint
				for s := range 5 * 3600 {
					now := at
					if s%3600 > 60 && s < 2*3600 { // an hour colder, then back: it closes, and opens
						now.SetPoint = goal.Add(units.TemperatureDifference(-2 + 4*(s/3600)))
					}
					for _, from := range []int{30, 65, 100, 3665, 3700, 7250, 3 * 3600} {
						if s >= from && s < from+5 {
							now.SensorError = units.TemperatureDifference(sensor)
						}
					}
					loop.Step(time.Second, now)
				}
				m := loop.Step(time.Second, at)
				assert.InDelta(t, 0, float64(m.Deviation), 0.3)
				assert.InDelta(t, 0.4, m.Travel, 0.05)
			})
		}
	}
}

// A controller outlives a set point that is no temperature as well.
func TestControllerForgetsWhatIsNoTemperature(t *testing.T) {
	for _, absurd := range []float64{math.NaN(), math.Inf(-1), math.MaxFloat64, 2e6} {
		c := newController(t, control.Config{Tuning: newTuning(10, 60, 60, 0), SetPointReduction: 1, Bias: 0.4})
		alike := c
		for range 2 {
			assert.True(t, math.IsNaN(c.Step(time.Second, units.AbsoluteKelvin(absurd), units.Celsius(20))))
			assert.True(t, math.IsNaN(c.Step(time.Second, units.Celsius(20), units.AbsoluteKelvin(absurd))))
			c.Preset(0.7, units.Celsius(20), units.AbsoluteKelvin(absurd))
		}
		for _, y := range []float64{20, 20.01, 19.99} {
			assert.InDelta(t, alike.Step(time.Second, units.Celsius(20), units.Celsius(y)),
				c.Step(time.Second, units.Celsius(20), units.Celsius(y)), 0)
		}
	}
}
