package fluid

import (
	"strconv"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// packageName stands in the errors of this package.
const packageName = "fluid"

// A Fluid says which liquid a system carries. It is a small immutable value:
// copy it, compare it with ==, use it as a map key. The zero Fluid is water.
//
// A Fluid remembers whether its glycol was given by mass or by volume, so that
// its text is what a user wrote; the same mixture given in the other way is a
// different value. All methods may be called from several goroutines.
type Fluid struct {
	glycol glycol
	basis  basis
	given  units.Ratio // by that basis
	mass   units.Ratio // always by mass
}

// basis says what a fraction counts.
type basis uint8

const (
	byMass basis = iota
	byVolume
)

// Water returns water, the zero Fluid.
func Water() Fluid { return Fluid{} }

// EthyleneGlycolByMass returns aqueous ethylene glycol (MEG) with that mass of
// glycol in the mass of the mixture, 0 … 60 %.
func EthyleneGlycolByMass(fraction units.Ratio) (Fluid, error) {
	return newMixture(ethyleneGlycol, byMass, fraction)
}

// EthyleneGlycolByVolume returns aqueous ethylene glycol (MEG) with that volume
// of glycol in the sum of the volumes, both at 20 °C before they are mixed,
// 0 … 57.35 %.
func EthyleneGlycolByVolume(fraction units.Ratio) (Fluid, error) {
	return newMixture(ethyleneGlycol, byVolume, fraction)
}

// PropyleneGlycolByMass returns aqueous propylene glycol (MPG) with that mass
// of glycol in the mass of the mixture, 0 … 60 %.
func PropyleneGlycolByMass(fraction units.Ratio) (Fluid, error) {
	return newMixture(propyleneGlycol, byMass, fraction)
}

// PropyleneGlycolByVolume returns aqueous propylene glycol (MPG) with that
// volume of glycol in the sum of the volumes, both at 20 °C before they are
// mixed, 0 … 59.1 %.
func PropyleneGlycolByVolume(fraction units.Ratio) (Fluid, error) {
	return newMixture(propyleneGlycol, byVolume, fraction)
}

func newMixture(g glycol, b basis, fraction units.Ratio) (Fluid, error) {
	fraction += 0 // turns −0 into 0
	f := Fluid{glycol: g, basis: b, given: fraction, mass: fraction}
	greatest := greatestMass
	if b == byVolume {
		f.mass = units.Ratio(mixtures[g].massOfVolume(float64(fraction)))
		greatest = mixtures[g].volumeOfMass(greatestMass)
	}
	if !(fraction >= 0 && f.mass <= greatestMass) {
		faults := check.List{Package: packageName}
		faults.Fault("fraction of "+mixtures[g].name, fraction, fractionRule(b, greatest))
		return Fluid{}, faults.Err()
	}
	return f, nil
}

func fractionRule(b basis, greatest float64) string {
	rule := "0 … " + strconv.FormatFloat(floorTo(greatest*100, 100), 'f', -1, 64) + " % by " + b.String()
	if b == byVolume {
		rule += ", which is 60 % by mass"
	}
	return rule
}

// Equal reports whether f and g are the same value, as == does; it serves
// packages that compare structs, such as go-cmp.
func (f Fluid) Equal(g Fluid) bool { return f == g }

// MassFraction returns the mass of glycol in the mass of the mixture; 0 for
// water. A fraction by volume is converted at 20 °C as
//
//	x = φ·ρg/(φ·ρg + (1 − φ)·ρw)
//
// with the densities 998.2 of water, 1113.5 of ethylene glycol and 1036.1 kg/m³
// of propylene glycol: volumes are those before mixing, since the mixture takes
// up to 2 % less room than its parts.
func (f Fluid) MassFraction() units.Ratio { return f.mass }

// VolumeFraction returns the volume of glycol in the sum of the volumes before
// mixing at 20 °C, the inverse of the conversion of [Fluid.MassFraction]; 0 for
// water.
func (f Fluid) VolumeFraction() units.Ratio {
	if f.glycol == noGlycol || f.basis == byVolume {
		return f.given
	}
	return units.Ratio(mixtures[f.glycol].volumeOfMass(float64(f.mass)))
}

// FreezingTemperature returns the temperature at which the first ice forms:
// 0 °C for water, the series of Melinder (2010) for a glycol. It does not say
// when a pipe bursts: a glycol turns to slush before it is solid.
func (f Fluid) FreezingTemperature() units.Temperature {
	return units.AbsoluteKelvin(f.freezingKelvin())
}

func (f Fluid) freezingKelvin() float64 {
	if f.glycol == noGlycol {
		return lowestSaturated
	}
	return mixtures[f.glycol].freezingKelvin(float64(f.mass))
}

// FreezingMargin returns how far t lies above [Fluid.FreezingTemperature];
// negative below it. Designers commonly keep 3 K or more between freezing and
// the coldest surface in contact with the fluid (common practice, no published
// source).
func (f Fluid) FreezingMargin(t units.Temperature) units.TemperatureDifference {
	return t.Sub(f.FreezingTemperature())
}
