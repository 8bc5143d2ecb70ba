package terminal

import (
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// DefaultCeilingExponent is the exponent of a chilled ceiling that does not
// state one (common practice, no published source; measured ones are 1.0 to 1.1).
const DefaultCeilingExponent = 1.1

// CeilingConfig describes a chilled (or heated) ceiling as its data sheet does.
type CeilingConfig struct {
	RatedHeat units.Power  // Φn at the rating, of the whole active area; required
	Rated     Temperatures // of the test, such as 15/17/24 °C for a mean difference of 8 K; required
	Exponent  float64      // n, 1 … 2; 0 is DefaultCeilingExponent

	// WaterShare is the share of the thermal resistance that the water side has
	// at the rated flow, 0 … 95 %; 0 is a coefficient that the flow does not
	// change, as the standard's equation has it.
	WaterShare units.Ratio
	// LaminarFloor is the least coefficient on the water side as a share of that
	// at the rated flow; 0 is DefaultLaminarFloor.
	LaminarFloor units.Ratio

	Design   Temperatures           // what the plant is designed for; zero is the rating
	Fluid    fluid.Fluid            // zero is water
	Pressure units.AbsolutePressure // of the water; zero is 300 kPa abs
}

// Ceiling is a ceiling with water-carrying panels, rated by EN 14240:
//
//	Φ = Φn·(Δθ/Δθn)^n
//
// (EN 14240, characteristic of the cooling capacity, from memory). A ceiling that
// heats is rated by EN 14037 with the same equation (from memory), but with a heat
// and an exponent of its own: make one model for each duty. EN 14240 takes Δθ as
// the difference of the reference room temperature and the arithmetic mean of the
// water, at a rated flow whose spread is small; here it is the logarithmic mean,
// normalised at the rating, which is the same there and stays right when the flow
// is throttled and the arithmetic mean goes astray.
//
// Air is the reference (globe) temperature of the room. The model does not know
// the dew point: keep the supply above it, since a ceiling that condenses drips.
// The zero Ceiling is none: its numbers are NaN.
type Ceiling struct{ handle }

// NewCeiling checks the configuration and returns the ceiling.
func NewCeiling(c CeilingConfig) (Ceiling, error) {
	if c.Exponent == 0 {
		c.Exponent = DefaultCeilingExponent
	}
	l := check.List{Package: packageName}
	e := emitterConfig{
		heat: c.RatedHeat, rated: c.Rated, exponent: c.Exponent, waterShare: c.WaterShare,
		laminarFloor: c.LaminarFloor, design: c.Design, fluid: c.Fluid, pressure: c.Pressure,
	}
	m, err := e.build(&l)
	return Ceiling{newHandle(m, err)}, err
}

// Equal reports whether c and d are the same ceiling at the same design.
func (c Ceiling) Equal(d Ceiling) bool { return c.equal(d.handle) }
