package fastexp

import (
	"math"
	"testing"
)

// Budget: 4 ns for independent arguments, call and loop included. Besides
// ns/op for the whole array each benchmark reports ns/exp. The "chained" ones
// make each argument wait for the last result and so show the latency.
func BenchmarkExp(b *testing.B) {
	benchmarks := []struct {
		name string
		run  func(results, arguments []float64)
	}{
		{"fastexp/independent", expEach},
		{"math/independent", mathExpEach},
		{"fastexp/chained", expChained},
		{"math/chained", mathExpChained},
	}
	arguments, results := equalPercentageArguments(), make([]float64, 1024)
	for _, bb := range benchmarks {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				bb.run(results, arguments)
			}
			perExp := float64(b.Elapsed().Nanoseconds()) / float64(b.N) / float64(len(arguments))
			b.ReportMetric(perExp, "ns/exp")
		})
	}
}

// equalPercentageArguments spreads over (h − 1)·ln 50, out of order.
func equalPercentageArguments() []float64 {
	xs := make([]float64, 1024)
	for i := range xs {
		xs[i] = -math.Log(50) * float64(i*389%len(xs)) / float64(len(xs))
	}
	return xs
}

func expEach(results, arguments []float64) {
	for i, x := range arguments {
		results[i] = Exp(x)
	}
}

func mathExpEach(results, arguments []float64) {
	for i, x := range arguments {
		results[i] = math.Exp(x)
	}
}

func expChained(results, arguments []float64) {
	var last float64
	for _, x := range arguments {
		last = Exp(x + last*1e-300)
	}
	results[0] = last
}

func mathExpChained(results, arguments []float64) {
	var last float64
	for _, x := range arguments {
		last = math.Exp(x + last*1e-300)
	}
	results[0] = last
}
