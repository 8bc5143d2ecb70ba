package terminal

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// FloorConfig describes a floor with embedded pipes.
type FloorConfig struct {
	// Conductance is K_H·A: the equivalent heat transmission coefficient by
	// EN 1264-2 (or -5 for cooling), which holds pipe spacing, screed and covering,
	// times Area. It must be less than the surface by itself passes, see [Floor];
	// required.
	Conductance units.ThermalConductance
	Area        units.Area // heated; required

	// WaterShare is the share of the thermal resistance that the water side has
	// at design, 0 … 95 %; 0 is a conductance that the flow does not change, as
	// the standard's equation has it. Usual pipes and spacings have 1 to 3 % if
	// their design flow is turbulent, about 10 % if it is laminar (estimates with
	// the laws of LaminarFloor, no published source).
	WaterShare units.Ratio
	// LaminarFloor is the least coefficient on the water side as a share of that
	// at design: 100 % if the design flow is laminar; 0 is DefaultLaminarFloor.
	LaminarFloor units.Ratio

	Design   Temperatures           // what the plant is designed for; required
	Fluid    fluid.Fluid            // zero is water
	Pressure units.AbsolutePressure // of the water; zero is 300 kPa abs
}

// Floor is a floor with embedded pipes by EN 1264:
//
//	q = K_H·Δθ_H,  Δθ_H = (θV − θR)/ln((θV − θi)/(θR − θi))
//
// (EN 1264-2, clause on the thermal output; θV flow, θR return, θi room), which
// together with the water's balance is Φ = C·(θV − θi)·(1 − e^(−K_H·A/C)).
//
// The standard's K_H holds for turbulent flow in the pipes. Throttled loops turn
// laminar, many of them not far below their design flow; what that takes from
// the heat is in the model only with a WaterShare, in the form of the two
// resistances of a [Coil].
//
// The surface lies between the water and the room, so that no pipes, however
// close and bare, give more than the surface does at the mean temperature of the
// water:
//
//	heated  K_H < 8.92·Δθ_H^0.1 W/(m²·K)
//	cooled  K_H < 6.5 W/(m²·K)
//
// by the laws of [Floor.SurfaceTemperature]. NewFloor refuses a greater K_H at
// the design temperatures; common floors have 1 to 6 W/(m²·K).
//
// Heat is what leaves upwards into the room. What is lost downwards (EN 1264-3)
// needs more water and is not in the model. It is a steady state: a screed
// takes hours to get there. The zero Floor is none: its numbers are NaN.
type Floor struct {
	handle
	area units.Area
}

// NewFloor checks the configuration and returns the floor.
func NewFloor(c FloorConfig) (Floor, error) {
	l := check.List{Package: packageName}
	positive := check.Positive(&l, "Conductance", c.Conductance)
	positive = check.Positive(&l, "Area", c.Area) && positive
	if c.Design.check(&l, "Design") && positive {
		c.checkSurface(&l)
	}
	side := newWaterSide(&l, c.WaterShare, c.LaminarFloor)
	properties := newLiquid(&l, c.Fluid, c.Pressure, c.Design, "Design")
	if err := l.Err(); err != nil {
		return Floor{}, err
	}
	flow := float64(c.Conductance) * float64(c.Design.LogMean()) / (properties.capacity() * c.Design.spread())
	side.per = 1 / flow
	m := model{kind: powerLaw, liquid: properties}
	m.emitter = emitter{logCoefficient: math.Log(float64(c.Conductance)), exponent: 1, side: side}
	m.settle(flow, c.Design, Conditions{Supply: c.Design.Supply, Air: c.Design.Air})
	return Floor{handle{&m}, c.Area}, nil
}

// checkSurface requires a surface between water and room at design.
func (c *FloorConfig) checkSurface(l *check.List) {
	mean := float64(c.Design.LogMean())
	most := units.ThermalConductance(surfaceFlux(mean, c.Design.direction()) / mean * float64(c.Area))
	l.Require(c.Conductance < most, "Conductance", c.Conductance, fmt.Sprintf(
		"less than %v, all that a surface of %v passes at these temperatures (EN 1264)", most, c.Area))
}

// Constants of the surface of a floor.
const (
	basicCoefficient  = 8.92 // W/(m²·K^1.1), EN 1264-2, basic characteristic
	basicExponent     = 1.1
	cooledCoefficient = 6.5 // W/(m²·K), EN 1264-5, cooled floor (from memory)
)

// surfaceFlux is the heat in W/m² at a difference in K of surface and room,
// surfaceExcess its inverse; direction is +1 for a warm surface, −1 for a cold one.
func surfaceFlux(excess, direction float64) float64 {
	if direction < 0 {
		return cooledCoefficient * excess
	}
	return basicCoefficient * math.Pow(excess, basicExponent)
}

func surfaceExcess(flux, direction float64) float64 {
	if direction < 0 {
		return flux / cooledCoefficient
	}
	return math.Pow(flux/basicCoefficient, 1/basicExponent)
}

// SurfaceTemperature returns the mean temperature θF of the floor's surface at
// flow q and the conditions c. A heated floor has
//
//	Φ/A = 8.92·(θF − θi)^1.1 W/m²
//
// (EN 1264-2, basic characteristic: 100 W/m² at 29 °C in a room of 20 °C, the
// standard's limit for where people stay; 35 °C along the outer walls); a
// cooled floor has Φ/A = 6.5·(θi − θF) (EN 1264-5, from memory).
//
// The surface is never beyond the mean temperature Δθ_H of the water. The laws
// would put it there for a trickle that warms the floor by fractions of a
// kelvin, where the coefficient of the first vanishes, and for a K_H made for
// heating that is asked about cooling.
func (f Floor) SurfaceTemperature(q units.Flow, c Conditions) units.Temperature {
	m := f.model()
	s := m.state(c)
	heat := m.heat(float64(q), &s)
	up := m.direction * s.sign
	excess := min(surfaceExcess(heat/float64(f.area), up), m.emitter.mean(heat, float64(q)))
	return s.conditions.Air.Add(units.TemperatureDifference(up * excess))
}

// Equal reports whether f and g are the same floor at the same design.
func (f Floor) Equal(g Floor) bool { return f.area == g.area && f.equal(g.handle) }
