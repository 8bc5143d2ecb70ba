package wiring

import (
	"cmp"
	"math"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// temperatureCoefficient is that of the resistance of annealed copper at 20 °C, in 1/K
// (IEC 60028).
const temperatureCoefficient = 0.00393

const standardCelsius = 20

// Conductor is one conductor of a cable, or several in parallel. Make it with
// [IEC60228], [AWG] or [PerLength]; conductors are immutable, comparable and travel as
// text ("1.5 mm²", "AWG 18", "36.6 Ω/km"). The zero Conductor is none.
type Conductor struct {
	kind            conductorKind
	class           Class
	cores           uint8
	size            float64 // mm², the gauge, or Ω/km
	ohmPerKilometre float64 // of one core at 20 °C; 0 marks a fault
}

type conductorKind uint8

const (
	noConductor conductorKind = iota
	iecConductor
	awgConductor
	measuredConductor
)

// PerLength is a conductor with that resistance at 20 °C over a length: what a data
// sheet states. A loop resistance is that of two conductors; halve it. A resistance or
// length that is not above zero is a fault, see [Conductor.Err].
func PerLength(r units.Resistance, length units.Length) Conductor {
	return perKilometre(float64(r) / length.In(units.Kilometre))
}

func perKilometre(ohms float64) Conductor {
	c := Conductor{kind: measuredConductor, size: ohms, cores: 1}
	if ohms > 0 && ohms <= float64(mostResistance) {
		c.ohmPerKilometre = ohms
	}
	return c
}

// mostCores is how many cores a conductor may have in parallel.
const mostCores = 16

// Cores returns n of these conductors in parallel, 1 … 16, as for a return that takes
// two cores. Another number is a fault.
func (c Conductor) Cores(n int) Conductor {
	c.cores = uint8(min(max(n, 0), mostCores+1))
	return c
}

// Err returns what is wrong with the conductor, or nil: none at all, a size that is
// not in the table, a number of cores out of range.
func (c Conductor) Err() error {
	l := check.List{Package: packageName}
	c.check(&l, "Conductor")
	return l.Err()
}

func (c Conductor) check(l *check.List, field string) {
	switch {
	case c.kind == noConductor:
		l.Fault(field, "none", "a conductor, such as wiring.IEC60228(1*units.SquareMillimetre, wiring.Class2)")
	case c.ohmPerKilometre == 0:
		l.Fault(field, c, [...]string{
			iecConductor:      "a class of IEC 60228 and a section of its table, 0.5, 0.75, 1, 1.5, 2.5, 4, 6 or 10 mm²",
			awgConductor:      "a gauge of 0 … 40",
			measuredConductor: "a resistance above zero, 1 MΩ/km at most",
		}[c.kind])
	case c.cores < 1 || c.cores > mostCores:
		l.Fault(field, c, "1 … 16 cores in parallel")
	}
}

// IsZero reports whether c is no conductor.
func (c Conductor) IsZero() bool { return c == Conductor{} }

// Equal reports whether c and d are the same.
func (c Conductor) Equal(d Conductor) bool { return c == d }

// Section returns the area of all cores, nominal for IEC 60228; false for one that is
// only known by its resistance.
func (c Conductor) Section() (units.Area, bool) {
	cores := units.Area(c.cores)
	switch c.kind {
	case iecConductor:
		return cores * units.Area(c.size) * units.SquareMillimetre, true
	case awgConductor:
		return cores * gaugeArea(c.size), true
	default:
		return 0, false
	}
}

// Resistance returns the resistance of a length at a temperature of the copper,
//
//	R = R20·(1 + 0.00393/K·(t − 20 °C))
//
// (IEC 60028). The zero Temperature stands for 20 °C. NaN for a conductor with a fault.
func (c Conductor) Resistance(length units.Length, t units.Temperature) units.Resistance {
	if c.ohmPerKilometre == 0 || c.cores == 0 {
		return units.Resistance(math.NaN())
	}
	perKilometre := units.Resistance(c.ohmPerKilometre/float64(c.cores)*warmth(t)) * units.Ohm
	return perKilometre * units.Resistance(length.In(units.Kilometre))
}

func warmth(t units.Temperature) float64 {
	if t.IsZero() {
		return 1
	}
	return 1 + float64(temperatureCoefficient*(t.Celsius()-standardCelsius))
}

// fromThin returns the conductors in order of falling resistance.
func fromThin(list []Conductor) []Conductor {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b Conductor) int {
		return cmp.Compare(b.Resistance(units.Kilometre, units.Temperature{}), a.Resistance(units.Kilometre, units.Temperature{}))
	})
	return list
}
