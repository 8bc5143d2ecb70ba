package hydronics_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// yardstick is the model of internal/reference/cbench: the same invented valve,
// actuator and branch, so that the two programs do the same work.
type yardstick struct {
	independent, twoWay, inBranch hydronics.Chain
	signals                       [1024]signal.Signal
}

func newYardstick(tb testing.TB) *yardstick {
	act, err := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), Action: actuator.Reverse,
		Shaping: actuator.ZeroBasedEqualPercentage(50), Stroke: 5 * units.Millimetre,
	})
	require.NoError(tb, err)
	independent, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Stroke: 5 * units.Millimetre, Curve: valve.Linear(50), ClosingTravel: 0.01, Leakage: 1e-4,
		MaxPressure: 400 * units.Kilopascal, ProportionalBand: 0.05,
		Settings: []valve.Setting{
			{Mark: 1, Flow: 0.06 * units.LitrePerSecond, MinPressure: 14 * units.Kilopascal},
			{Mark: 2, Flow: 0.12 * units.LitrePerSecond, MinPressure: 20 * units.Kilopascal},
		},
	})
	require.NoError(tb, err)
	const design = 0.12 * units.LitrePerSecond
	two, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: valve.CoefficientFor(design, 16*units.Kilopascal, valve.ReferenceDensity), Stroke: 5 * units.Millimetre,
		Curve: valve.Linear(50), ClosingTravel: 0.01, Leakage: 1e-4,
	})
	require.NoError(tb, err)
	y := &yardstick{}
	y.independent, err = hydronics.NewChain(act, independent)
	require.NoError(tb, err)
	y.twoWay, err = hydronics.NewChain(act, two)
	require.NoError(tb, err)
	rest, err := hydronics.ResistanceAt(design, 24*units.Kilopascal)
	require.NoError(tb, err)
	y.inBranch, err = y.twoWay.InBranch(rest)
	require.NoError(tb, err)
	for i := range y.signals {
		y.signals[i] = signal.Volts(10 * float64(i*389%1024) / 1023)
	}
	return y
}

// lap adds up the flows of all signals, in a function of its own so that the
// benchmark loop does not meddle with it.
//
//go:noinline
func (y *yardstick) lap(c *hydronics.Chain, dp units.Pressure) (sum units.Flow) {
	for _, s := range y.signals {
		sum += c.Flow(s, dp)
	}
	return sum
}

//go:noinline
func (y *yardstick) respondLap(c *hydronics.Chain, dp units.Pressure) (sum units.Flow) {
	for _, s := range y.signals {
		r := c.Respond(s, dp)
		sum += r.Flow
	}
	return sum
}

// benchmarkLaps reports the shortest time of an evaluation as best-ns/eval, since
// a mean says more about a busy machine than about the code.
func benchmarkLaps(b *testing.B, lap func() units.Flow) {
	best := time.Duration(1<<63 - 1)
	b.ReportAllocs()
	for b.Loop() {
		start := time.Now()
		for range 50 {
			lap()
		}
		best = min(best, time.Since(start))
	}
	b.ReportMetric(float64(best)/(50*1024), "best-ns/eval")
}

// BenchmarkChain is compared with internal/reference/cbench. Budget: 1.5 times the
// C program for Flow, 2 times for Respond, no allocation.
func BenchmarkChain(b *testing.B) {
	y := newYardstick(b)
	for _, c := range []struct {
		name  string
		chain *hydronics.Chain
		dp    units.Pressure
	}{
		{"pressure-independent", &y.independent, 40 * units.Kilopascal},
		{"starved", &y.independent, 8 * units.Kilopascal},
		{"two-way", &y.twoWay, 16 * units.Kilopascal},
		{"in-branch", &y.inBranch, 40 * units.Kilopascal},
	} {
		b.Run("Flow/"+c.name, func(b *testing.B) {
			benchmarkLaps(b, func() units.Flow { return y.lap(c.chain, c.dp) })
		})
		b.Run("Respond/"+c.name, func(b *testing.B) {
			benchmarkLaps(b, func() units.Flow { return y.respondLap(c.chain, c.dp) })
		})
	}
}

func TestChainDoesNotAllocate(t *testing.T) {
	y := newYardstick(t)
	for _, c := range []*hydronics.Chain{&y.independent, &y.twoWay, &y.inBranch} {
		n := testing.AllocsPerRun(10, func() {
			y.lap(c, 40*units.Kilopascal)
			y.respondLap(c, 40*units.Kilopascal)
		})
		require.Zero(t, n)
	}
}
