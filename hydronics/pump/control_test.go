package pump_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/pump"
	"github.com/indexrun/indexrun/units"
)

func mustControl(t require.TestingT, cfg pump.ControlConfig, pumps ...pump.Pump) pump.Controlled {
	c, err := pump.NewControlled(cfg, pumps...)
	require.NoError(t, err)
	return c
}

// setLines are the four modes for the circulator.
func setLines() map[string]pump.ControlConfig {
	return map[string]pump.ControlConfig{
		"fixed":    {Mode: pump.FixedSpeed},
		"constant": {Mode: pump.ConstantPressure, SetPoint: 35 * units.Kilopascal},
		"proportional": {Mode: pump.ProportionalPressure, SetPoint: 40 * units.Kilopascal,
			DesignFlow: 1.5 * units.LitrePerSecond, ZeroFlowShare: 0.5},
		"index": {Mode: pump.IndexUnit, SetPoint: 15 * units.Kilopascal,
			Run: pump.Point{Flow: 1.5 * units.LitrePerSecond, Head: 22 * units.Kilopascal}},
	}
}

// TestSetLines checks each mode by what it promises.
func TestSetLines(t *testing.T) {
	p := mustPump(t, circulator())
	lines, controlled := setLines(), map[string]pump.Controlled{}
	for name, cfg := range lines {
		controlled[name] = mustControl(t, cfg, p)
	}
	for q := 0.0; q <= 1.5; q += 0.1 {
		assert.InDelta(t, 35e3, float64(controlled["constant"].Head(litres(q))), 1e-9)
		assert.InDelta(t, 20e3+20e3*q/1.5, float64(controlled["proportional"].Head(litres(q))), 1e-8)
		remote := float64(controlled["index"].Head(litres(q))) - 22e3*(q/1.5)*(q/1.5)
		assert.InDelta(t, 15e3, remote, 1e-8)
		assert.Equal(t, p.Head(litres(q)), controlled["fixed"].Head(litres(q)))
		assert.InDelta(t, 1, controlled["fixed"].Speed(litres(q)), 0)
	}
}

// TestSpeedMakesTheHead: a pump at the speed found makes the head found.
func TestSpeedMakesTheHead(t *testing.T) {
	p := mustPump(t, circulator())
	weak, err := p.AtSpeed(0.9)
	require.NoError(t, err)
	for name, cfg := range setLines() {
		for _, pumps := range [][]pump.Pump{{p}, {p, p}, {p, weak}} {
			c := mustControl(t, cfg, pumps...)
			for q := 0.05; q < 3.5; q += 0.1 {
				n := c.Speed(litres(q))
				scaled := make([]pump.Pump, len(pumps))
				for i, one := range pumps {
					scaled[i], err = one.AtSpeed(n * one.Speed())
					require.NoError(t, err)
				}
				assert.InEpsilon(t, float64(mustParallel(t, scaled...).Head(litres(q))), float64(c.Head(litres(q))), 1e-9,
					"%s, %d pumps, %v l/s", name, len(pumps), q)
				state := c.State(litres(q))
				assert.Equal(t, c.Head(litres(q)), state.Head)
				assert.LessOrEqual(t, n, 1.0)
			}
		}
	}
}

func TestSpeedBounds(t *testing.T) {
	p := mustPump(t, circulator())
	cfg := setLines()["constant"]
	cfg.MinSpeed, cfg.MaxSpeed = 0.85, 0.94
	c := mustControl(t, cfg, p)
	least, most := c.State(litres(0.1)), c.State(litres(1.9))
	assert.Equal(t, pump.LeastSpeed, least.Status)
	assert.InDelta(t, 0.85, least.Speed, 1e-15)
	assert.Greater(t, least.Head, 35*units.Kilopascal)
	assert.Equal(t, pump.FullSpeed, most.Status)
	assert.InDelta(t, 0.94, most.Speed, 1e-15)
	assert.Less(t, most.Head, 35*units.Kilopascal)
	middle := c.State(litres(1.4))
	assert.Equal(t, pump.Normal, middle.Status)
	assert.InDelta(t, 35e3, float64(middle.Head), 1e-9)
	assert.Equal(t, pump.Normal, mustControl(t, setLines()["fixed"], p).State(litres(1)).Status)
}

func TestControlledSlope(t *testing.T) {
	p := mustPump(t, circulator())
	weak, err := p.AtSpeed(0.9)
	require.NoError(t, err)
	for name, cfg := range setLines() {
		cfg.MinSpeed = 0.6
		c := mustControl(t, cfg, p, weak)
		for q := 0.113; q < 4; q += 0.2 {
			before, after := c.State(litres(q-1e-3)), c.State(litres(q+1e-3))
			if before.Status != after.Status {
				continue
			}
			difference := float64(after.Head-before.Head) / float64(litres(2e-3))
			assert.InDelta(t, difference, c.HeadSlope(litres(q)), 1e-3*math.Abs(difference)+1, "%s at %v l/s", name, q)
		}
	}
}

// TestControlledOperatingPoint: the head found is what the system takes, and the
// status tells which side of the set line it is on.
func TestControlledOperatingPoint(t *testing.T) {
	p := mustPump(t, circulator())
	weak, err := p.AtSpeed(0.9)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"fixed", "constant", "proportional", "index"}).Draw(t, "mode")
		cfg := setLines()[name]
		cfg.MinSpeed = rapid.Float64Range(0, 0.9).Draw(t, "least speed")
		pumps := rapid.SampledFrom([][]pump.Pump{{p}, {p, p}, {p, weak}}).Draw(t, "pumps")
		c := mustControl(t, cfg, pumps...)
		static := units.Pressure(rapid.Float64Range(-5, 70).Draw(t, "static")) * units.Kilopascal
		loss := units.Pressure(math.Pow(10, rapid.Float64Range(-1, 4).Draw(t, "log loss"))) * units.Kilopascal
		system := mustSystem(t, static, litres(1.5), loss)
		got := c.Operate(system)
		if got.Status == pump.NoFlow {
			assert.Zero(t, got.Flow)
			assert.LessOrEqual(t, float64(c.Head(0)), float64(static)*(1+1e-12))
			return
		}
		assert.InDelta(t, 0, float64(got.Head-system.Pressure(got.Flow)), 1e-12*62e3)
		assert.Positive(t, got.Flow)
	})
}

// TestControlSaves: at half flow through the same circuit every control draws
// less than the fixed speed, and the index unit's the least of those that keep
// its pressure.
func TestControlSaves(t *testing.T) {
	p := mustPump(t, circulator())
	lines := setLines()
	draw := func(name string) float64 {
		return float64(mustControl(t, lines[name], p).State(litres(0.75)).Electric)
	}
	assert.Greater(t, draw("fixed"), draw("constant"))
	assert.Greater(t, draw("constant"), draw("proportional"))
	assert.Greater(t, draw("proportional"), draw("index"))
}

// TestOperatingStatus: a wide circuit, a narrow one and one in between.
func TestOperatingStatus(t *testing.T) {
	cfg := setLines()["constant"]
	cfg.MinSpeed = 0.8
	c := mustControl(t, cfg, mustPump(t, circulator()))
	for loss, want := range map[units.Pressure]pump.Status{
		10 * units.Kilopascal: pump.FullSpeed, 35 * units.Kilopascal: pump.Normal, 2000 * units.Kilopascal: pump.LeastSpeed,
	} {
		assert.Equal(t, want, c.Operate(mustSystem(t, 0, litres(1.5), loss)).Status, "%v", loss)
	}
	stopped := c.Operate(mustSystem(t, 70*units.Kilopascal, litres(1.5), 10*units.Kilopascal))
	assert.Equal(t, pump.NoFlow, stopped.Status)
	assert.Zero(t, stopped.Flow)
}

// TestSteepRun: a set line that rises faster than the system takes pressure has
// no upper end but the pump's.
func TestSteepRun(t *testing.T) {
	p := mustPump(t, circulator())
	cfg := setLines()["index"]
	c := mustControl(t, cfg, p)
	got := c.Operate(mustSystem(t, 0, litres(1.5), 20*units.Kilopascal))
	assert.Equal(t, pump.FullSpeed, got.Status)
	held := c.Operate(mustSystem(t, 20*units.Kilopascal, litres(1.5), 1*units.Kilopascal))
	assert.Equal(t, pump.NoFlow, held.Status)
}

// TestSetPointBeyondReach: the circulator's shut-off head is 62 kPa or so, at half
// speed a quarter of that.
func TestSetPointBeyondReach(t *testing.T) {
	p := mustPump(t, circulator())
	for name, cfg := range setLines() {
		if cfg.Mode == pump.FixedSpeed {
			continue
		}
		for speed, reach := range map[float64]units.Pressure{0: p.ShutOff(), 0.5: p.ShutOff() / 4, 1.5: p.ShutOff() * 9 / 4} {
			cfg.MaxSpeed = speed
			cfg.SetPoint = reach * (1 - 1e-9)
			mustControl(t, cfg, p, p)
			cfg.SetPoint = reach * (1 + 1e-9)
			_, err := pump.NewControlled(cfg, p, p)
			require.ErrorIs(t, err, units.ErrInvalid, name)
		}
	}
	_, err := pump.NewControlled(pump.ControlConfig{Mode: pump.ConstantPressure, SetPoint: 100 * units.Kilopascal},
		mustPump(t, pump.Config{ShutOff: 62 * units.Kilopascal, Duty: pump.Point{Flow: litres(1), Head: 40 * units.Kilopascal}}))
	assert.EqualError(t, err, "pump: SetPoint: got 100 kPa, want below 62 kPa, the head of the pumps at zero flow and MaxSpeed: no speed reaches more")
}

// TestBeyondCurveAtASpeedBound: neither fact hides the other. The curve ends at 2 l/s
// at full speed, and earlier at the speed that holds the pressure at 1.9 l/s.
func TestBeyondCurveAtASpeedBound(t *testing.T) {
	p := mustPump(t, circulator())
	c := mustControl(t, setLines()["constant"], p)
	for q, want := range map[float64]pump.Status{2.2: pump.FullSpeed, 1.9: pump.BeyondCurve, 1: pump.Normal} {
		state := c.State(litres(q))
		assert.Equal(t, want, state.Status, "%v l/s", q)
		assert.Equal(t, want != pump.Normal, state.Extrapolated, "%v l/s", q)
	}
	driven, err := c.OperateOn(mustSystem(t, 0, litres(3), 10*units.Kilopascal))
	require.NoError(t, err)
	assert.Equal(t, pump.FullSpeed, driven.Status)
	assert.True(t, driven.Extrapolated)
	alone := p.State(litres(2.2))
	assert.Equal(t, pump.BeyondCurve, alone.Status)
	assert.True(t, alone.Extrapolated)
}

func TestControlDomain(t *testing.T) {
	p := mustPump(t, circulator())
	for _, c := range []struct {
		name   string
		cfg    pump.ControlConfig
		fields []string
	}{
		{"no set point", pump.ControlConfig{Mode: pump.ConstantPressure}, []string{"SetPoint"}},
		{"no line", pump.ControlConfig{Mode: pump.ProportionalPressure, ZeroFlowShare: 2}, []string{"SetPoint", "DesignFlow", "ZeroFlowShare"}},
		{"no run", pump.ControlConfig{Mode: pump.IndexUnit}, []string{"SetPoint", "Run.Flow", "Run.Head"}},
		{"no mode", pump.ControlConfig{Mode: 9}, []string{"Mode"}},
		{"speeds", pump.ControlConfig{MinSpeed: 3, MaxSpeed: 2.5}, []string{"MinSpeed", "MaxSpeed"}},
	} {
		_, err := pump.NewControlled(c.cfg, p)
		require.ErrorIs(t, err, units.ErrInvalid, c.name)
		for _, field := range c.fields {
			assert.ErrorContains(t, err, "pump: "+field+": got", c.name)
		}
	}
	_, err := pump.NewControlled(pump.ControlConfig{})
	require.ErrorIs(t, err, units.ErrInvalid)
	a, b := mustControl(t, setLines()["index"], p), mustControl(t, setLines()["constant"], p)
	assert.True(t, a.Equal(a))
	assert.False(t, a.Equal(b))
}
