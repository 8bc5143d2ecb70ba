package signal_test

import (
	"testing"

	"github.com/indexrun/indexrun/signal"
)

// Budget: 3 ns a reading, call and loop included, and no allocation, so that
// decoding stays a small part of the response chain.
func BenchmarkRead(b *testing.B) {
	r := signal.Range2To10V()
	for _, bb := range []struct {
		name      string
		low, high float64
	}{
		{"between the ends", 2.001, 9.999},
		{"at the ends", -100, 100},
	} {
		b.Run(bb.name, func(b *testing.B) {
			signals, demands := spread(r, bb.low, bb.high), make([]float64, 1024)
			b.ReportAllocs()
			for b.Loop() {
				for i, s := range signals {
					demands[i] = r.Read(s).Demand
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(signals)), "ns/read")
		})
	}
}

// spread lists signals from low to high out of order, those beyond the range moved
// to its ends.
func spread(r signal.Range, low, high float64) []signal.Signal {
	signals := make([]signal.Signal, 1024)
	for i := range signals {
		x := low + (high-low)*float64(i*389%1024)/1024
		signals[i] = of(r, min(max(x, r.Low().Number()), r.High().Number()))
	}
	return signals
}
