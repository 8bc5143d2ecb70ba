package terminal

import (
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// DefaultPassiveBeamExponent is the exponent of a passive beam that does not
// state one (common practice, no published source; free convection through a fin
// block measures 1.2 to 1.35).
const DefaultPassiveBeamExponent = 1.3

// PassiveBeamConfig describes a passive chilled beam as its data sheet does.
type PassiveBeamConfig struct {
	RatedHeat units.Power  // Φn at the rating; required
	Rated     Temperatures // of the test, such as 15/17/24 °C for a mean difference of 8 K; required
	Exponent  float64      // n, 1 … 2; 0 is DefaultPassiveBeamExponent

	// WaterShare is the share of the thermal resistance that the water side has
	// at the rated flow, 0 … 95 %; 0 is a coefficient that the flow does not
	// change.
	WaterShare units.Ratio
	// LaminarFloor is the least coefficient on the water side as a share of that
	// at the rated flow; 0 is DefaultLaminarFloor.
	LaminarFloor units.Ratio

	Design   Temperatures           // what the plant is designed for; zero is the rating
	Fluid    fluid.Fluid            // zero is water
	Pressure units.AbsolutePressure // of the water; zero is 300 kPa abs
}

// PassiveBeam is a chilled beam cooled by free convection, rated by EN 14518:
//
//	Φ = Φn·(Δθ/Δθn)^n
//
// (EN 14518, characteristic of the cooling capacity, from memory). As for a
// [Ceiling], the mean of the water is the logarithmic one, normalised at the
// rating. The standard measures how the capacity depends on water flow too;
// WaterShare is this package's form of it, the two resistances of a [Coil].
//
// It cools only, and a rating that heats is refused: warmed air stays under the
// ceiling, so that there is no draught to give the heat to the room. For the same
// reason no use can be made of its numbers for [Conditions] in which the supply
// is the warmer.
//
// Air is that which enters the beam, near the ceiling. Keep the supply above the
// dew point of the room. The zero PassiveBeam is none: its numbers are NaN.
type PassiveBeam struct{ handle }

// NewPassiveBeam checks the configuration and returns the beam.
func NewPassiveBeam(c PassiveBeamConfig) (PassiveBeam, error) {
	if c.Exponent == 0 {
		c.Exponent = DefaultPassiveBeamExponent
	}
	l := check.List{Package: packageName}
	e := emitterConfig{
		heat: c.RatedHeat, rated: c.Rated, only: duty{-1, "colder than the air: a passive beam cools"},
		exponent: c.Exponent, waterShare: c.WaterShare, laminarFloor: c.LaminarFloor,
		design: c.Design, fluid: c.Fluid, pressure: c.Pressure,
	}
	m, err := e.build(&l)
	return PassiveBeam{newHandle(m, err)}, err
}

// Equal reports whether b and c are the same beam at the same design.
func (b PassiveBeam) Equal(c PassiveBeam) bool { return b.equal(c.handle) }
