package terminal

import (
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// DefaultActiveBeamExponent is the exponent of the water part of an active beam
// that does not state one: 1, since the air is moved by the nozzles whatever the
// temperatures (common practice, no published source).
const DefaultActiveBeamExponent = 1.0

// ActiveBeamConfig describes an active chilled beam at one primary air flow.
type ActiveBeamConfig struct {
	RatedHeat units.Power  // of the water alone, at the rating and this primary air flow; required
	Rated     Temperatures // of the test, such as 14/17/24 °C; required
	Exponent  float64      // n, 1 … 2; 0 is DefaultActiveBeamExponent

	PrimaryFlow units.Flow        // of primary air, as 1.2 kg/m³ and 1006 J/(kg·K); required
	PrimaryAir  units.Temperature // of the primary air at design; required

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

// ActiveBeam is a chilled beam through which primary air draws room air over a
// coil, rated by EN 15116: the two parts of its capacity add up,
//
//	water   Φ  = Φn·(Δθ/Δθn)^n
//	air     Φp = ρ·cp·qp·(θp − θroom)
//
// (EN 15116, from memory). The standard is about cooling; beams that heat too are
// rated in the same form (common practice, no published source): make one model
// for each duty. The mean of the water is the logarithmic one,
// normalised at the rating, as for a [Ceiling]. A valve moves the first part
// only: Heat, HeatShare and the inverses are the water's, [Output].Primary is
// the air's. The water part depends on the primary air flow through its rating;
// for a variable air flow, make one model for each.
//
// Keep the supply above the dew point of the room. The zero ActiveBeam is none:
// its numbers are NaN.
type ActiveBeam struct{ handle }

// NewActiveBeam checks the configuration and returns the beam.
func NewActiveBeam(c ActiveBeamConfig) (ActiveBeam, error) {
	if c.Exponent == 0 {
		c.Exponent = DefaultActiveBeamExponent
	}
	l := check.List{Package: packageName}
	check.Positive(&l, "PrimaryFlow", c.PrimaryFlow)
	checkAir(&l, "PrimaryAir", c.PrimaryAir)
	e := emitterConfig{
		heat: c.RatedHeat, rated: c.Rated, exponent: c.Exponent, waterShare: c.WaterShare,
		laminarFloor: c.LaminarFloor, design: c.Design, fluid: c.Fluid, pressure: c.Pressure,
	}
	m, err := e.build(&l)
	m.primary = float64(c.PrimaryFlow) * float64(StandardAirDensity) * dryAirHeat
	m.point.Conditions.PrimaryAir = c.PrimaryAir
	m.design = m.stateOf(m.point.Conditions)
	return ActiveBeam{newHandle(m, err)}, err
}

// Equal reports whether b and c are the same beam at the same design.
func (b ActiveBeam) Equal(c ActiveBeam) bool { return b.equal(c.handle) }
