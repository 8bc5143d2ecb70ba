package hydronics_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

const stroke = 5 * units.Millimetre

// mustChain mounts an actuator with a shaping on a two-way valve of Kvs 1 with a
// characteristic, so that a rising signal opens.
func mustChain(t require.TestingT, shaping actuator.Shaping, curve valve.Characteristic) hydronics.Chain {
	act, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Action: actuator.Reverse, Shaping: shaping, Stroke: stroke})
	require.NoError(t, err)
	val, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: units.Kv, Stroke: stroke, Curve: curve, ClosingTravel: 1e-6})
	require.NoError(t, err)
	chain, err := hydronics.NewChain(act, val)
	require.NoError(t, err)
	return chain
}

// Shaping identities (common practice, no published source; values of the laws of
// IEC 60534-2-4 recomputed independently of the project).
func TestShapingIdentities(t *testing.T) {
	type values map[float64]float64 // demand → relative coefficient
	for name, tt := range map[string]struct {
		shaping actuator.Shaping
		curve   valve.Characteristic
		want    values
	}{
		"linear on equal percentage": {actuator.Linear(), valve.EqualPercentage(50),
			values{0.1: 0.02958, 0.25: 0.05318, 0.5: 0.14142, 0.75: 0.37606, 0.9: 0.67624}},
		"zero-based on linear of the same ratio is equal percentage": {actuator.ZeroBasedEqualPercentage(50), valve.Linear(50),
			values{0.1: 0.02958, 0.25: 0.05318, 0.5: 0.14142, 0.75: 0.37606, 0.9: 0.67624}},
		"zero-based on ideal linear": {actuator.ZeroBasedEqualPercentage(50), valve.Linear(math.Inf(1)),
			values{0.25: 0.033860, 0.5: 0.123899, 0.75: 0.363327}},
		"linear on ideal linear": {actuator.Linear(), valve.Linear(math.Inf(1)), values{0.25: 0.25, 0.5: 0.5, 0.75: 0.75}},
	} {
		t.Run(name, func(t *testing.T) {
			chain := mustChain(t, tt.shaping, tt.curve)
			for demand, want := range tt.want {
				r := chain.Respond(signal.Volts(10*demand), units.Bar)
				assert.InDelta(t, want, r.Coefficient, 5e-6)
				assert.InEpsilon(t, r.Coefficient, r.Flow.In(units.CubicMetrePerHour), 1e-12, "1 bar, Kvs 1, 15 °C")
			}
		})
	}
}

// The constants must match, or the identity is only near.
func TestShapingIdentityNeedsMatchingConstants(t *testing.T) {
	chain := mustChain(t, actuator.ZeroBasedEqualPercentage(30), valve.Linear(50))
	r := chain.Respond(signal.Volts(5), units.Bar)
	assert.Greater(t, math.Abs(r.Coefficient-0.14142), 0.01)
}

// Installed characteristic: q/q100 of a linear valve, against values recomputed
// independently for the two-resistor circuit (VDI/VDE 2173).
func TestChainUnderAuthority(t *testing.T) {
	chain := mustChain(t, actuator.Linear(), valve.Linear(math.Inf(1)))
	for authority, want := range map[float64]map[float64]float64{
		0.5: {0.1: 0.1407, 0.5: 0.6325, 0.9: 0.9461},
		0.1: {0.5: 0.8771},
	} {
		full := valve.FlowThrough(units.Kv, units.Pressure(authority)*units.Bar, valve.ReferenceDensity)
		rest, err := hydronics.ResistanceAt(full, units.Pressure(1-authority)*units.Bar)
		require.NoError(t, err)
		branch, err := chain.InBranch(rest)
		require.NoError(t, err)
		for demand, share := range want {
			assert.InDelta(t, share, float64(branch.Flow(signal.Volts(10*demand), units.Bar)/full), 5e-5)
		}
	}
}

// drawChain draws a chain of any kind and a pressure for it.
func drawChain(t *rapid.T) (hydronics.Chain, units.Pressure) {
	stem := rapid.SampledFrom([]valve.Stem{valve.PushToClose, valve.PushToOpen}).Draw(t, "stem")
	act, err := actuator.New(actuator.Config{
		Input:      rapid.SampledFrom([]signal.Range{signal.Range0To10V(), signal.Range4To20mA(), signal.Range2To10V(), signal.Range0To10V().Inverse()}).Draw(t, "range"),
		Action:     rapid.SampledFrom([]actuator.Action{actuator.Direct, actuator.Reverse}).Draw(t, "action"),
		ClosingEnd: hydronics.ClosingEnd(stem),
		Shaping:    rapid.SampledFrom([]actuator.Shaping{actuator.Linear(), actuator.ZeroBasedEqualPercentage(30)}).Draw(t, "shaping"),
		Stroke:     units.Length(rapid.Float64Range(3, 9).Draw(t, "stroke")) * units.Millimetre,
	})
	require.NoError(t, err)
	curve := rapid.SampledFrom([]valve.Characteristic{valve.Linear(50), valve.EqualPercentage(50), valve.Parabolic()}).Draw(t, "curve")
	dp := units.Pressure(rapid.Float64Range(5, 400).Draw(t, "dp")) * units.Kilopascal
	var val valve.Valve
	if rapid.Bool().Draw(t, "independent") {
		val, err = valve.NewPressureIndependent(valve.PressureIndependentConfig{
			Stroke: stroke, Stem: stem, Curve: curve, MaxPressure: 500 * units.Kilopascal, ProportionalBand: 0.05,
			SettingKind: rapid.SampledFrom([]valve.SettingKind{valve.AreaLimiting, valve.LiftLimiting}).Draw(t, "setting"),
			Settings: []valve.Setting{
				{Mark: 1, Flow: 0.06 * units.LitrePerSecond, MinPressure: 14 * units.Kilopascal},
				{Mark: 2, Flow: 0.12 * units.LitrePerSecond, MinPressure: 20 * units.Kilopascal},
			},
		})
	} else {
		val, err = valve.NewTwoWay(valve.TwoWayConfig{Kvs: units.Kv, Stroke: stroke, Stem: stem, Curve: curve})
	}
	require.NoError(t, err)
	chain, err := hydronics.NewChain(act, val)
	require.NoError(t, err)
	if rapid.Bool().Draw(t, "in branch") {
		rest, err := hydronics.ResistanceAt(0.1*units.LitrePerSecond, units.Pressure(rapid.Float64Range(0, 50).Draw(t, "rest"))*units.Kilopascal)
		require.NoError(t, err)
		chain, err = chain.InBranch(rest)
		require.NoError(t, err)
	}
	return chain, dp
}

func TestSignalForUndoesFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chain, dp := drawChain(t)
		drive := chain.Drive()
		s := drive.Actuator().Config().Input.Encode(rapid.Float64Range(0, 1).Draw(t, "demand"))
		q := chain.Flow(s, dp)
		back, err := chain.SignalFor(q, dp)
		require.NoError(t, err)
		require.InEpsilon(t, float64(q), float64(chain.Flow(back, dp)), 1e-9)
	})
}

func TestFlowRisesWithOpeningAndPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chain, dp := drawChain(t)
		drive := chain.Drive()
		input := drive.Actuator().Config().Input
		low, high := 0.0, 1.0
		if !drive.Actuator().RisingOpens() {
			low, high = high, low
		}
		last := chain.Flow(input.Encode(low), dp)
		for i := 1; i <= 50; i++ {
			x := low + (high-low)*float64(i)/50
			q := chain.Flow(input.Encode(x), dp)
			require.GreaterOrEqual(t, float64(q), float64(last)*(1-1e-12))
			require.Greater(t, chain.Flow(input.Encode(x), dp*1.1), q)
			last = q
		}
	})
}

// What Respond returns agrees with itself and with Flow.
func TestRespondTellsEveryStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chain, dp := drawChain(t)
		drive := chain.Drive()
		s := drive.Actuator().Config().Input.Encode(rapid.Float64Range(0, 1).Draw(t, "demand"))
		r := chain.Respond(s, dp)
		require.Equal(t, drive.Respond(s), r.Position)
		require.Equal(t, chain.Flow(s, dp), r.Flow)
		want := r.Travel
		if drive.Actuator().Config().ClosingEnd == actuator.Extended {
			want = 1 - r.Travel
		}
		require.InDelta(t, want, r.Extension, 1e-15)
	})
}

func TestUnreachableFlowSaysWhatCanBeHad(t *testing.T) {
	chain := mustChain(t, actuator.Linear(), valve.Linear(50))
	for _, q := range []units.Flow{1.01 * units.CubicMetrePerHour, units.CubicMetrePerSecond, -1 * units.LitrePerHour} {
		_, err := chain.SignalFor(q, units.Bar)
		var unreachable *valve.UnreachableError
		require.True(t, errors.As(err, &unreachable), "%v: %v", q, err)
		assert.ErrorIs(t, err, valve.ErrUnreachable)
		assert.InEpsilon(t, 1, unreachable.Greatest.In(units.CubicMetrePerHour), 1e-12)
		assert.Zero(t, unreachable.Least, "it closes")
	}
	s, err := chain.SignalFor(0, units.Bar)
	require.NoError(t, err)
	assert.Equal(t, signal.Volts(0), s)
	_, err = chain.SignalFor(units.Flow(math.NaN()), units.Bar)
	assert.ErrorIs(t, err, units.ErrInvalid, "a controller must not fall back to the greatest flow")
	_, err = chain.SignalFor(units.LitrePerHour, units.Pressure(math.NaN()))
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestRegimeOfTheChain(t *testing.T) {
	y := newYardstick(t)
	for _, tt := range []struct {
		dp   units.Pressure
		want valve.Regime
	}{{40 * units.Kilopascal, valve.Regulated}, {8 * units.Kilopascal, valve.Starved}, {450 * units.Kilopascal, valve.AboveLimit}, {-1 * units.Kilopascal, valve.Reversed}} {
		r := y.independent.Respond(signal.Volts(10), tt.dp)
		assert.Equal(t, tt.want, y.independent.Regime(&r, tt.dp))
	}
	r := y.twoWay.Respond(signal.Volts(10), units.Bar)
	assert.Equal(t, valve.UnknownRegime, y.twoWay.Regime(&r, units.Bar))
	rest, err := hydronics.ResistanceAt(0.12*units.LitrePerSecond, 24*units.Kilopascal)
	require.NoError(t, err)
	branch, err := y.independent.InBranch(rest)
	require.NoError(t, err)
	r = branch.Respond(signal.Volts(10), 50*units.Kilopascal)
	assert.Equal(t, valve.Regulated, branch.Regime(&r, 50*units.Kilopascal))
	assert.Equal(t, valve.Starved, branch.Regime(&r, 40*units.Kilopascal), "the branch takes 24 kPa of it")
	assert.Equal(t, valve.UnknownRegime, branch.Regime(&hydronics.Response{Position: actuator.Position{Held: true}}, units.Bar))
}

// A drive set for a shorter stroke never opens the valve fully.
func TestShortStrokeLimitsTheFlow(t *testing.T) {
	act, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: 4 * units.Millimetre})
	require.NoError(t, err)
	val, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: units.Kv, Stroke: stroke, Curve: valve.Linear(math.Inf(1))})
	require.NoError(t, err)
	chain, err := hydronics.NewChain(act, val)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.8, chain.Flow(signal.Volts(10), units.Bar).In(units.CubicMetrePerHour), 1e-12)
	_, err = chain.SignalFor(0.9*units.CubicMetrePerHour, units.Bar)
	var unreachable *valve.UnreachableError
	require.True(t, errors.As(err, &unreachable))
	assert.InEpsilon(t, 0.8, unreachable.Greatest.In(units.CubicMetrePerHour), 1e-12)
}

func TestWithoutAValidSignal(t *testing.T) {
	act, err := actuator.New(actuator.Config{
		Input: signal.Range4To20mA(), Action: actuator.Reverse, Stroke: stroke,
		OpenWire: actuator.HoldOnOpenWire, BelowLiveZero: actuator.ToRetracted,
	})
	require.NoError(t, err)
	val, err := valve.NewTwoWay(valve.TwoWayConfig{Kvs: units.Kv, Stroke: stroke, Curve: valve.Linear(50)})
	require.NoError(t, err)
	chain, err := hydronics.NewChain(act, val)
	require.NoError(t, err)

	held := chain.Respond(signal.Signal{}, units.Bar)
	assert.True(t, held.Held)
	assert.Equal(t, signal.NoSignal, held.Status)
	assert.True(t, math.IsNaN(float64(held.Flow)) && math.IsNaN(held.Coefficient))
	assert.True(t, math.IsNaN(float64(chain.Flow(signal.Signal{}, units.Bar))))

	failed := chain.Respond(signal.Milliamps(3.2), units.Bar)
	assert.Equal(t, signal.Failed, failed.Status)
	assert.Equal(t, 1.0, failed.Travel, "a push-to-close valve is open with the stem in")
	assert.Equal(t, failed.Flow, chain.Flow(signal.Milliamps(3.2), units.Bar))
}

func TestNewChainRefusesPairsThatCannotFit(t *testing.T) {
	linear := actuator.Config{Input: signal.Range0To10V(), Stroke: stroke}
	rotary := actuator.Config{Input: signal.Range0To10V(), Angle: 90 * units.Degree}
	plain := valve.TwoWayConfig{Kvs: units.Kv, Stroke: stroke, Curve: valve.Linear(50)}
	ball := valve.TwoWayConfig{Kvs: units.Kv, Stem: valve.Rotary, Angle: 90 * units.Degree, Curve: valve.Linear(50)}
	with := func(cfg actuator.Config, change func(*actuator.Config)) actuator.Config { change(&cfg); return cfg }
	withValve := func(cfg valve.TwoWayConfig, change func(*valve.TwoWayConfig)) valve.TwoWayConfig {
		change(&cfg)
		return cfg
	}
	for name, tt := range map[string]struct {
		act   actuator.Config
		val   valve.TwoWayConfig
		wants string
	}{
		"linear drive on a rotary valve": {linear, ball, "Angle"},
		"rotary drive on a linear valve": {rotary, plain, "Stroke"},
		"closing end":                    {linear, withValve(plain, func(c *valve.TwoWayConfig) { c.Stem = valve.PushToOpen }), "ClosingEnd"},
		"stroke far too short":           {with(linear, func(c *actuator.Config) { c.Stroke = 2 * units.Millimetre }), plain, "Stroke"},
		"stroke far too long":            {with(linear, func(c *actuator.Config) { c.Stroke = 11 * units.Millimetre }), plain, "Stroke"},
		"force below the valve's spring": {with(linear, func(c *actuator.Config) { c.Force = 30 * units.Newton }),
			withValve(plain, func(c *valve.TwoWayConfig) { c.SpringForce = 40 * units.Newton }), "Force"},
	} {
		t.Run(name, func(t *testing.T) {
			act, err := actuator.New(tt.act)
			require.NoError(t, err)
			val, err := valve.NewTwoWay(tt.val)
			require.NoError(t, err)
			_, err = hydronics.NewChain(act, val)
			require.ErrorIs(t, err, units.ErrInvalid)
			assert.ErrorContains(t, err, tt.wants)
		})
	}
	act, err := actuator.New(linear)
	require.NoError(t, err)
	for _, val := range []valve.Valve{nil, valve.TwoWay{}, valve.PressureIndependent{}} {
		_, err := hydronics.NewChain(act, val)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
	_, err = hydronics.NewChain(actuator.Actuator{}, mustTwoWay(t, plain))
	assert.ErrorContains(t, err, "the zero Actuator")
}

func mustTwoWay(t *testing.T, cfg valve.TwoWayConfig) valve.TwoWay {
	v, err := valve.NewTwoWay(cfg)
	require.NoError(t, err)
	return v
}

func TestZeroChainIsHarmless(t *testing.T) {
	var chain hydronics.Chain
	assert.True(t, math.IsNaN(float64(chain.Flow(signal.Volts(5), units.Bar))))
	_, err := chain.SignalFor(units.LitrePerSecond, units.Bar)
	assert.Error(t, err)
	_, err = chain.InBranch(hydronics.Resistance(math.NaN()))
	assert.ErrorIs(t, err, units.ErrInvalid)
}

// Lift-limiting settings: a self-adapting drive works on the foot of the curve, so
// that equal percentage of ratio R becomes that of ratio R^h.
func TestLiftLimitedChain(t *testing.T) {
	val, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Stroke: stroke, Curve: valve.EqualPercentage(50), SettingKind: valve.LiftLimiting, ClosingTravel: 0.001,
		Settings: []valve.Setting{
			{Mark: 1, Flow: 0.03 * units.LitrePerSecond, MinPressure: 14 * units.Kilopascal},
			{Mark: 2, Flow: 0.12 * units.LitrePerSecond, MinPressure: 20 * units.Kilopascal},
		},
	})
	require.NoError(t, err)
	val, err = val.WithFlow(0.06 * units.LitrePerSecond)
	require.NoError(t, err)
	act, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: stroke, StrokeMode: actuator.SelfAdapting})
	require.NoError(t, err)
	chain, err := hydronics.NewChain(act, val)
	require.NoError(t, err)
	usable := 1 - math.Ln2/math.Log(50) // where R^(h−1) is one half
	r := chain.Respond(signal.Volts(5), 100*units.Kilopascal)
	assert.InEpsilon(t, usable/2, r.Travel, 1e-9)
	assert.Less(t, reference.RelDiff(r.Coefficient, math.Pow(math.Pow(50, usable), -0.5)), 1e-9)
}
