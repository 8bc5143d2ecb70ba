package terminal

import (
	"errors"
	"math"

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

// newLiquid takes the density at the return and the mean heat capacity. Faults
// stand under the names of the temperatures, which field holds.
func newLiquid(l *check.List, f fluid.Fluid, p units.AbsolutePressure, t Temperatures, field string) liquid {
	if p.IsZero() {
		p = units.Absolute(usualPressure)
	}
	supply := stateAt(l, f, p, t.Supply, field+".Supply")
	back := stateAt(l, f, p, t.Return, field+".Return")
	return liquid{back.Density(), (supply.SpecificHeat() + back.SpecificHeat()) / 2}
}

// stateAt leaves it to [Temperatures] to tell of a temperature that is no number.
func stateAt(l *check.List, f fluid.Fluid, p units.AbsolutePressure, t units.Temperature, field string) fluid.State {
	if t.IsZero() || math.IsNaN(t.Kelvin()) {
		return fluid.State{}
	}
	state, err := f.At(t, p)
	for _, fault := range fieldErrors(err) {
		name := field
		if fault.Field == "pressure" {
			name = "Pressure"
		}
		l.Fault(name, fault.Value, fault.Want)
	}
	return state
}

// fieldErrors takes joined errors apart.
func fieldErrors(err error) []*units.FieldError {
	var all []*units.FieldError
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, one := range joined.Unwrap() {
			all = append(all, fieldErrors(one)...)
		}
		return all
	}
	var fault *units.FieldError
	if errors.As(err, &fault) {
		all = append(all, fault)
	}
	return all
}

// capacity is ρ·cp in J/(m³·K).
func (l liquid) capacity() float64 { return float64(l.density) * float64(l.specificHeat) }
