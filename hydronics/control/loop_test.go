package control_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

// onOff is a proportional controller of a band that no step can stay within.
func onOff(t tb) control.Controller {
	return newController(t, control.Config{Tuning: control.Tuning{Band: 1e-9 * units.Kelvin}, Bias: 0.5})
}

// relaySwing runs a lag with dead time under on/off control of its middle and returns
// the swing. The gain is 1 K, so the relay's half step is 0.5 K.
func relaySwing(t *testing.T, lag, dead float64) control.Swing[units.TemperatureDifference] {
	base := units.Celsius(20)
	plant, err := control.NewPlant(control.PlantConfig{
		Conductance: units.WattPerKelvin, TimeConstant: seconds(lag), DeadTime: seconds(dead), LeastStep: seconds(dead / 1000),
	}, linear(1), 0, base)
	require.NoError(t, err)
	loop := newLoop(t, onOff(t), control.Ideal{}, plant)
	step := seconds(dead / 1000)
	series := control.NewSeries(step, 60*seconds(dead))
	conditions := stays(control.Conditions{SetPoint: base.Add(0.5), Base: base})
	loop.Run(conditions, &series) // from rest to the limit cycle
	loop.Run(conditions, &series)
	return control.DetectHunting(series.Deviation, step, 0.01*units.Kelvin)
}

// TestRelayLimitCycle compares with the closed form of a relay ±d on a first-order lag
// with dead time, by integrating between switchings: the state passes zero, runs on for θ and
// turns, so with E = e^(−θ/τ) the amplitude is a = d·(1 − E) and the half period is
// τ·ln(2/E − 1). The describing function, 4d/(πa) = Ku, agrees with it as roughly as it must.
func TestRelayLimitCycle(t *testing.T) {
	for _, c := range []struct{ lag, dead, off float64 }{{1, 1, 0.14}, {10, 1, 0.24}, {1, 3, 0.14}} {
		swing := relaySwing(t, c.lag, c.dead)
		require.Equal(t, control.Hunting, swing.Verdict, "%+v", swing)
		e := math.Exp(-c.dead / c.lag)
		assert.InEpsilon(t, 0.5*(1-e), float64(swing.Amplitude), 3e-3)
		assert.InEpsilon(t, 2*c.lag*math.Log(2/e-1), swing.Period.Seconds(), 3e-3)

		estimate := control.UltimateFromRelay(1, swing.Amplitude, swing.Period)
		exact := newProcess(t, 1, c.lag, c.dead).Ultimate()
		assert.InEpsilon(t, float64(exact.Band), float64(estimate.Band), c.off)
		assert.InEpsilon(t, exact.Period.Seconds(), estimate.Period.Seconds(), 0.05)
	}
}

// The gain of a relay for a sine is the first harmonic of the square wave that it makes,
// (1/π)·∫|sin x|dx over a period and d/a, here by Simpson's rule.
func TestRelayGainIsAFirstHarmonic(t *testing.T) {
	const parts = 1000
	sum := 0.0
	for i := 1; i < parts; i++ {
		sum += float64(2+2*(i%2)) * math.Sin(math.Pi*float64(i)/parts)
	}
	harmonic := 2 * sum / 3 / parts
	u := control.UltimateFromRelay(0.4, 1.6*units.Kelvin, 90*time.Second)
	assert.InEpsilon(t, harmonic*0.2/1.6, 1/float64(u.Band), 1e-9)
	assert.Equal(t, 90*time.Second, u.Period)
}

// The ends of what UltimateFromRelay says of itself, with the exact amplitudes.
func TestRelayEstimateBounds(t *testing.T) {
	for lag, want := range map[float64]float64{1e4: 8 / (math.Pi * math.Pi), 1e-2: 4 / math.Pi} {
		amplitude := units.TemperatureDifference(0.5 * -math.Expm1(-1/lag))
		estimate := control.UltimateFromRelay(1, amplitude, time.Second)
		exact := newProcess(t, 1, lag, 1).Ultimate()
		assert.InDelta(t, want, float64(exact.Band/estimate.Band), 0.01)
	}
}

// A gain a little beyond the limit swings until the output saturates. The describing
// function of saturation (Slotine & Li, "Applied Nonlinear Control", 1991, chapter 5)
// gives the amplitude: N(A)/k = 2/π·(asin r + r·√(1 − r²)) with r = δ/A, the share of the
// gain at the limit; the period is about Pu.
func TestSaturatedLimitCycle(t *testing.T) {
	const beyond = 1.25
	p := newProcess(t, 10, 60, 10)
	u := p.Ultimate()
	band := u.Band / beyond
	base := units.Celsius(20)
	loop := newLoop(t, newController(t, control.Config{Tuning: control.Tuning{Band: band}, Bias: 0.5}), control.Ideal{},
		newPlant(t, 60*time.Second, 10*time.Second, linear(10), base))
	series := control.NewSeries(100*time.Millisecond, 20*u.Period)
	conditions := stays(control.Conditions{SetPoint: base.Add(5), Base: base})
	loop.Run(conditions, &series)
	loop.Run(conditions, &series)
	swing := control.DetectHunting(series.Deviation, series.Step, 0.02)
	require.Equal(t, control.Hunting, swing.Verdict, "%+v", swing)
	assert.InEpsilon(t, u.Period.Seconds(), swing.Period.Seconds(), 0.02)

	r := saturationRatio(1 / beyond)
	assert.InEpsilon(t, float64(band)/2/r, float64(swing.Amplitude), 0.06)
}

// saturationRatio inverts the describing function by bisection.
func saturationRatio(share float64) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		r := (low + high) / 2
		if 2/math.Pi*(math.Asin(r)+r*math.Sqrt(1-r*r)) < share {
			low = r
		} else {
			high = r
		}
	}
	return low
}

// With an integral and an unmoving load the loop comes to the set point, whatever final
// element it has; a dead zone leaves an offset within what it is worth.
func TestLoopSettles(t *testing.T) {
	base := units.Celsius(12)
	cfg := control.PlantConfig{Conductance: 100 * units.WattPerKelvin, TimeConstant: 20 * time.Minute, DeadTime: 2 * time.Minute}
	heat := linear(2 * units.Kilowatt)
	at := control.Conditions{SetPoint: units.Celsius(21), Base: base}
	modulating := newModulating(t, control.ModulatingConfig{}, 0)
	threePoint := newThreePoint(t, control.ThreePointConfig{OpeningTime: 100 * time.Second, DeadZone: 0.01}, 0)
	for name, c := range map[string]struct {
		element control.FinalElement
		within  units.TemperatureDifference
	}{
		"ideal":       {control.Ideal{}, 1e-3},
		"modulating":  {&modulating, 1e-3},
		"three-point": {&threePoint, 0.2},
	} {
		t.Run(name, func(t *testing.T) {
			plant, err := control.NewPlant(cfg, heat, 0, base)
			require.NoError(t, err)
			p, err := control.LoopConfig{Element: control.Ideal{}, Plant: plant}.Process(at, 0.2)
			require.NoError(t, err)
			loop := newLoop(t, newController(t, control.Config{Tuning: control.SIMC(p, 6*time.Minute)}), c.element, plant)
			series := control.NewSeries(time.Second, 5*time.Hour)
			loop.Run(stays(at), &series)
			last := series.Len() - 1
			assert.InDelta(t, 0, float64(series.Deviation[last]), float64(c.within))
			assert.InDelta(t, 0.45, series.Travel[last], 0.01)
			assert.Equal(t, control.Steady, control.DetectHunting(series.Deviation[4*3600:], series.Step, c.within+0.01).Verdict)
			assert.Equal(t, 5*time.Hour, loop.Elapsed())
		})
	}
}

// A cooling loop, direct-acting, on a plant of negative heat.
func TestCoolingLoopSettles(t *testing.T) {
	base := units.Celsius(30)
	plant, err := control.NewPlant(control.PlantConfig{Conductance: 100, TimeConstant: 10 * time.Minute, DeadTime: time.Minute},
		linear(-2000), 0, base)
	require.NoError(t, err)
	c := newController(t, control.Config{Action: control.DirectActing, Tuning: newTuning(0.1, 600, 0, 0)})
	loop := newLoop(t, c, control.Ideal{}, plant)
	series := control.Series{Step: time.Second, Deviation: make([]units.TemperatureDifference, 4*3600)} // no other column
	loop.Run(stays(control.Conditions{SetPoint: units.Celsius(22), Base: base}), &series)
	assert.InDelta(t, 0, float64(series.Deviation[series.Len()-1]), 1e-3)
}

// Between its runs the output of a slow controller stands still, and it works with its
// own cycle for a step.
func TestControllerCycle(t *testing.T) {
	plant := newPlant(t, time.Hour, time.Minute, linear(10), units.Celsius(15))
	ctl := newController(t, control.Config{Tuning: newTuning(0.1, 600, 0, 0)})
	loop, err := control.NewLoop(control.LoopConfig{Controller: ctl, Element: control.Ideal{}, Plant: plant, Cycle: 10 * time.Second})
	require.NoError(t, err)
	outputs := map[float64]int{}
	for range 60 {
		outputs[loop.Step(time.Second, control.Conditions{SetPoint: units.Celsius(16), Base: units.Celsius(15)}).Output]++
	}
	assert.Len(t, outputs, 6)
	for k := range 6 {
		u := ctl.Step(10*time.Second, units.Celsius(16), units.Celsius(15)) // nothing comes through the dead time yet
		assert.Equal(t, 10, outputs[u], "run %d", k)
	}
}

// The sensor's error moves the plant, not the record of it.
func TestSensorError(t *testing.T) {
	plant := newPlant(t, time.Minute, time.Second, linear(20), units.Celsius(10))
	loop := newLoop(t, newController(t, control.Config{Tuning: newTuning(0.1, 100, 0, 0)}), control.Ideal{}, plant)
	c := control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(10), SensorError: 0.5}
	var m control.Moment
	for range 3600 {
		m = loop.Step(time.Second, c)
	}
	assert.InDelta(t, -0.5, float64(m.Deviation), 1e-6)
	assert.InDelta(t, 19.5, m.Temperature.Celsius(), 1e-6)
	assert.Equal(t, m, loop.Step(0, c), "no time, no change")
}

func TestLoopRefuses(t *testing.T) {
	_, err := control.NewLoop(control.LoopConfig{Plant: &control.Plant{}, Cycle: -1})
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{"Controller", "Element", "Plant", "Cycle"} {
		assert.ErrorContains(t, err, field)
	}
	assert.Empty(t, control.NewSeries(0, time.Hour).Deviation)
	assert.Empty(t, control.NewSeries(time.Second, -time.Hour).Deviation)
}

// Too narrow a band for the process, which the margins say; within the dead band the loop
// rests all the same, until a shower wakes it.
func TestUnstableLoopRestsWithinItsDeadBand(t *testing.T) {
	plant := newPlant(t, time.Minute, 15*time.Second, linear(40), units.Celsius(8))
	element := newModulating(t, control.ModulatingConfig{DeadBand: 0.02}, 0)
	cfg := control.LoopConfig{Element: &element, Plant: plant, Cycle: 5 * time.Second}
	still := control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(8)}
	process, err := cfg.Process(still, 0.1)
	require.NoError(t, err)
	tuning := control.SIMC(process, 0)
	tuning.Band /= 5
	require.False(t, process.Margins(tuning).Stable)
	cfg.Controller = newController(t, control.Config{Tuning: tuning})
	loop, err := control.NewLoop(cfg)
	require.NoError(t, err)
	loop.Settle(still)
	series := control.NewSeries(time.Second, 4*time.Hour)
	const shower = 2 * time.Hour
	loop.Run(func(at time.Duration) control.Conditions {
		now := still
		if at >= shower && at < shower+5*time.Minute {
			now.Base = now.Base.Add(-2 * units.Kelvin)
		}
		return now
	}, &series)
	before, after := series.Between(0, shower), series.Between(shower+time.Hour, 4*time.Hour)
	assert.Equal(t, control.Steady, control.DetectHunting(before.Deviation, before.Step, 0.2).Verdict)
	swing := control.DetectHunting(after.Deviation, after.Step, 0.2)
	assert.Equal(t, control.Hunting, swing.Verdict, "%+v", swing)
}

// With play and an integral a loop of good margins hunts, slower than at its limit of
// stability, and its motor travels further than its valve.
func TestPlayHunts(t *testing.T) {
	plant := newPlant(t, time.Minute, 15*time.Second, linear(60), units.Celsius(8))
	element := newModulating(t, control.ModulatingConfig{Hysteresis: 0.02, DeadBand: 0.02}, 0)
	cfg := control.LoopConfig{Element: &element, Plant: plant}
	still := control.Conditions{SetPoint: units.Celsius(20.3), Base: units.Celsius(8)}
	process, err := cfg.Process(still, 0.1)
	require.NoError(t, err)
	tuning := newTuning(0.8/60, 30, 0, 0)
	require.Greater(t, process.Margins(tuning).Gain, 2.0)
	cfg.Controller = newController(t, control.Config{Tuning: tuning})
	loop, err := control.NewLoop(cfg)
	require.NoError(t, err)
	loop.Settle(still)
	gusts := rand.New(rand.NewPCG(1, 2))
	series := control.NewSeries(time.Second, 4*time.Hour)
	loop.Run(func(time.Duration) control.Conditions {
		now := still
		now.Base = now.Base.Add(units.TemperatureDifference(0.05 * gusts.NormFloat64()))
		now.SetPoint = units.Celsius(20)
		return now
	}, &series)
	swing := control.DetectHunting(series.Deviation, series.Step, 0.2)
	require.Equal(t, control.Hunting, swing.Verdict, "%+v", swing)
	assert.Greater(t, swing.Period.Seconds(), 2*process.Ultimate().Period.Seconds())
	motor, plug := control.MovementOf(series.Drive, series.Step), control.MovementOf(series.Travel, series.Step)
	// The motor's way is that of the plug and, at each reversal, the play, on a scale of 1 + play.
	assert.InDelta(t, (plug.Strokes+0.02*float64(plug.Reversals))/1.02, motor.Strokes, 0.05)
	assert.Greater(t, motor.Strokes, 1.2*plug.Strokes)
}

func TestDriveIsTravelWithoutPlay(t *testing.T) {
	threePoint := newThreePoint(t, control.ThreePointConfig{OpeningTime: time.Minute}, 0)
	loop := newLoop(t, newController(t, control.Config{Tuning: newTuning(0.1, 600, 0, 0)}), &threePoint,
		newPlant(t, time.Minute, time.Second, linear(20), units.Celsius(10)))
	m := loop.Step(10*time.Second, control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(10)})
	assert.Positive(t, m.Travel)
	assert.Equal(t, m.Travel, m.Drive)
}

func TestSeriesBetween(t *testing.T) {
	s := control.NewSeries(time.Minute, time.Hour)
	s.Output = nil
	for i := range s.Travel {
		s.Travel[i] = float64(i)
	}
	part := s.Between(10*time.Minute, 20*time.Minute)
	assert.Equal(t, 10, part.Len())
	assert.Equal(t, time.Minute, part.Step)
	assert.Equal(t, s.Travel[10:20], part.Travel)
	assert.Len(t, part.Drive, 10)
	assert.Empty(t, part.Output)
	part.Travel[0] = -1
	assert.InDelta(t, -1, s.Travel[10], 0, "shared")
	assert.Equal(t, 5, s.Between(55*time.Minute, 3*time.Hour).Len())
	assert.Equal(t, 5, s.Between(-time.Hour, 5*time.Minute).Len())
	for _, empty := range []control.Series{
		s.Between(20*time.Minute, 10*time.Minute), s.Between(2*time.Hour, 3*time.Hour), s.Between(-2, -1), control.Series{Travel: s.Travel}.Between(0, time.Hour),
	} {
		assert.Zero(t, empty.Len())
	}
}

func TestMovement(t *testing.T) {
	m := control.MovementOf([]float64{0.5, 0.6, 0.7, 0.7, 0.8, 0.6, 0.6, 0.5, 0.5}, 30*time.Second)
	assert.InDelta(t, 0.6, m.Strokes, 1e-12)
	assert.Equal(t, 3, m.Starts)
	assert.Equal(t, 1, m.Reversals)
	assert.InDelta(t, 5.0/8, m.Duty, 1e-12)
	assert.Equal(t, 4*time.Minute, m.Time)
	strokes, starts, reversals := m.Hourly()
	assert.InDelta(t, 0.6*15, strokes, 1e-9)
	assert.InDelta(t, 3*15, starts, 1e-9)
	assert.InDelta(t, 1*15, reversals, 1e-9)
	strokes, _, _ = control.Movement{Strokes: 1}.Hourly()
	assert.Zero(t, strokes)
	assert.Equal(t, control.Movement{}, control.MovementOf(nil, time.Second))
}

// day is a loop with everything in it, and what acts on it during a day.
func day(t tb) (*control.Loop, func(time.Duration) control.Conditions) {
	base := units.Celsius(5)
	plant, err := control.NewPlant(control.PlantConfig{
		Conductance: 100 * units.WattPerKelvin, TimeConstant: 25 * time.Minute, DeadTime: 3 * time.Minute,
	}, linear(4*units.Kilowatt), 0.4, base)
	require.NoError(t, err)
	element := newModulating(t, control.ModulatingConfig{DeadBand: 0.01, Resolution: 1.0 / 255, Hysteresis: 0.02}, 0.4)
	c := newController(t, control.Config{Tuning: newTuning(0.1, 900, 60, 0)})
	noise := rand.New(rand.NewPCG(1, 2))
	return newLoop(t, c, &element, plant), func(at time.Duration) control.Conditions {
		sun := math.Max(0, math.Sin(2*math.Pi*(at.Hours()-6)/24))
		return control.Conditions{
			SetPoint: units.Celsius(21), Base: base.Add(units.TemperatureDifference(10 * sun)),
			SensorError: units.TemperatureDifference(0.02 * noise.NormFloat64()),
		}
	}
}

func TestDayKeepsItsSetPoint(t *testing.T) {
	loop, conditions := day(t)
	series := control.NewSeries(time.Second, 24*time.Hour)
	loop.Run(conditions, &series)
	for i, d := range series.Deviation {
		if i > 3600 {
			require.Less(t, math.Abs(float64(d)), 0.4, "at %v s", i)
		}
	}
	assert.Equal(t, control.Steady, control.DetectHunting(series.Deviation[3600:], series.Step, 0.3).Verdict)
}

func TestSteppingDoesNotAllocate(t *testing.T) {
	loop, conditions := day(t)
	series := control.NewSeries(time.Second, 10*time.Minute)
	assert.Zero(t, testing.AllocsPerRun(10, func() { loop.Run(conditions, &series) }))
	threePoint := newThreePoint(t, control.ThreePointConfig{OpeningTime: time.Minute}, 0)
	thermal := newThermal(t, wax)
	plant := newPlant(t, time.Hour, 17*time.Second, linear(10), units.Celsius(15))
	output := 0.0
	assert.Zero(t, testing.AllocsPerRun(1000, func() {
		output = math.Mod(output+0.37, 1)
		plant.Step(700*time.Millisecond, threePoint.Step(time.Second, output), units.Celsius(15))
		plant.Step(time.Minute, thermal.Step(time.Minute, output), units.Celsius(15))
	}))
	assert.Zero(t, testing.AllocsPerRun(10, func() { control.DetectHunting(series.Deviation, series.Step, 0.1) }))
	p := newProcess(t, 1, 5, 1)
	assert.Zero(t, testing.AllocsPerRun(10, func() { p.Margins(control.AMIGOPID(p)) }))
}
