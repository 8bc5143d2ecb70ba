package terminal

import (
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// usualPressure is taken where none is given: that of a closed system of a few
// storeys (common practice, no published source).
const usualPressure = 300 * units.Kilopascal

// liquid holds the properties that a model keeps.
type liquid struct {
	density      units.Density
	specificHeat units.SpecificHeat
}

// newLiquid takes the density at the return and the mean heat capacity.
func newLiquid(l *check.List, f fluid.Fluid, p units.AbsolutePressure, t Temperatures) liquid {
	if p.IsZero() {
		p = units.Absolute(usualPressure)
	}
	supply, err := f.At(t.Supply, p)
	l.Add(err)
	back, err := f.At(t.Return, p)
	l.Add(err)
	return liquid{back.Density(), (supply.SpecificHeat() + back.SpecificHeat()) / 2}
}

// capacity is ρ·cp in J/(m³·K).
func (l liquid) capacity() float64 { return float64(l.density) * float64(l.specificHeat) }
