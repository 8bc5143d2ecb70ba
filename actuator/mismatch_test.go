package actuator_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// onStroke mounts a drive with a stroke of own on a valve of another, both in mm.
func onStroke(t *testing.T, own, valves float64, change func(*actuator.Config)) actuator.Mounted {
	t.Helper()
	cfg := actuator.Config{Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: units.Length(own) * units.Millimetre}
	if change != nil {
		change(&cfg)
	}
	a, err := actuator.New(cfg)
	require.NoError(t, err)
	m, err := a.MountOn(units.Length(valves) * units.Millimetre)
	require.NoError(t, err)
	return m
}

func closesOnRise(c *actuator.Config)    { c.Action = actuator.Direct }
func selfAdapting(c *actuator.Config)    { c.StrokeMode = actuator.SelfAdapting }
func equalPercentage(c *actuator.Config) { c.Shaping = actuator.ZeroBasedEqualPercentage(50) }

func TestStrokeSetTooShort(t *testing.T) {
	m := onStroke(t, 4, 5, nil)
	got := m.Mismatch()
	assert.InDelta(t, 0.8, got.StrokeRatio, 1e-15)
	assert.InDelta(t, 0.8, got.GreatestTravel, 1e-15)
	assert.Zero(t, got.IdleTo)
	assert.Zero(t, got.ResolutionLost)
	assert.Zero(t, got.FoundTravel)
	full := m.Respond(signal.Volts(10))
	assert.InDelta(t, 0.8, full.Travel, 1e-15)
	assert.InDelta(t, 1, m.Stem(full).In(units.Millimetre), 1e-12, "1 mm of 5 mm still out")
	assert.Zero(t, m.Respond(signal.Volts(0)).Travel, "it counts from the closed end")

	s, ok := m.SignalFor(0.9)
	assert.False(t, ok)
	assert.Equal(t, signal.Volts(10), s, "the signal that comes nearest")
}

// The set stroke of 6.25 mm on a valve of 5 mm moves nothing where the opening
// demand exceeds 0.8: 8–10 V if a rising signal opens, 0–2 V if it closes.
func TestStrokeSetTooLong(t *testing.T) {
	opens, closes := onStroke(t, 6.25, 5, nil), onStroke(t, 6.25, 5, closesOnRise)
	got := opens.Mismatch()
	assert.InDelta(t, 1.25, got.StrokeRatio, 1e-15)
	assert.Equal(t, 1.0, got.GreatestTravel)
	assert.InDelta(t, 0.8, got.IdleFrom, 1e-15)
	assert.InDelta(t, 1, got.IdleTo, 1e-15)
	assert.InDelta(t, 0.2, got.ResolutionLost, 1e-15)
	got = closes.Mismatch()
	assert.Zero(t, got.IdleFrom)
	assert.InDelta(t, 0.2, got.IdleTo, 1e-15)

	for volts, travel := range map[float64]float64{0: 0, 4: 0.5, 7.9: 0.9875, 8.1: 1, 10: 1} {
		assert.InDelta(t, travel, opens.Respond(signal.Volts(volts)).Travel, 1e-12, "%v V", volts)
		assert.InDelta(t, travel, closes.Respond(signal.Volts(10-volts)).Travel, 1e-12, "%v V", 10-volts)
	}
	s, ok := opens.SignalFor(1)
	assert.True(t, ok)
	assert.InDelta(t, 8, s.Number(), 1e-12, "where the stem begins to move")
	s, _ = closes.SignalFor(1)
	assert.InDelta(t, 2, s.Number(), 1e-12)
}

// With equal percentage the idle part is shorter: s_v/s_a = 0.8 is reached at
// ln(1 + 0.8·49)/ln 50.
func TestIdlePartUnderShaping(t *testing.T) {
	m := onStroke(t, 6.25, 5, equalPercentage)
	want := math.Log(1+0.8*49) / math.Log(50)
	assert.InDelta(t, want, m.Mismatch().IdleFrom, 1e-12)
	assert.InDelta(t, 0.9442, want, 5e-5)
}

func TestSelfAdapting(t *testing.T) {
	m := onStroke(t, 8, 5, selfAdapting)
	got := m.Mismatch()
	assert.InDelta(t, 1.6, got.StrokeRatio, 1e-15)
	assert.InDelta(t, 5, got.FoundTravel.In(units.Millimetre), 1e-12)
	assert.InDelta(t, 0.375, got.ResolutionLost, 1e-15, "3 mm of 8 mm unused")
	assert.Zero(t, got.IdleTo)
	for volts, travel := range map[float64]float64{0: 0, 5: 0.5, 10: 1} {
		assert.Equal(t, travel, m.Respond(signal.Volts(volts)).Travel)
	}

	short := onStroke(t, 4, 5, selfAdapting)
	assert.InDelta(t, 4, short.Mismatch().FoundTravel.In(units.Millimetre), 1e-12, "all it can make")
	assert.InDelta(t, 0.8, short.GreatestTravel(), 1e-15)
}

// A plug that is stuck at 60 % looks like a valve of 3 mm to a self-adapting drive:
// everything but the found travel is as it should be. A fixed drive idles instead.
func TestBlockedPlugHides(t *testing.T) {
	m, err := onStroke(t, 8, 5, selfAdapting).Obstructed(0, 0.6)
	require.NoError(t, err)
	got := m.Mismatch()
	assert.InDelta(t, 3, got.FoundTravel.In(units.Millimetre), 1e-12)
	assert.InDelta(t, 0.6, got.GreatestTravel, 1e-15)
	assert.Zero(t, got.IdleTo)
	assert.InDelta(t, 0.3, m.Respond(signal.Volts(5)).Travel, 1e-15)

	fixed, err := onStroke(t, 5, 5, nil).Obstructed(0, 0.6)
	require.NoError(t, err)
	assert.InDelta(t, 0.5, fixed.Respond(signal.Volts(5)).Travel, 1e-15)
	assert.InDelta(t, 0.6, fixed.Mismatch().IdleFrom, 1e-15)
}

// Dirt on the seat: the closed stop is found at 20 %, and both kinds of drive take
// it for closed.
func TestDirtOnTheSeat(t *testing.T) {
	for name, change := range map[string]func(*actuator.Config){"fixed": nil, "self-adapting": selfAdapting} {
		m, err := onStroke(t, 5, 5, change).Obstructed(0.2, 1)
		require.NoError(t, err)
		assert.InDelta(t, 0.2, m.Respond(signal.Volts(0)).Travel, 1e-15, name)
		assert.InDelta(t, 1, m.Respond(signal.Volts(10)).Travel, 1e-15, name)
		_, ok := m.SignalFor(0.1)
		assert.False(t, ok, name)
	}
}

func TestObstructedFaults(t *testing.T) {
	m := onStroke(t, 5, 5, nil)
	for _, bad := range [][2]float64{{-0.1, 1}, {0, 1.1}, {0.5, 0.5}, {0.6, 0.4}, {math.NaN(), 1}, {0, math.NaN()}} {
		_, err := m.Obstructed(bad[0], bad[1])
		assert.ErrorIs(t, err, units.ErrInvalid, "%v", bad)
	}
}

func TestMountFaults(t *testing.T) {
	linear, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre})
	require.NoError(t, err)
	rotary, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Angle: 90 * units.Degree})
	require.NoError(t, err)
	for _, x := range []float64{0, -1, 0.09, 11, math.NaN(), math.Inf(1)} {
		_, err := linear.MountOn(units.Length(x) * 5 * units.Millimetre)
		assert.ErrorIs(t, err, units.ErrInvalid, "%v of the stroke", x)
		_, err = rotary.MountOnRotary(units.Angle(x) * 90 * units.Degree)
		assert.ErrorIs(t, err, units.ErrInvalid, "%v of the angle", x)
	}
	_, err = linear.MountOnRotary(90 * units.Degree)
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = rotary.MountOn(5 * units.Millimetre)
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = actuator.Actuator{}.MountOn(5 * units.Millimetre)
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestMountedEqual(t *testing.T) {
	a, b := onStroke(t, 5, 5, nil), onStroke(t, 5, 5, nil)
	assert.True(t, cmp.Equal(a, b))
	assert.False(t, cmp.Equal(a, onStroke(t, 5, 4, nil)))
	assert.False(t, cmp.Equal(a, onStroke(t, 5, 5, selfAdapting)))
	c, err := b.Obstructed(0, 0.5)
	require.NoError(t, err)
	assert.False(t, cmp.Equal(a, c))
}

func TestRotaryMismatch(t *testing.T) {
	a, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Angle: 95 * units.Degree, StrokeMode: actuator.SelfAdapting})
	require.NoError(t, err)
	m, err := a.MountOnRotary(90 * units.Degree)
	require.NoError(t, err)
	got := m.Mismatch()
	assert.InDelta(t, 90, got.FoundAngle.In(units.Degree), 1e-9)
	assert.Zero(t, got.FoundTravel)
	assert.InDelta(t, 5.0/95, got.ResolutionLost, 1e-12)
}
