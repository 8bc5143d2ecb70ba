package fastlog

import (
	"math"
	"math/rand/v2"
	"testing"
)

// There is no budget of its own: that of package valve/sizing, 150 ns, and of
// hydronics/pipe, 60 ns, rest on it. Besides ns/op for the whole array each
// benchmark reports ns/call. The "chained" ones make each argument wait for the
// last result and so show the latency, which is what an iteration feels.
func BenchmarkFastlog(b *testing.B) {
	rng := rand.New(rand.NewPCG(1990, 5))
	arguments, results := make([]float64, 1024), make([]float64, 1024)
	for i := range arguments {
		arguments[i] = anyNumber(rng, -13, -1)
	}
	for _, bb := range []struct {
		name string
		f    func(results, arguments []float64)
	}{
		{"Log/fastlog/independent", logEach},
		{"Log/math/independent", mathLogEach},
		{"Log/fastlog/chained", logChained},
		{"Log/math/chained", mathLogChained},
		{"Near/chained", nearChained},
		{"Cbrt/fastlog/independent", cbrtEach},
		{"Cbrt/math/independent", mathCbrtEach},
		{"Cbrt/fastlog/chained", cbrtChained},
		{"Cbrt/math/chained", mathCbrtChained},
	} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				bb.f(results, arguments)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(arguments)), "ns/call")
		})
	}
}

func logEach(results, arguments []float64) {
	for i, x := range arguments {
		results[i] = Log(x)
	}
}

func mathLogEach(results, arguments []float64) {
	for i, x := range arguments {
		results[i] = math.Log(x)
	}
}

func logChained(results, arguments []float64) {
	var last float64
	for _, x := range arguments {
		last = Log(x + last*1e-300)
	}
	results[0] = last
}

func mathLogChained(results, arguments []float64) {
	var last float64
	for _, x := range arguments {
		last = math.Log(x + last*1e-300)
	}
	results[0] = last
}

func nearChained(results, arguments []float64) {
	var last float64
	for _, x := range arguments {
		last = Near(x + last*1e-300)
	}
	results[0] = last
}

func cbrtEach(results, arguments []float64) {
	for i, x := range arguments {
		results[i] = Cbrt(x)
	}
}

func mathCbrtEach(results, arguments []float64) {
	for i, x := range arguments {
		results[i] = math.Cbrt(x)
	}
}

func cbrtChained(results, arguments []float64) {
	var last float64
	for _, x := range arguments {
		last = Cbrt(x + last*1e-300)
	}
	results[0] = last
}

func mathCbrtChained(results, arguments []float64) {
	var last float64
	for _, x := range arguments {
		last = math.Cbrt(x + last*1e-300)
	}
	results[0] = last
}
