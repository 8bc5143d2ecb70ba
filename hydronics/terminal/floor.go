package terminal

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// FloorConfig describes a floor with embedded pipes.
type FloorConfig struct {
	// Conductance is K_H·A: the equivalent heat transmission coefficient by
	// EN 1264-2 (or -5 for cooling), which holds pipe spacing, screed and covering,
	// times Area; required.
	Conductance units.ThermalConductance
	Area        units.Area // heated; required

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
	check.Positive(&l, "Conductance", c.Conductance)
	check.Positive(&l, "Area", c.Area)
	c.Design.check(&l, "Design")
	properties := newLiquid(&l, c.Fluid, c.Pressure, c.Design)
	if err := l.Err(); err != nil {
		return Floor{}, err
	}
	m := model{kind: powerLaw, liquid: properties}
	m.emitter = emitter{logCoefficient: math.Log(float64(c.Conductance)), exponent: 1}
	m.settle(m.emitter.flowFor(c.Design, properties.capacity()), c.Design, Conditions{Supply: c.Design.Supply, Air: c.Design.Air})
	return Floor{handle{&m}, c.Area}, nil
}

// Constants of the surface of a floor.
const (
	basicCoefficient  = 8.92 // W/(m²·K^1.1), EN 1264-2, basic characteristic
	basicExponent     = 1.1
	cooledCoefficient = 6.5 // W/(m²·K), EN 1264-5, cooled floor (from memory)
)

// SurfaceTemperature returns the mean temperature θF of the floor's surface at
// flow q and the conditions c. A heated floor has
//
//	Φ/A = 8.92·(θF − θi)^1.1 W/m²
//
// (EN 1264-2, basic characteristic: 100 W/m² at 29 °C in a room of 20 °C, the
// standard's limit for where people stay; 35 °C along the outer walls); a
// cooled floor has Φ/A = 6.5·(θi − θF) (EN 1264-5, from memory).
func (f Floor) SurfaceTemperature(q units.Flow, c Conditions) units.Temperature {
	m := f.model()
	s := m.state(c)
	density := m.heat(float64(q), &s) / float64(f.area)
	up := m.direction * s.sign
	difference := math.Pow(density/basicCoefficient, 1/basicExponent)
	if up < 0 {
		difference = density / cooledCoefficient
	}
	return s.conditions.Air.Add(units.TemperatureDifference(up * difference))
}

// Equal reports whether f and g are the same floor at the same design.
func (f Floor) Equal(g Floor) bool { return f.area == g.area && f.equal(g.handle) }
