package fluid

import (
	"testing"

	"github.com/indexrun/indexrun/units"
)

// Budget: water ρ, cp and µ at (T, p) in 400 ns, 0 allocs.
func BenchmarkWaterAt(b *testing.B) { benchmarkAt(b, Water()) }

// No budget of its own; within that of water.
func BenchmarkGlycolAt(b *testing.B) { benchmarkAt(b, MustParse("ethylene glycol 30 % mass")) }

func benchmarkAt(b *testing.B, f Fluid) {
	b.ReportAllocs()
	t, p := units.Celsius(20), units.Absolute(3*units.Bar)
	for b.Loop() {
		s, err := f.At(t, p)
		if err != nil {
			b.Fatal(err)
		}
		benchDensity, benchHeat, benchViscosity = s.Density(), s.SpecificHeat(), s.DynamicViscosity()
		if t = t.Add(0.01 * units.Kelvin); t.Celsius() > 90 {
			t = units.Celsius(20)
		}
	}
}

var (
	benchDensity   units.Density
	benchHeat      units.SpecificHeat
	benchViscosity units.DynamicViscosity
)

func BenchmarkThermalConductivity(b *testing.B) {
	b.ReportAllocs()
	s, err := Water().At(units.Celsius(60), units.Absolute(3*units.Bar))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s.ThermalConductivity()
	}
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("ethylene glycol 30 % mass"); err != nil {
			b.Fatal(err)
		}
	}
}
