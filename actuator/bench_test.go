package actuator_test

import (
	"testing"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func mounted(t testing.TB, change func(*actuator.Config)) actuator.Mounted {
	t.Helper()
	cfg := actuator.Config{Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre}
	if change != nil {
		change(&cfg)
	}
	a, err := actuator.New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	m, err := a.MountOn(5 * units.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

var shapings = []struct {
	name    string
	shaping actuator.Shaping
}{
	{"linear", actuator.Linear()},
	{"zero-based", actuator.ZeroBasedEqualPercentage(50)},
	{"table", actuator.Tabulated([]actuator.Point{{Opening: 0, Share: 0}, {Opening: 0.5, Share: 0.2}, {Opening: 1, Share: 1}})},
}

// Budget: 0 allocations, a few nanoseconds beyond the shaping's exponential (3 ns);
// the whole chain signal → flow has 1.5 times the same structure in C, and
// twice that for the whole step.
func BenchmarkRespond(b *testing.B) {
	for _, bb := range shapings {
		m, signals := mounted(b, func(c *actuator.Config) { c.Shaping = bb.shaping }), benchSignals()
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			var sum float64
			for b.Loop() {
				for _, s := range signals {
					sum += m.Respond(s).Travel
				}
			}
			perSignal(b, sum, len(signals))
		})
	}
}

// Budget: as BenchmarkRespond, the first figure.
func BenchmarkTravel(b *testing.B) {
	for _, bb := range shapings {
		m, signals := mounted(b, func(c *actuator.Config) { c.Shaping = bb.shaping }), benchSignals()
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			var sum float64
			for b.Loop() {
				for _, s := range signals {
					h, _ := m.Travel(s)
					sum += h
				}
			}
			perSignal(b, sum, len(signals))
		})
	}
}

func perSignal(b *testing.B, sum float64, n int) {
	b.Helper()
	if sum == 0 {
		b.Fatal("no travel")
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/signal")
}

// benchSignals spreads over 0–10 V, out of order.
func benchSignals() []signal.Signal {
	signals := make([]signal.Signal, 1024)
	for i := range signals {
		signals[i] = signal.Volts(10 * float64(i*389%len(signals)) / float64(len(signals)))
	}
	return signals
}
