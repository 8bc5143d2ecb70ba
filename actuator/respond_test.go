package actuator_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Written by hand from the meaning of the words: at 2.5 V of 0–10 V a direct drive
// has the stem a quarter out, a reverse one three quarters; a push-to-close valve
// is open as far as the stem is in.
func TestActionAndClosingEnd(t *testing.T) {
	tests := []struct {
		action             actuator.Action
		closing            actuator.End
		risingOpens        bool
		opening, extension float64
	}{
		{actuator.Direct, actuator.Extended, false, 0.75, 0.25},
		{actuator.Direct, actuator.Retracted, true, 0.25, 0.25},
		{actuator.Reverse, actuator.Extended, true, 0.25, 0.75},
		{actuator.Reverse, actuator.Retracted, false, 0.75, 0.75},
	}
	for _, tt := range tests {
		m := mounted(t, func(c *actuator.Config) { c.Action, c.ClosingEnd = tt.action, tt.closing })
		p := m.Respond(signal.Volts(2.5))
		assert.Equal(t, actuator.Position{Status: signal.InRange, Demand: 0.25, Opening: tt.opening, Shaped: tt.opening,
			Travel: tt.opening, Extension: tt.extension}, p)
		assert.InDelta(t, 5*tt.extension, m.Stem(p).In(units.Millimetre), 1e-12)
		assert.Equal(t, tt.risingOpens, m.Actuator().RisingOpens())

		s, ok := m.SignalForStem(units.Length(5*tt.extension) * units.Millimetre)
		assert.True(t, ok)
		assert.InDelta(t, 2.5, s.Number(), 1e-12)
	}
}

func TestRotaryTurns(t *testing.T) {
	a, err := actuator.New(actuator.Config{Input: signal.Range4To20mA(), Angle: 90 * units.Degree, ClosingEnd: actuator.Extended,
		Action: actuator.Reverse})
	require.NoError(t, err)
	require.True(t, a.Rotary())
	m, err := a.MountOnRotary(90 * units.Degree)
	require.NoError(t, err)
	p := m.Respond(signal.Milliamps(8))
	assert.InDelta(t, 0.25, p.Travel, 1e-15)
	assert.InDelta(t, 67.5, m.Turn(p).In(units.Degree), 1e-12)
	assert.Zero(t, m.Stem(p))
	assert.Zero(t, m.Stroke())
	assert.InDelta(t, 90, m.Angle().In(units.Degree), 1e-12)
	s, ok := m.SignalForTurn(67.5 * units.Degree)
	assert.True(t, ok)
	assert.InDelta(t, 8, s.Number(), 1e-12)
	_, ok = m.SignalForStem(2 * units.Millimetre)
	assert.False(t, ok)
}

// In the order of the maths the shaping works on the opening demand, so the same
// opening demand gives the same travel whatever the action and the closing end.
func TestShapingIsCountedFromTheClosedEnd(t *testing.T) {
	shaping := actuator.ZeroBasedEqualPercentage(50)
	for _, action := range []actuator.Action{actuator.Direct, actuator.Reverse} {
		for _, closing := range []actuator.End{actuator.Extended, actuator.Retracted} {
			m := mounted(t, func(c *actuator.Config) { c.Action, c.ClosingEnd, c.Shaping = action, closing, shaping })
			for _, check := range []struct{ opening, travel float64 }{{0.25, 0.033860}, {0.5, 0.123899}, {0.75, 0.363327}} {
				volts := 10 * check.opening
				if !m.Actuator().RisingOpens() {
					volts = 10 - volts
				}
				p := m.Respond(signal.Volts(volts))
				assert.InDelta(t, check.travel, p.Travel, 5e-7, "%v %v", action, closing)
				assert.Equal(t, p.Shaped, p.Travel)
			}
		}
	}
}

func TestRespondOutOfRange(t *testing.T) {
	with := func(input signal.Range, o actuator.OpenWire, b actuator.BelowLiveZero) actuator.Mounted {
		return mounted(t, func(c *actuator.Config) {
			c.Input, c.OpenWire, c.BelowLiveZero, c.ClosingEnd = input, o, b, actuator.Retracted
		})
	}
	const held = -1
	tests := []struct {
		name   string
		m      actuator.Mounted
		s      signal.Signal
		status signal.Status
		travel float64
	}{
		{"a little low", with(signal.Range4To20mA(), 0, 0), signal.Milliamps(3.9), signal.InRange, 0},
		{"low", with(signal.Range4To20mA(), 0, actuator.ToExtended), signal.Milliamps(3.7), signal.UnderRange, 0},
		{"high", with(signal.Range4To20mA(), 0, actuator.ToRetracted), signal.Milliamps(20.8), signal.OverRange, 1},
		{"failed low, as lowest", with(signal.Range4To20mA(), 0, 0), signal.Milliamps(3.2), signal.Failed, 0},
		{"failed low, as lowest of an inverse range", with(signal.Range4To20mA().Inverse(), 0, 0), signal.Milliamps(3.2), signal.Failed, 1},
		{"failed low, to extended", with(signal.Range4To20mA(), 0, actuator.ToExtended), signal.Milliamps(0), signal.Failed, 1},
		{"failed low, to retracted", with(signal.Range4To20mA(), 0, actuator.ToRetracted), signal.Milliamps(0), signal.Failed, 0},
		{"failed low, holds", with(signal.Range4To20mA(), 0, actuator.HoldBelowLiveZero), signal.Milliamps(0), signal.Failed, held},
		{"failed high saturates", with(signal.Range4To20mA(), 0, actuator.ToRetracted), signal.Milliamps(23), signal.Failed, 1},
		{"reversed pair without live zero", with(signal.Range0To10V(), 0, actuator.ToExtended), signal.Volts(-5), signal.Failed, 0},
		{"open wire, zero", with(signal.Range0To10V(), actuator.AsZeroSignal, actuator.ToExtended), signal.Signal{}, signal.NoSignal, 0},
		{"open wire, zero on inverse", with(signal.Range0To10V().Inverse(), actuator.AsZeroSignal, 0), signal.Signal{}, signal.NoSignal, 1},
		{"open wire, zero on live zero", with(signal.Range2To10V(), actuator.AsZeroSignal, actuator.ToExtended), signal.Signal{}, signal.NoSignal, 1},
		{"open wire, zero of an upper half", with(signal.Range5To10V(), actuator.AsZeroSignal, actuator.ToExtended), signal.Signal{}, signal.NoSignal, 0},
		{"open wire, full", with(signal.Range2To10V(), actuator.AsFullSignal, 0), signal.Signal{}, signal.NoSignal, 1},
		{"open wire, holds", with(signal.Range2To10V(), actuator.HoldOnOpenWire, 0), signal.Signal{}, signal.NoSignal, held},
		{"wrong kind", with(signal.Range0To10V(), actuator.AsFullSignal, 0), signal.Milliamps(12), signal.WrongKind, 1},
		{"not a number", with(signal.Range0To10V(), actuator.AsFullSignal, 0), signal.Volts(math.NaN()), signal.Failed, 1},
		{"infinite", with(signal.Range0To10V(), 0, 0), signal.Volts(math.Inf(1)), signal.Failed, 1},
		{"minus infinite", with(signal.Range4To20mA(), 0, actuator.ToExtended), signal.Milliamps(math.Inf(-1)), signal.Failed, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := tt.m.Respond(tt.s)
			h, ok := tt.m.Travel(tt.s)
			assert.Equal(t, tt.status, p.Status)
			assert.Equal(t, !p.Held, ok)
			assert.Equal(t, p.Travel, h)
			if tt.travel == held {
				assert.Equal(t, actuator.Position{Status: tt.status, Held: true}, p)
				return
			}
			assert.Equal(t, tt.travel, p.Travel)
			assert.Equal(t, tt.travel, p.Extension)
			assert.False(t, p.Held)
		})
	}
}

// mounts draws a drive on a valve that need not match it.
func mounts(t *rapid.T) actuator.Mounted {
	a, err := actuator.New(configs(t))
	if err != nil {
		t.Fatal(err)
	}
	share := rapid.OneOf(rapid.Just(1.0), rapid.Float64Range(0.2, 5)).Draw(t, "valve's stroke over the drive's")
	var m actuator.Mounted
	if a.Rotary() {
		m, err = a.MountOnRotary(units.Angle(share) * a.Config().Angle)
	} else {
		m, err = a.MountOn(units.Length(share) * a.Config().Stroke)
	}
	if err == nil && rapid.Bool().Draw(t, "obstructed") {
		m, err = m.Obstructed(rapid.Float64Range(0, 0.4).Draw(t, "least"), rapid.Float64Range(0.6, 1).Draw(t, "greatest"))
	}
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestSignalForUndoesRespond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := mounts(t)
		wanted := rapid.Float64Range(-0.1, 1.1).Draw(t, "travel")
		s, ok := m.SignalFor(wanted)
		if reachable := wanted >= m.LeastTravel()-1e-12 && wanted <= m.GreatestTravel()+1e-12; ok != reachable {
			t.Fatalf("ok %v, but the drive reaches %v … %v", ok, m.LeastTravel(), m.GreatestTravel())
		}
		p := m.Respond(s)
		nearest := max(m.LeastTravel(), min(wanted, m.GreatestTravel()))
		if math.Abs(p.Travel-nearest) > 1e-12 || p.Status != signal.InRange {
			t.Fatalf("travel %v by %v, want %v", p.Travel, s, nearest)
		}
		byStem, ok := m.SignalForStem(m.Stem(p))
		if m.Actuator().Rotary() {
			byStem, ok = m.SignalForTurn(m.Turn(p))
		}
		if back := m.Respond(byStem).Travel; !ok || math.Abs(back-p.Travel) > 2e-12 {
			t.Fatalf("travel %v by its stem → %v → %v", p.Travel, byStem, back)
		}
		again, ok := m.SignalFor(p.Travel)
		if back := m.Respond(again).Travel; !ok || math.Abs(back-p.Travel) > 1e-12 {
			t.Fatalf("travel %v → %v → %v", p.Travel, again, back)
		}
	})
}

func TestTravelIsMonotoneInTheSignal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := mounts(t)
		input := m.Actuator().Config().Input
		x, y := rapid.Float64Range(0, 1).Draw(t, "x"), rapid.Float64Range(0, 1).Draw(t, "y")
		x, y = min(x, y), max(x, y)
		p, q := m.Respond(input.Encode(x)), m.Respond(input.Encode(y))
		rise := q.Travel - p.Travel
		if !m.Actuator().RisingOpens() {
			rise = -rise
		}
		if rise < 0 {
			t.Fatalf("travel goes the wrong way: %+v, %+v", p, q)
		}
		if h, ok := m.Travel(input.Encode(x)); !ok || h != p.Travel {
			t.Fatal("Travel and Respond differ")
		}
		if p.Extension < 0 || p.Extension > 1 || p.Travel < 0 || p.Travel > 1 {
			t.Fatalf("outside 0 … 1: %+v", p)
		}
	})
}

func TestEndsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, err := actuator.New(configs(t))
		if err != nil {
			t.Fatal(err)
		}
		m, err := mountOnOwn(a)
		if err != nil {
			t.Fatal(err)
		}
		input := a.Config().Input
		none, full := m.Respond(input.Encode(0)), m.Respond(input.Encode(1))
		if !a.RisingOpens() {
			none, full = full, none
		}
		closed := 0.0
		if a.Config().ClosingEnd == actuator.Extended {
			closed = 1
		}
		if none.Travel != 0 || full.Travel != 1 || none.Extension != closed || full.Extension != 1-closed {
			t.Fatalf("%+v, %+v", none, full)
		}
	})
}

func mountOnOwn(a actuator.Actuator) (actuator.Mounted, error) {
	if a.Rotary() {
		return a.MountOnRotary(a.Config().Angle)
	}
	return a.MountOn(a.Config().Stroke)
}

// The demand of a Position is that of the range, which the drive decodes on its
// own for speed.
func TestDemandIsThatOfTheRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := mounts(t)
		input := m.Actuator().Config().Input
		s := signal.Volts(rapid.Float64Range(-1, 22).Draw(t, "number"))
		if input.Kind() == signal.KindCurrent {
			s = signal.Milliamps(s.Number())
		}
		r, p := input.Read(s), m.Respond(s)
		if r.Status != p.Status || r.Status.Valid() && math.Abs(r.Demand-p.Demand) > 1e-15 {
			t.Fatalf("%+v, but the range reads %+v", p, r)
		}
	})
}

func TestBadTravel(t *testing.T) {
	m := mounted(t, nil)
	s, ok := m.SignalFor(math.NaN())
	assert.False(t, ok)
	assert.True(t, s.IsZero())
	s, ok = m.SignalFor(1.5)
	assert.False(t, ok)
	assert.Equal(t, signal.Volts(0), s)
	_, ok = m.SignalForTurn(45 * units.Degree)
	assert.False(t, ok)
}

func TestZeroMountedStaysStill(t *testing.T) {
	var m actuator.Mounted
	assert.Equal(t, actuator.Position{Status: signal.WrongKind}, m.Respond(signal.Volts(5)))
	_, ok := m.SignalFor(0.5)
	assert.False(t, ok)
	_, ok = m.SignalForStem(units.Millimetre)
	assert.False(t, ok)
	_, ok = m.FeedbackFor(0.5)
	assert.False(t, ok)
	_, ok = m.RunningTime(0, 1)
	assert.False(t, ok)
	_, ok = m.CalibrationTime(0)
	assert.False(t, ok)
	assert.Zero(t, m.GreatestTravel())
	assert.Zero(t, m.Stem(actuator.Position{Extension: 1}))
	assert.Equal(t, actuator.Mismatch{}, m.Mismatch())
	h, _ := m.TravelFromFeedback(signal.Volts(5))
	assert.Zero(t, h)
	_, err := m.Obstructed(0, 1)
	assert.ErrorIs(t, err, units.ErrInvalid)
	assert.True(t, m.Equal(actuator.Mounted{}))
}

func TestPathAllocatesNothing(t *testing.T) {
	m := mounted(t, func(c *actuator.Config) {
		c.Shaping, c.Feedback = actuator.ZeroBasedEqualPercentage(50), signal.Range0To10V()
	})
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		p := m.Respond(signal.Volts(6.2))
		h, _ := m.Travel(signal.Volts(3))
		m.Respond(signal.Signal{})
		s, _ := m.SignalFor(h)
		f, _ := m.FeedbackFor(p.Travel)
		m.TravelFromFeedback(f)
		m.Respond(s)
		m.Mismatch()
		m.RunningTime(0, 1)
	}))
}
