package terminal

import (
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// DefaultRadiatorExponent is the exponent of a radiator that does not state
// one: 1.3, that of panel and column radiators within 0.05 (common practice, no
// published source). Convectors have 1.3 to 1.45.
const DefaultRadiatorExponent = 1.3

// RadiatorConfig describes a radiator or convector as its data sheet does.
type RadiatorConfig struct {
	RatedHeat units.Power  // Φn at the rating; required
	Rated     Temperatures // zero is 75/65/20 °C, the standard rating of EN 442-1
	Exponent  float64      // n, 1 … 2; 0 is DefaultRadiatorExponent

	Design   Temperatures           // what the plant is designed for; zero is the rating
	Fluid    fluid.Fluid            // zero is water
	Pressure units.AbsolutePressure // of the water; zero is 300 kPa abs
}

// Radiator is a radiator or convector by EN 442:
//
//	Φ = Φn·(ΔT/ΔTn)^n
//
// (EN 442-2, characteristic equation), ΔT the logarithmic mean difference of
// water and room at any flow, normalised at the rating point
// ([Temperatures.LogMean]: 49.833 K at 75/65/20), so that the rated heat comes
// out at the rating. The standard measures at one flow with a spread of 10 K;
// that the law holds with the logarithmic mean down to a trickle is common
// practice: a radiator connected at one end, or one that stratifies, gives
// less.
//
// The zero Radiator is none: its numbers are NaN.
type Radiator struct{ handle }

// NewRadiator checks the configuration and returns the radiator.
func NewRadiator(c RadiatorConfig) (Radiator, error) {
	if c.Rated.isZero() {
		c.Rated = Temperatures{units.Celsius(75), units.Celsius(65), units.Celsius(20)}
	}
	if c.Exponent == 0 {
		c.Exponent = DefaultRadiatorExponent
	}
	l := check.List{Package: packageName}
	e := emitterConfig{
		heat: c.RatedHeat, rated: c.Rated, only: duty{+1, "warmer than the air: a radiator heats"},
		exponent: c.Exponent, design: c.Design, fluid: c.Fluid, pressure: c.Pressure,
	}
	m, err := e.build(&l)
	return Radiator{newHandle(m, err)}, err
}

// Equal reports whether r and s are the same radiator at the same design.
func (r Radiator) Equal(s Radiator) bool { return r.equal(s.handle) }
