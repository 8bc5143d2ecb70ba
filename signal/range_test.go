package signal_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func TestNamedRanges(t *testing.T) {
	for _, tt := range named {
		r := tt.r
		assert.Equal(t, tt.at0, r.Low(), tt.text)
		assert.Equal(t, tt.at1, r.High(), tt.text)
		assert.Equal(t, of(r, tt.at1.Number()-tt.at0.Number()), r.Span(), tt.text)
		assert.Equal(t, tt.live, r.LiveZero(), tt.text)
		assert.Equal(t, tt.live, r.Read(of(r, 0)).Status == signal.Failed, "%s: a live zero makes 0 a failure", tt.text)
		assert.False(t, r.IsInverse(), tt.text)
		assert.True(t, r.Inverse().IsInverse(), tt.text)
		assert.Equal(t, r.LiveZero(), r.Inverse().LiveZero(), tt.text)
		assert.Equal(t, r, mustRange(tt.at0, tt.at1), "%s: NewRange gives the named range", tt.text)
		assert.Equal(t, r.Inverse(), mustRange(tt.at1, tt.at0), tt.text)
		assert.Equal(t, tt.at0, r.Inverse().Low(), "%s: Low and High do not depend on the direction", tt.text)
	}
}

func TestEndsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRange(t)
		at0, at1 := r.Low(), r.High()
		if r.IsInverse() {
			at0, at1 = at1, at0
		}
		require.Equal(t, at0, r.Encode(0))
		require.Equal(t, at1, r.Encode(1))
		require.Equal(t, at0, r.Encode(-3))
		require.Equal(t, at1, r.Encode(math.Inf(1)))
		require.Equal(t, signal.Reading{Demand: 0, Status: signal.InRange}, r.Read(at0))
		require.Equal(t, signal.Reading{Demand: 1, Status: signal.InRange}, r.Read(at1))
	})
}

func TestReadUndoesEncode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRange(t)
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		got := r.Read(r.Encode(x))
		require.Equal(t, signal.InRange, got.Status)
		require.InDelta(t, x, got.Demand, 1e-12)
	})
}

func TestEncodeIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRange(t)
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		y := rapid.Float64Range(x, 1).Draw(t, "y")
		a, b := r.Encode(x).Number(), r.Encode(y).Number()
		if r.IsInverse() {
			a, b = b, a
		}
		require.LessOrEqual(t, a, b)
	})
}

func TestEncodeOfNaN(t *testing.T) {
	s := signal.Range0To10V().Encode(math.NaN())
	assert.True(t, math.IsNaN(s.Number()))
	assert.Equal(t, signal.Reading{Demand: 0, Status: signal.Failed}, signal.Range0To10V().Read(s))
}

func TestZeroRange(t *testing.T) {
	var r signal.Range
	assert.True(t, r.IsZero())
	assert.Equal(t, r, r.Inverse())
	assert.False(t, r.LiveZero())
	for _, x := range []float64{-1, 0, 0.5, 1, math.NaN()} {
		assert.Equal(t, signal.Signal{}, r.Encode(x))
	}
}

func TestNewRangeRefuses(t *testing.T) {
	v, ma := signal.Volts, signal.Milliamps
	for _, tt := range []struct {
		at0, at1 signal.Signal
		field    string
	}{
		{v(0), signal.Signal{}, "Range.At1"},
		{signal.Signal{}, v(10), "Range.At0"},
		{v(-1), v(10), "Range.At0"},
		{v(0), v(101), "Range.At1"},
		{v(math.NaN()), v(10), "Range.At0"},
		{v(0), ma(math.Inf(1)), "Range.At1"},
		{v(0), ma(20), "Range"},
		{v(5), v(5), "Range"},
		{v(5), v(5.05), "Range"},
	} {
		r, err := signal.NewRange(tt.at0, tt.at1)
		require.ErrorIs(t, err, units.ErrInvalid)
		var field *units.FieldError
		require.ErrorAs(t, err, &field)
		assert.Equal(t, tt.field, field.Field)
		assert.True(t, r.IsZero())
	}
	_, err := signal.NewRange(v(-1), signal.Signal{})
	assert.ErrorContains(t, err, "At0")
	assert.ErrorContains(t, err, "At1", "both faults are reported")
}

func TestLiveZeroOfCustomRanges(t *testing.T) {
	assert.True(t, mustRange(signal.Volts(3), signal.Volts(9)).LiveZero(), "a source that sends 3-9 V never sends 0 V")
	assert.False(t, mustRange(signal.Volts(0.1), signal.Volts(10)).LiveZero(), "too near to zero to tell a broken wire")
	assert.Equal(t, signal.Failed, mustRange(signal.Volts(3), signal.Volts(9)).Read(signal.Volts(0)).Status)
}

func TestWithin(t *testing.T) {
	upper := must(signal.MustParseRange("6-9 V").Within(signal.Range0To10V()))
	assert.False(t, upper.LiveZero())
	for x, want := range map[float64]signal.Reading{
		0:    {Demand: 0, Status: signal.InRange},
		7.5:  {Demand: 0.5, Status: signal.InRange},
		9.8:  {Demand: 1, Status: signal.InRange},
		11:   {Demand: 1, Status: signal.OverRange},
		-0.5: {Demand: 0, Status: signal.UnderRange},
		24:   {Demand: 1, Status: signal.Failed},
	} {
		assert.Equal(t, want, upper.Read(signal.Volts(x)), "%g V", x)
	}
	onLive := must(signal.MustParseRange("12-20 mA").Within(signal.Range4To20mA()))
	assert.True(t, onLive.LiveZero())
	assert.Equal(t, signal.Reading{Demand: 0, Status: signal.Failed}, onLive.Read(signal.Milliamps(3.6)))
	assert.Equal(t, signal.Reading{Demand: 0, Status: signal.InRange}, onLive.Read(signal.Milliamps(4)))
	same := must(signal.Range5To10V().Within(signal.Range0To10V()))
	assert.Equal(t, signal.Range5To10V(), same, "5-10 V is a window on 0-10 V already")
}

func TestWithinRefuses(t *testing.T) {
	for _, tt := range []struct{ window, wide signal.Range }{
		{signal.Range0To10V(), signal.Range2To10V()},
		{signal.Range0To10V(), signal.Range0To5V()},
		{signal.Range4To20mA(), signal.Range0To10V()},
		{signal.Range{}, signal.Range0To10V()},
		{signal.Range0To10V(), signal.Range{}},
		{signal.Range{}, signal.Range{}},
	} {
		_, err := tt.window.Within(tt.wide)
		assert.ErrorIs(t, err, units.ErrInvalid, "%v within %v", tt.window, tt.wide)
	}
}

func TestRangeEqualServesCmp(t *testing.T) {
	assert.Empty(t, cmp.Diff(signal.Range0To10V(), mustRange(signal.Volts(0), signal.Volts(10))))
	assert.NotEmpty(t, cmp.Diff(signal.Range0To10V(), signal.Range0To10V().Inverse()))
}
