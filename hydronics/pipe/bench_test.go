package pipe_test

import (
	"testing"

	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/units"
)

// reynolds are the arguments of the friction benchmarks, so that no iteration
// waits for the last.
var reynolds = [8]float64{1e4, 2.5e4, 4e4, 6e4, 1e5, 2e5, 5e5, 1e6}

// Budget: 60 ns and no allocation for Colebrook to machine precision.
func BenchmarkColebrook(b *testing.B) {
	b.ReportAllocs()
	var sum float64
	for i := 0; b.Loop(); i++ {
		f, _ := pipe.Colebrook(reynolds[i%len(reynolds)], 1e-4)
		sum += f
	}
	_ = sum
}

func BenchmarkPressure(b *testing.B)         { benchmarkPipe(b, pipePressure) }
func BenchmarkPressureAndSlope(b *testing.B) { benchmarkPipe(b, pipePressureAndSlope) }
func BenchmarkFlow(b *testing.B)             { benchmarkPipe(b, pipeFlow) }

func pipePressure(p *pipe.Pipe, x float64) float64 {
	return float64(p.Pressure(units.Flow(x) * units.LitrePerSecond))
}

func pipePressureAndSlope(p *pipe.Pipe, x float64) float64 {
	dp, slope := p.PressureAndSlope(units.Flow(x) * units.LitrePerSecond)
	return float64(dp) + slope
}

func pipeFlow(p *pipe.Pipe, x float64) float64 {
	return float64(p.Flow(units.Pressure(x) * units.Kilopascal))
}

// benchmarkPipe runs a turbulent law; there is no budget but zero allocations.
func benchmarkPipe(b *testing.B, law func(*pipe.Pipe, float64) float64) {
	cfg := water20()
	cfg.Losses = pipe.Loss{Constant: 4, Laminar: 3000}
	p := mustNew(b, cfg)
	b.ReportAllocs()
	var sum float64
	for i := 0; b.Loop(); i++ {
		sum += law(&p, 1+float64(i%8))
	}
	_ = sum
}

func BenchmarkSmallestSize(b *testing.B) {
	s, err := pipe.NewSizing(steelSizing())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Smallest(0.4 * units.LitrePerSecond); err != nil {
			b.Fatal(err)
		}
	}
}
