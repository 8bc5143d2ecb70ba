package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// mounted is a 0–10 V drive, opening on a rising signal, 100 s for its stroke.
func mounted(t tb, change func(*actuator.Config)) actuator.Mounted {
	t.Helper()
	cfg := actuator.Config{
		Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: 5 * units.Millimetre, RunningTime: 100 * time.Second,
	}
	if change != nil {
		change(&cfg)
	}
	a, err := actuator.New(cfg)
	require.NoError(t, err)
	m, err := a.MountOn(5 * units.Millimetre)
	require.NoError(t, err)
	return m
}

func newModulating(t tb, cfg control.ModulatingConfig, travel float64) control.Modulating {
	t.Helper()
	m, err := control.NewModulating(cfg, mounted(t, nil), travel)
	require.NoError(t, err)
	return m
}

func TestModulatingRunsAtItsSpeed(t *testing.T) {
	m := newModulating(t, control.ModulatingConfig{}, 0.2)
	assert.InDelta(t, 0.2, m.Step(0, 0.2), 1e-12)
	assert.InDelta(t, 0.3, m.Step(10*time.Second, 0.7), 1e-12)
	assert.InDelta(t, 0.7, m.Step(40*time.Second, 0.7), 1e-9)
	assert.InDelta(t, 0.7, m.Step(time.Hour, 0.7), 1e-12)
	assert.Equal(t, actuator.Tracking, m.Snapshot().State)
}

// The mean delay of a drive that moves evenly is half its way: the time between its command and
// the middle of the movement.
func TestModulatingDelay(t *testing.T) {
	m := newModulating(t, control.ModulatingConfig{}, 0.2)
	assert.InDelta(t, 25, m.Delay(0.2, 0.7).Seconds(), 1e-8)
	assert.InDelta(t, 25, m.Delay(0.7, 0.2).Seconds(), 1e-8)
	assert.InDelta(t, 0.45, m.Step(m.Delay(0.2, 0.7), 0.7), 1e-9)
}

func TestModulatingCalibratesFirstIfUnpowered(t *testing.T) {
	m := newModulating(t, control.ModulatingConfig{Unpowered: true}, 0.4)
	assert.InDelta(t, 0, m.Step(40*time.Second, 0.5), 1e-12, "to the closed stop")
	assert.InDelta(t, 0.5, m.Step(50*time.Second, 0.5), 1e-9)
}

func TestModulatingLosesItsSupply(t *testing.T) {
	spring := mounted(t, func(c *actuator.Config) { c.PowerLoss = actuator.SpringExtends })
	m, err := control.NewModulating(control.ModulatingConfig{}, spring, 0.5)
	require.NoError(t, err)
	m.SetPower(false)
	assert.InDelta(t, 0.4, m.Step(10*time.Second, 0.9), 1e-12)
	m.SetPower(true)
	assert.InDelta(t, 0.1, m.Step(50*time.Second, 0.9), 1e-9, "40 s to the stop, 10 s back")
}

// A change within the dead band does nothing; the ends get through.
func TestDeadBand(t *testing.T) {
	m := newModulating(t, control.ModulatingConfig{DeadBand: 0.02}, 0.5)
	assert.InDelta(t, 0.5, m.Step(time.Minute, 0.519), 1e-12)
	assert.InDelta(t, 0.521, m.Step(time.Minute, 0.521), 1e-12)
	assert.InDelta(t, 0.521, m.Step(time.Minute, 0.502), 1e-12)
	assert.InDelta(t, 0.01, m.Step(time.Minute, 0.01), 1e-12)
	assert.Zero(t, m.Step(time.Minute, 0))
	assert.InDelta(t, 0.99, m.Step(2*time.Minute, 0.99), 1e-12)
	assert.InDelta(t, 1, m.Step(time.Minute, 1), 1e-12)
}

func TestResolution(t *testing.T) {
	m := newModulating(t, control.ModulatingConfig{Resolution: 0.05}, 0)
	for _, c := range []struct{ output, travel float64 }{{0.024, 0}, {0.026, 0.05}, {0.51, 0.5}, {0.99, 1}} {
		assert.InDelta(t, c.travel, m.Step(time.Hour, c.output), 1e-12)
	}
}

// The ends are exact for any resolution, and so a valve that a rising signal closes shuts,
// whatever the resolution is.
func TestResolutionLeavesTheEnds(t *testing.T) {
	closesOnRise := mounted(t, func(c *actuator.Config) { c.Action = actuator.Direct })
	for _, resolution := range []float64{0, 0.03, 0.07, 1.0 / 255, 0.2} {
		m := newModulating(t, control.ModulatingConfig{Resolution: resolution, DeadBand: 0.02}, 0.5)
		assert.InDelta(t, 1, m.Step(time.Hour, 1), 1e-12)
		assert.InDelta(t, 1, m.Step(time.Hour, 1.5), 1e-12)
		assert.Zero(t, m.Step(time.Hour, 0))
		assert.Zero(t, m.Step(time.Hour, -1))
		d, err := control.NewModulating(control.ModulatingConfig{Resolution: resolution}, closesOnRise, 0.5)
		require.NoError(t, err)
		assert.Zero(t, d.Step(time.Hour, 1))
		assert.InDelta(t, 1, d.Step(time.Hour, 0), 1e-12)
	}
	m := newModulating(t, control.ModulatingConfig{Resolution: 0.03}, 0)
	assert.InDelta(t, 0.99, m.Step(time.Hour, 0.9999), 1e-12, "the last whole step before the end")
}

// A drive that is set to 4 of 5 mm opens the valve by 0.8 without play, and by
// 0.8 − 0.04·0.2 with it; one that is self-adapting reaches the end.
func TestHysteresisOfAShortStroke(t *testing.T) {
	for mode, greatest := range map[actuator.StrokeMode]float64{actuator.Fixed: 0.8 - 0.04*0.2, actuator.SelfAdapting: 1} {
		a, err := actuator.New(actuator.Config{
			Input: signal.Range0To10V(), Action: actuator.Reverse, StrokeMode: mode,
			Stroke: map[actuator.StrokeMode]units.Length{actuator.Fixed: 4, actuator.SelfAdapting: 6}[mode] * units.Millimetre, RunningTime: 100 * time.Second,
		})
		require.NoError(t, err)
		on, err := a.MountOn(5 * units.Millimetre)
		require.NoError(t, err)
		m, err := control.NewModulating(control.ModulatingConfig{Hysteresis: 0.04}, on, 0)
		require.NoError(t, err)
		assert.InDelta(t, greatest, m.Step(time.Hour, 1), 1e-9)
		assert.Zero(t, m.Step(time.Hour, 0))
	}
}

// The valve follows the drive at half the play on either side, in the terms of the
// drive's way of 1 + play, and reaches both ends.
func TestHysteresis(t *testing.T) {
	const p = 0.04
	m := newModulating(t, control.ModulatingConfig{Hysteresis: p}, 0)
	rising := func(u float64) float64 { return math.Max(0, u*(1+p)-p) }
	falling := func(u float64) float64 { return math.Min(1, u*(1+p)) }
	for _, u := range []float64{0, 0.02, 0.3, 0.6} {
		assert.InDelta(t, rising(u), m.Step(time.Hour, u), 1e-9)
	}
	assert.InDelta(t, rising(0.6), m.Step(time.Hour, 0.6-0.9*p/(1+p)), 1e-9, "within the play")
	assert.InDelta(t, falling(0.3), m.Step(time.Hour, 0.3), 1e-9)
	assert.Zero(t, m.Step(time.Hour, 0))
	assert.InDelta(t, 1, m.Step(time.Hour, 1), 1e-12)
	assert.InDelta(t, falling(0.9), m.Step(time.Hour, 0.9), 1e-9)
}

// A controller of 0–10 V on an actuator set to 2–10 V: the lowest fifth of the output
// does nothing.
func TestWrongOutputRange(t *testing.T) {
	m, err := control.NewModulating(control.ModulatingConfig{Output: signal.Range0To10V()},
		mounted(t, func(c *actuator.Config) { c.Input = signal.Range2To10V() }), 0)
	require.NoError(t, err)
	assert.Zero(t, m.Step(time.Hour, 0.2))
	assert.InDelta(t, 0.5, m.Step(time.Hour, 0.6), 1e-9)
}

// NaN goes out as it is: this drive reads an open wire as 0 V and closes; the next
// number gets through.
func TestModulatingNaN(t *testing.T) {
	m := newModulating(t, control.ModulatingConfig{DeadBand: 0.01}, 0.5)
	assert.Zero(t, m.Step(time.Hour, math.NaN()))
	assert.InDelta(t, 0.5, m.Step(time.Hour, 0.5), 1e-9)
	var zero control.Modulating
	assert.Zero(t, zero.Step(time.Hour, 1))
}

func TestModulatingRefuses(t *testing.T) {
	for name, cfg := range map[string]control.ModulatingConfig{
		"Resolution": {Resolution: 0.5}, "DeadBand": {DeadBand: -0.1}, "Hysteresis": {Hysteresis: math.NaN()},
	} {
		_, err := control.NewModulating(cfg, mounted(t, nil), 0)
		require.ErrorIs(t, err, units.ErrInvalid)
		assert.ErrorContains(t, err, name)
	}
	_, err := control.NewModulating(control.ModulatingConfig{}, actuator.Mounted{}, 0)
	require.ErrorIs(t, err, units.ErrInvalid)
	_, err = control.NewModulating(control.ModulatingConfig{}, mounted(t, nil), 2)
	assert.ErrorContains(t, err, "Travel")
	_, err = control.NewModulating(control.ModulatingConfig{}, mounted(t, func(c *actuator.Config) { c.RunningTime = 0 }), 0)
	assert.ErrorContains(t, err, "RunningTime")
}

func newThreePoint(t tb, cfg control.ThreePointConfig, travel float64) control.ThreePoint {
	t.Helper()
	p, err := control.NewThreePoint(cfg, travel)
	require.NoError(t, err)
	return p
}

func TestThreePoint(t *testing.T) {
	p := newThreePoint(t, control.ThreePointConfig{OpeningTime: 100 * time.Second, ClosingTime: 80 * time.Second, DeadZone: 0.02}, 0.3)
	assert.InDelta(t, 0.3, p.Step(time.Minute, 0.319), 1e-12, "within the dead zone")
	assert.InDelta(t, 0.4, p.Step(10*time.Second, 0.5), 1e-12)
	assert.InDelta(t, 0.5, p.Step(10*time.Second, 0.5), 1e-12, "a pulse goes on until they agree")
	assert.InDelta(t, 0.5, p.Step(time.Hour, 0.5), 1e-12)
	assert.InDelta(t, 0.5, p.Step(time.Minute, 0.485), 1e-12)
	assert.InDelta(t, 0.375, p.Step(10*time.Second, 0.2), 1e-12, "closing is faster than reckoned")
	assert.InDelta(t, 0.4, p.Reckoned(), 1e-12)
	assert.InDelta(t, 0.375, p.Step(time.Minute, math.NaN()), 1e-12)
	assert.InDelta(t, 0.375, p.Step(-time.Minute, 1), 1e-12)
	assert.InDelta(t, 0.875, p.Step(50*time.Second, 1), 1e-12)
	assert.InDelta(t, 1, p.Step(time.Minute, 1), 1e-12)
	assert.InDelta(t, 1, p.Reckoned(), 1e-12, "the stop puts the reckoning right")
	assert.InDelta(t, 1, p.Step(time.Minute, 0.985), 1e-12)
}

// A pulse that would turn round needs the dead zone again.
func TestThreePointDoesNotTurnForLittle(t *testing.T) {
	p := newThreePoint(t, control.ThreePointConfig{OpeningTime: 100 * time.Second, DeadZone: 0.02}, 0.3)
	assert.InDelta(t, 0.4, p.Step(10*time.Second, 0.9), 1e-12)
	assert.InDelta(t, 0.4, p.Step(10*time.Second, 0.39), 1e-12)
	assert.InDelta(t, 0.4, p.Step(10*time.Second, 0.41), 1e-12, "the pulse is over")
	assert.InDelta(t, 0.37, p.Step(10*time.Second, 0.37), 1e-12)
}

// A controller set to the wrong running time drifts with each pulse that it takes back.
func TestThreePointDrifts(t *testing.T) {
	p := newThreePoint(t, control.ThreePointConfig{OpeningTime: 100 * time.Second, ClosingTime: 95 * time.Second}, 0.5)
	for range 10 {
		p.Step(time.Minute, 0.6)
		p.Step(time.Minute, 0.5)
	}
	assert.InDelta(t, 0.5, p.Reckoned(), 1e-12)
	assert.InDelta(t, 0.5+10*0.1*(1-100.0/95), p.Step(0, 0.5), 1e-12)
	p.Step(2*time.Minute, 0)
	assert.InDelta(t, 0.5, p.Step(time.Hour, 0.5), 1e-9)
}

func TestZeroThreePointStaysClosed(t *testing.T) {
	var p control.ThreePoint
	assert.Zero(t, p.Step(time.Hour, 1))
}

func TestThreePointRefuses(t *testing.T) {
	for name, cfg := range map[string]control.ThreePointConfig{
		"OpeningTime": {}, "ClosingTime": {OpeningTime: 1, ClosingTime: -1},
		"AssumedTime": {OpeningTime: 1, AssumedTime: -1}, "DeadZone": {OpeningTime: 1, DeadZone: 0.6},
	} {
		_, err := control.NewThreePoint(cfg, 0)
		require.ErrorIs(t, err, units.ErrInvalid)
		assert.ErrorContains(t, err, name)
	}
	_, err := control.NewThreePoint(control.ThreePointConfig{OpeningTime: 1}, -1)
	assert.ErrorContains(t, err, "Travel")
}

var wax = control.ThermalConfig{
	Cycle: 10 * time.Minute, OpeningDelay: 90 * time.Second, OpeningTime: 4 * time.Minute, TimeConstant: 3 * time.Minute,
}

func newThermal(t tb, cfg control.ThermalConfig) control.Thermal {
	t.Helper()
	e, err := control.NewThermal(cfg)
	require.NoError(t, err)
	return e
}

func TestThermalOpensAndCloses(t *testing.T) {
	e := newThermal(t, wax)
	assert.Zero(t, e.Step(90*time.Second, 1))
	assert.Greater(t, e.Step(time.Second, 1), 0.0)
	assert.Less(t, e.Step(148*time.Second, 1), 1.0)
	assert.InDelta(t, 1, e.Step(time.Second, 1), 1e-12)
	e.Step(time.Hour, 1)
	e.Step(6*time.Minute, 1) // to the end of a cycle
	assert.InDelta(t, 1, e.Travel(), 1e-12)
	w1, w2 := -math.Expm1(-0.5), -math.Expm1(-4.0/3)
	for s := 1.0; s < 600; s += 7 {
		cooling := e // from a warmth of 1, without power
		want := (math.Exp(-s/180) - w1) / (w2 - w1)
		assert.InDelta(t, math.Max(0, math.Min(want, 1)), cooling.Step(seconds(s), 0), 1e-8)
	}
}

// Half of the ten minutes, and the three of the wax.
func TestThermalDelay(t *testing.T) {
	e := newThermal(t, wax)
	assert.Equal(t, 8*time.Minute, e.Delay(0, 1))
}

// In the long run the warmth swings between two values that a cycle of a first-order lag
// has in closed form: w = (1 − e^(−on/τ))/(1 − e^(−cycle/τ)) at the end of the power.
func TestThermalRipple(t *testing.T) {
	cfg := wax
	cfg.Cycle, cfg.OpeningTime = 5*time.Minute, 10*time.Minute
	const duty = 0.6
	e := newThermal(t, cfg)
	e.Step(100*cfg.Cycle, duty)
	top := -math.Expm1(-duty*300/180) / -math.Expm1(-300.0/180)
	w1, w2 := -math.Expm1(-0.5), -math.Expm1(-10.0/3)
	assert.InDelta(t, (top-w1)/(w2-w1), e.Step(seconds(duty*300), duty), 1e-9)
	low := top * math.Exp(-(1-duty)*300/180)
	assert.InDelta(t, (low-w1)/(w2-w1), e.Step(seconds((1-duty)*300), duty), 1e-9)
}

// The output counts at the start of a cycle only.
func TestThermalReadsOncePerCycle(t *testing.T) {
	a, b := newThermal(t, wax), newThermal(t, wax)
	a.Step(time.Second, 0.7)
	b.Step(time.Second, 0.7)
	for range 599 {
		assert.InDelta(t, a.Step(time.Second, 0.7), b.Step(time.Second, 0), 0)
	}
	assert.Greater(t, a.Step(8*time.Minute, 1), b.Step(8*time.Minute, 0))
}

// One that power closes is the mirror image.
func TestThermalOpenWithoutPower(t *testing.T) {
	cfg := wax
	cfg.OpenWithoutPower = true
	a, b := newThermal(t, wax), newThermal(t, cfg)
	assert.InDelta(t, 1, b.Travel(), 0)
	for range 300 {
		assert.InDelta(t, 1-a.Step(10*time.Second, 0.3), b.Step(10*time.Second, 0.7), 1e-9)
	}
}

func TestThermalWithoutCommand(t *testing.T) {
	e := newThermal(t, wax)
	assert.Zero(t, e.Step(time.Hour, math.NaN()))
	assert.Zero(t, e.Step(-time.Hour, 1))
	var zero control.Thermal
	assert.Zero(t, zero.Step(time.Hour, 1))
}

func TestThermalRefuses(t *testing.T) {
	for name, change := range map[string]func(*control.ThermalConfig){
		"Cycle":        func(c *control.ThermalConfig) { c.Cycle = time.Millisecond },
		"OpeningDelay": func(c *control.ThermalConfig) { c.OpeningDelay = -1 },
		"OpeningTime":  func(c *control.ThermalConfig) { c.OpeningTime = c.OpeningDelay },
		"TimeConstant": func(c *control.ThermalConfig) { c.TimeConstant = 0 },
	} {
		cfg := wax
		change(&cfg)
		_, err := control.NewThermal(cfg)
		require.ErrorIs(t, err, units.ErrInvalid)
		assert.ErrorContains(t, err, name)
	}
}

// With the output held, no element minds how the time is split, and all keep within
// 0 … 1.
func TestElementsDoNotMindHowTimeIsSplit(t *testing.T) {
	makers := map[string]func(t tb) control.FinalElement{
		"modulating": func(t tb) control.FinalElement {
			m := newModulating(t, control.ModulatingConfig{DeadBand: 0.01, Resolution: 0.004, Hysteresis: 0.03}, 0.5)
			return &m
		},
		"three-point": func(t tb) control.FinalElement {
			p := newThreePoint(t, control.ThreePointConfig{OpeningTime: 90 * time.Second, ClosingTime: 80 * time.Second, DeadZone: 0.02}, 0.5)
			return &p
		},
		"thermal": func(t tb) control.FinalElement { e := newThermal(t, wax); return &e },
		"ideal":   func(tb) control.FinalElement { return control.Ideal{} },
	}
	for name, make := range makers {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				a, b := make(t), make(t)
				for range rapid.IntRange(1, 20).Draw(t, "steps") {
					output := rapid.Float64Range(0, 1).Draw(t, "output")
					dt := seconds(rapid.Float64Range(0, 100).Draw(t, "dt"))
					whole := a.Step(dt, output)
					parts := time.Duration(rapid.IntRange(1, 20).Draw(t, "parts"))
					for range parts - 1 {
						b.Step(dt/parts, output)
					}
					split := b.Step(dt-(parts-1)*(dt/parts), output)
					assert.InDelta(t, whole, split, 1e-9)
					assert.GreaterOrEqual(t, whole, 0.0)
					assert.LessOrEqual(t, whole, 1.0)
				}
			})
		})
	}
}
