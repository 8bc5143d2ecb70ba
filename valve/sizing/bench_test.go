package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// services are the kinds of work: the case is checked each time.
func services() []struct {
	name string
	c    sizing.Case
	kv   units.FlowCoefficient
} {
	turbulent := example1()
	choked := turbulent
	choked.Valve = sizing.BallSegmented.Valve(100 * units.Millimetre)
	fitted := turbulent
	fitted.Valve.Diameter = 80 * units.Millimetre
	fitted.InletPipe, fitted.OutletPipe = 100*units.Millimetre, 90*units.Millimetre
	transitional := turbulent
	transitional.Liquid.Viscosity *= 500
	thickFitted := fitted
	thickFitted.Liquid.Viscosity *= 500
	laminar := turbulent
	laminar.Liquid.Viscosity *= 100000
	return []struct {
		name string
		c    sizing.Case
		kv   units.FlowCoefficient
	}{
		{"turbulent", turbulent, 165}, {"choked", choked, 238}, {"reducers", fitted, 177},
		{"transitional", transitional, 165}, {"laminar", laminar, 100},
		{"transitional, reducers", thickFitted, 80},
	}
}

// Budget: 150 ns with all factors, no allocation. Viscous flow between reducers, with
// every factor other than 1, is at its edge: FP and FLP at each step.
func BenchmarkSize(b *testing.B) {
	for _, s := range services() {
		q := flowOf(b, s.kv, s.c).Flow
		b.Run(s.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = sizing.Size(q, s.c)
			}
		})
	}
}

// Budget: 150 ns with all factors, no allocation.
func BenchmarkFlow(b *testing.B) {
	for _, s := range services() {
		b.Run(s.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = sizing.Flow(s.kv, s.c)
			}
		})
	}
}

func TestSizingDoesNotAllocate(t *testing.T) {
	for _, s := range services() {
		q := flowOf(t, s.kv, s.c).Flow
		assert.Zero(t, testing.AllocsPerRun(100, func() {
			_, _ = sizing.Size(q, s.c)
			_, _ = sizing.Flow(s.kv, s.c)
			_, _ = sizing.CavitationAt(s.kv, s.c)
		}), s.name)
	}
}
