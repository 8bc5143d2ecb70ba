package curve_test

import (
	"testing"

	"github.com/indexrun/indexrun/internal/curve"
)

// The whole chain from signal to flow has a budget of 1.5 times the same in C
// (DEVELOPERS.md); a curve is the largest part of it.
func BenchmarkAt(b *testing.B) {
	for _, c := range []curve.Curve{curve.NewLinear(50), curve.NewEqualPercentage(50), curve.NewZeroBased(50), curve.NewQuickOpening(2), curve.NewParabolic(), valve()} {
		b.Run(c.Kind().String(), func(b *testing.B) {
			b.ReportAllocs()
			x := 0.1
			for b.Loop() {
				sink = c.At(x)
				if x += 1e-3; x > 0.9 {
					x = 0.1
				}
			}
		})
	}
}

var sink float64
