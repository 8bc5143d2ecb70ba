package signal_test

import (
	"math"
	"testing"
	"unsafe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
)

// The limits in the package comment. The first row is NAMUR NE 43; the others are
// the library's own rule, so that this test holds the documentation to the code.
func TestLimits(t *testing.T) {
	for _, tt := range []struct {
		r                                                signal.Range
		failedLow, measuredLow, measuredHigh, failedHigh float64
	}{
		{signal.Range4To20mA(), 3.6, 3.8, 20.5, 21},
		{signal.Range2To10V(), 1.8, 1.9, 10.25, 10.5},
		{signal.Range1To5V(), 0.9, 0.95, 5.125, 5.25},
		{signal.Range0To20mA(), -2, -0.25, 20.625, 24},
		{signal.Range0To10V(), -1, -0.125, 10.3125, 12},
		{signal.Range5To10V(), -1, -0.125, 10.3125, 12},
		{signal.Range0To5V(), -0.5, -0.0625, 5.15625, 6},
	} {
		for _, r := range []signal.Range{tt.r, tt.r.Inverse()} {
			const more = 1e-9
			status := func(x float64) signal.Status { return r.Read(of(r, x)).Status }
			assert.Equal(t, signal.Failed, status(tt.failedLow), "%v at its lower failure limit", r)
			assert.Equal(t, signal.UnderRange, status(tt.failedLow+more), "%v just above it", r)
			assert.Equal(t, signal.UnderRange, status(tt.measuredLow-more), "%v just below its measured band", r)
			assert.Equal(t, signal.InRange, status(tt.measuredLow), "%v at its lower measured limit", r)
			assert.Equal(t, signal.InRange, status(tt.measuredHigh), "%v at its upper measured limit", r)
			assert.Equal(t, signal.OverRange, status(tt.measuredHigh+more), "%v just above its measured band", r)
			assert.Equal(t, signal.OverRange, status(tt.failedHigh-more), "%v just below its failure limit", r)
			assert.Equal(t, signal.Failed, status(tt.failedHigh), "%v at its upper failure limit", r)
		}
	}
}

func TestRead(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, tt := range []struct {
		r    signal.Range
		s    signal.Signal
		want signal.Reading
	}{
		{signal.Range4To20mA(), signal.Milliamps(12), signal.Reading{Demand: 0.5, Status: signal.InRange}},
		{signal.Range4To20mA(), signal.Milliamps(3.2), signal.Reading{Demand: 0, Status: signal.Failed}},
		{signal.Range4To20mA(), signal.Milliamps(3.7), signal.Reading{Demand: 0, Status: signal.UnderRange}},
		{signal.Range4To20mA(), signal.Milliamps(3.9), signal.Reading{Demand: 0, Status: signal.InRange}},
		{signal.Range4To20mA(), signal.Milliamps(20.8), signal.Reading{Demand: 1, Status: signal.OverRange}},
		{signal.Range4To20mA(), signal.Milliamps(22), signal.Reading{Demand: 1, Status: signal.Failed}},
		{signal.Range4To20mA().Inverse(), signal.Milliamps(3.7), signal.Reading{Demand: 1, Status: signal.UnderRange}},
		{signal.Range4To20mA().Inverse(), signal.Milliamps(20.8), signal.Reading{Demand: 0, Status: signal.OverRange}},
		{signal.Range4To20mA().Inverse(), signal.Milliamps(0), signal.Reading{Demand: 1, Status: signal.Failed}},
		{signal.Range4To20mA(), signal.Volts(5), signal.Reading{Demand: 0, Status: signal.WrongKind}},
		{signal.Range0To10V(), signal.Milliamps(5), signal.Reading{Demand: 0, Status: signal.WrongKind}},
		{signal.Range0To10V(), signal.Signal{}, signal.Reading{}},
		{signal.Range0To10V().Inverse(), signal.Signal{}, signal.Reading{}},
		{signal.Range0To10V(), signal.Volts(-0.05), signal.Reading{Demand: 0, Status: signal.InRange}},
		{signal.Range0To10V(), signal.Volts(24), signal.Reading{Demand: 1, Status: signal.Failed}},
		{signal.Range0To10V(), signal.Volts(inf), signal.Reading{Demand: 1, Status: signal.Failed}},
		{signal.Range0To10V(), signal.Volts(-inf), signal.Reading{Demand: 0, Status: signal.Failed}},
		{signal.Range0To10V(), signal.Volts(nan), signal.Reading{Demand: 0, Status: signal.Failed}},
		{signal.Range0To10V().Inverse(), signal.Volts(nan), signal.Reading{Demand: 0, Status: signal.Failed}},
		{signal.Range0To10V(), signal.Milliamps(nan), signal.Reading{Demand: 0, Status: signal.WrongKind}},
		{signal.Range5To10V(), signal.Volts(3), signal.Reading{Demand: 0, Status: signal.InRange}},
		{signal.Range5To10V(), signal.Volts(0), signal.Reading{Demand: 0, Status: signal.InRange}},
		{signal.Range5To10V().Inverse(), signal.Volts(3), signal.Reading{Demand: 1, Status: signal.InRange}},
		{signal.Range{}, signal.Volts(3), signal.Reading{Demand: 0, Status: signal.WrongKind}},
		{signal.Range{}, signal.Volts(nan), signal.Reading{Demand: 0, Status: signal.WrongKind}},
		{signal.Range{}, signal.Signal{}, signal.Reading{}},
	} {
		assert.Equal(t, tt.want, tt.r.Read(tt.s), "%v on %v", tt.s, tt.r)
	}
}

func TestReadIsClampedAndMonotone(t *testing.T) {
	rank := map[signal.Status]int{signal.UnderRange: 1, signal.InRange: 2, signal.OverRange: 3}
	rapid.Check(t, func(t *rapid.T) {
		r := drawRange(t)
		x := rapid.Float64Range(-150, 250).Draw(t, "x")
		y := x + rapid.Float64Range(0, 20).Draw(t, "more")
		a, b := r.Read(of(r, x)), r.Read(of(r, y))
		for _, demand := range []float64{a.Demand, b.Demand} {
			require.True(t, demand >= 0 && demand <= 1, demand)
		}
		if r.IsInverse() {
			require.GreaterOrEqual(t, a.Demand, b.Demand)
		} else {
			require.LessOrEqual(t, a.Demand, b.Demand)
		}
		if a.Status.Valid() && b.Status.Valid() {
			require.LessOrEqual(t, rank[a.Status], rank[b.Status])
		}
	})
}

func TestInverseReadsTheComplement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRange(t)
		s := of(r, rapid.Float64Range(-150, 250).Draw(t, "x"))
		direct, inverse := r.Read(s), r.Inverse().Read(s)
		require.Equal(t, direct.Status, inverse.Status)
		require.InDelta(t, 1, direct.Demand+inverse.Demand, 1e-12)
	})
}

func TestReadDoesNotAllocate(t *testing.T) {
	r := signal.Range4To20mA()
	var sum float64
	for _, s := range []signal.Signal{signal.Milliamps(12), signal.Milliamps(3), signal.Volts(math.NaN()), {}} {
		assert.Zero(t, testing.AllocsPerRun(100, func() { sum += r.Read(s).Demand + r.Encode(sum).Number() }))
	}
}

func TestRangeIsSmall(t *testing.T) {
	assert.LessOrEqual(t, unsafe.Sizeof(signal.Range{}), uintptr(64))
}
