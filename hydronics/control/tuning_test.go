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

// TestSIMCPublished compares with the margins that Skogestad 2003 prints for τc = θ,
// to the last digit: Ti = τ, and the integrating process (from memory), which a long
// lag comes near.
func TestSIMCPublished(t *testing.T) {
	for _, c := range []struct {
		name                string
		lag                 float64
		gain, phase, top    float64
		off, offPhase, offM float64
	}{
		{"lag equal to dead time", 1, 3.14, 61.4, 1.59, 0.005, 0.05, 0.005},
		{"integral time is the lag", 8, 3.14, 61.4, 1.59, 0.005, 0.05, 0.005},
		{"integrating", 1e6, 2.96, 46.9, 1.70, 0.005, 0.05, 0.005},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := newProcess(t, 3, c.lag, 1)
			m := p.Margins(control.SIMC(p, 0))
			assert.True(t, m.Stable)
			assert.InDelta(t, c.gain, m.Gain, c.off)
			assert.InDelta(t, c.phase, m.Phase.In(units.Degree), c.offPhase)
			assert.InDelta(t, c.top, m.Sensitivity, c.offM)
			assert.InDelta(t, float64(m.Phase)/frequencyOf(c.lag), m.DeadTime.Seconds(), 2e-3)
		})
	}
}

// frequencyOf is the crossover frequency of those loops: 0.5/θ with Ti = τ; for the
// integrating process 0.515/θ, from |L| = 1.
func frequencyOf(lag float64) float64 {
	if lag <= 8 {
		return 0.5
	}
	// |L| = √(1 + 64ω²)/(16·ω²) = 1, a quadratic in ω².
	return math.Sqrt((64 + math.Sqrt(64*64+4*256)) / 512)
}

func TestUltimatePublished(t *testing.T) {
	for _, c := range []struct{ lag, gain, period, half float64 }{
		{1, 2.26183, 3.09706, 0.5e-5},
		{10, 16.3506, 3.85000, 0.5e-4},
	} {
		u := newProcess(t, 1, c.lag, 1).Ultimate()
		assert.InDelta(t, c.gain, 1/float64(u.Band), c.half)
		assert.InDelta(t, c.period, u.Period.Seconds(), 0.5e-5)
	}
	assert.InDelta(t, 2.02876, 2*math.Pi/newProcess(t, 1, 1, 1).Ultimate().Period.Seconds(), 0.5e-5)
}

// The values of the rules at (1, 1, 1): AMIGO from memory, Ziegler & Nichols from
// the published shares of Ku and Pu.
func TestRulesAtOneOneOne(t *testing.T) {
	p := newProcess(t, 1, 1, 1)
	pi := control.AMIGOPI(p)
	assert.InDelta(t, 0.25, 1/float64(pi.Band), 1e-12)
	assert.Equal(t, time.Second, pi.IntegralTime)
	pid := control.AMIGOPID(p)
	assert.InDelta(t, 0.65, 1/float64(pid.Band), 1e-12)
	assert.InDelta(t, 1.2/1.1, pid.IntegralTime.Seconds(), 1e-9)
	assert.InDelta(t, 0.5/1.3, pid.DerivativeTime.Seconds(), 1e-9)

	u := control.Ultimate{Band: 0.5 * units.Kelvin, Period: 120 * time.Second}
	zn := control.ZieglerNicholsPI(u)
	assert.InDelta(t, 0.9, 1/float64(zn.Band), 1e-12)
	assert.Equal(t, 100*time.Second, zn.IntegralTime)
	zn = control.ZieglerNicholsPID(u)
	assert.InDelta(t, 1.2, 1/float64(zn.Band), 1e-12)
	assert.Equal(t, []time.Duration{60 * time.Second, 15 * time.Second}, []time.Duration{zn.IntegralTime, zn.DerivativeTime})

	slow := control.SIMC(p, 3*time.Second)
	assert.InDelta(t, 0.25, 1/float64(slow.Band), 1e-12)
	assert.Equal(t, time.Second, slow.IntegralTime)
}

// AMIGO aims at Ms = 1.4 (from memory); between its fits it is somewhat safer.
func TestAMIGOKeepsItsSensitivity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := newProcess(t, 2, rapid.Float64Range(0.2, 100).Draw(t, "lag"), 1)
		assert.InDelta(t, 1.4, p.Margins(control.AMIGOPI(p)).Sensitivity, 0.2)
		assert.InDelta(t, 1.4, p.Margins(control.AMIGOPID(p)).Sensitivity, 0.2)
	})
}

// drawLoop draws a process and a controller around the limit of stability.
func drawLoop(t *rapid.T) (control.Process, control.Tuning) {
	p := newProcess(t, 5, math.Pow(10, rapid.Float64Range(-1, 2).Draw(t, "lag")), 1)
	u := p.Ultimate()
	c := control.Tuning{Band: u.Band / units.TemperatureDifference(rapid.Float64Range(0.05, 1.5).Draw(t, "gain"))}
	period := u.Period.Seconds()
	if rapid.Bool().Draw(t, "integral") {
		c.IntegralTime = seconds(period * rapid.Float64Range(0.3, 5).Draw(t, "ti"))
	}
	if rapid.Bool().Draw(t, "derivative") {
		c.DerivativeTime = seconds(period * rapid.Float64Range(0.01, 0.15).Draw(t, "td"))
	}
	return p, c
}

// A gain margin is what it says: with the gain multiplied by it, the loop is at its
// limit. Ms bounds both margins (Åström & Hägglund 2006).
func TestMarginsMeanWhatTheySay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, c := drawLoop(t)
		m := p.Margins(c)
		at := func(factor float64) control.Margins {
			c := c
			c.Band /= units.TemperatureDifference(factor)
			return p.Margins(c)
		}
		if math.Abs(m.Gain-1) < 1e-9 {
			return // at the limit, to rounding
		}
		assert.Equal(t, m.Gain > 1, m.Stable)
		assert.Equal(t, m.Phase > 0, m.Stable)
		assert.True(t, at(m.Gain*(1-1e-6)).Stable)
		assert.False(t, at(m.Gain*(1+1e-6)).Stable)
		if !m.Stable {
			assert.True(t, math.IsInf(m.Sensitivity, 1))
			assert.Zero(t, m.DeadTime)
			return
		}
		ms := m.Sensitivity
		assert.GreaterOrEqual(t, m.Gain, ms/(ms-1)*(1-1e-9))
		if !math.IsInf(float64(m.Phase), 1) {
			assert.GreaterOrEqual(t, float64(m.Phase), 2*math.Asin(1/(2*ms))*(1-1e-9))
		}
	})
}

// The dead-time margin, added to the process, brings it to the limit.
func TestDeadTimeMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, c := drawLoop(t)
		m := p.Margins(c)
		if m.Gain < 1+1e-6 || m.DeadTime > time.Minute {
			return
		}
		with := func(share float64) control.Margins {
			cfg := p.Config()
			cfg.DeadTime += seconds(share * m.DeadTime.Seconds())
			q, err := control.NewProcess(cfg)
			require.NoError(t, err)
			return q.Margins(c)
		}
		assert.True(t, with(0.999).Stable)
		assert.False(t, with(1.001).Stable)
	})
}

// TestStabilityAgainstSimulation judges loops by what they make of a small kick.
func TestStabilityAgainstSimulation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, c := drawLoop(t)
		m := p.Margins(c)
		if m.Gain > 0.7 && m.Gain < 1.4 {
			return // too near the limit for a short run in steps
		}
		left := kicked(t, p, c)
		if m.Stable {
			assert.Less(t, left, 1.0)
		} else {
			assert.Greater(t, left, 10.0)
		}
	})
}

// kicked returns the greatest deviation in the last ten of forty dead times (more for
// long lags) over that which the loop began with.
func kicked(t *rapid.T, p control.Process, c control.Tuning) (left float64) {
	const perDeadTime, size = 50, 1e-6
	cfg := p.Config()
	ctl := newController(t, control.Config{Tuning: c, Bias: 0.5})
	base := units.Celsius(20)
	plant := newPlant(t, cfg.TimeConstant, cfg.DeadTime, linear(units.Power(cfg.Gain)), base)
	plant.Settle(0.5+size, base)
	loop := newLoop(t, ctl, control.Ideal{}, plant)
	steps := 40 * perDeadTime * int(max(1, min(4, cfg.TimeConstant.Seconds()/10)))
	for i := range steps {
		m := loop.Step(cfg.DeadTime/perDeadTime, control.Conditions{SetPoint: base.Add(cfg.Gain / 2), Base: base})
		if i >= 3*steps/4 {
			left = max(left, math.Abs(float64(m.Deviation/cfg.Gain))/size)
		}
	}
	return left
}

func TestMarginsOfNothing(t *testing.T) {
	for _, m := range []control.Margins{
		control.Process{}.Margins(newTuning(1, 1, 0, 0)),
		newProcess(t, 1, 1, 1).Margins(control.Tuning{}),
		newProcess(t, 1, 1, 1).Margins(control.Tuning{Band: 1, IntegralTime: -1}),
		newProcess(t, 1, 1, 1).Margins(control.Tuning{Band: 1, DerivativeFilter: math.NaN()}),
		newProcess(t, 1, 1, 1).Margins(control.Tuning{Band: 5e-324}),
		newProcess(t, 1, 1, 1).Margins(control.Tuning{Band: units.TemperatureDifference(math.NaN())}),
	} {
		assert.False(t, m.Stable)
		assert.True(t, math.IsNaN(m.Gain))
		assert.True(t, math.IsNaN(float64(m.Phase)))
		assert.True(t, math.IsNaN(m.Sensitivity))
	}
	assert.True(t, math.IsNaN(float64(control.Process{}.Ultimate().Band)))
	assert.True(t, math.IsNaN(float64(control.SIMC(control.Process{}, 0).Band)))
}

// A proportional controller whose loop gain is below 1 has no phase margin to lose.
func TestNoCrossover(t *testing.T) {
	m := newProcess(t, 1, 1, 1).Margins(newTuning(0.9, 0, 0, 0))
	assert.True(t, m.Stable)
	assert.True(t, math.IsInf(float64(m.Phase), 1))
	assert.InDelta(t, 2.26183/0.9, m.Gain, 1e-5)
	assert.Equal(t, time.Duration(math.MaxInt64), m.DeadTime)
}

// An unstable loop far beyond its limit still gets its margins.
func TestFarBeyondTheLimit(t *testing.T) {
	m := newProcess(t, 1, 1, 1).Margins(newTuning(1e6, 1, 0, 0))
	assert.False(t, m.Stable)
	assert.InEpsilon(t, math.Pi/2/1e6, m.Gain, 1e-9) // L = K·e^(−s)/s swings at K = π/2
	assert.InEpsilon(t, math.Pi/2-1e6, float64(m.Phase), 1e-9)
}

func TestProcessRefuses(t *testing.T) {
	good := control.ProcessConfig{Gain: units.Kelvin, TimeConstant: time.Minute, DeadTime: time.Second}
	for name, change := range map[string]func(*control.ProcessConfig){
		"Gain":         func(c *control.ProcessConfig) { c.Gain = -1 },
		"TimeConstant": func(c *control.ProcessConfig) { c.TimeConstant = 0 },
		"DeadTime":     func(c *control.ProcessConfig) { c.DeadTime = -time.Second },
		"0.001 to 1e6": func(c *control.ProcessConfig) { c.TimeConstant = time.Microsecond },
	} {
		cfg := good
		change(&cfg)
		_, err := control.NewProcess(cfg)
		require.ErrorIs(t, err, units.ErrInvalid, name)
		assert.ErrorContains(t, err, name)
	}
	p, err := control.NewProcess(good)
	require.NoError(t, err)
	assert.Equal(t, good, p.Config())
	assert.True(t, p.Equal(p))
	assert.False(t, p.Equal(control.Process{}))
}

// Ti of an integrating process is 8θ for τc = θ (Skogestad 2003), and 16θ for τc = 3θ.
func TestSIMCOfALongLag(t *testing.T) {
	p := newProcess(t, 2, 1000, 1)
	assert.Equal(t, 8*time.Second, control.SIMC(p, 0).IntegralTime)
	assert.Equal(t, 16*time.Second, control.SIMC(p, 3*time.Second).IntegralTime)
}
