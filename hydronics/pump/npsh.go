package pump

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Suction describes the way of the water to a pump: a point where the pressure
// is known (the surface of a vessel, the connection of the expansion vessel, a
// gauge at the inlet) and what lies between it and the pump.
type Suction struct {
	// Pressure at the point.
	Pressure units.AbsolutePressure

	// Height of the point above the pump's impeller; below zero if the pump
	// draws the water up.
	Height units.Length

	// Velocity of the water at the point: zero at a surface.
	Velocity units.Velocity

	// Loss between the point and the pump.
	Loss units.Pressure

	// Vapour is the vapour pressure of the liquid at the pump, Density its
	// density.
	Vapour  units.AbsolutePressure
	Density units.Density
}

// NPSH is the net positive suction head of an installation beside the one that
// the pump requires.
type NPSH struct {
	Available units.Length
	Required  units.Length
	Margin    units.Length // Available − Required; below zero the pump cavitates
	Ratio     float64      // Available/Required
}

// NPSH returns the net positive suction head available,
//
//	NPSH = (p − pv)/(ρ·g) + z + v²/(2g) − Δp/(ρ·g)
//
// and compares it with the one required, which a pump's data sheet gives at each
// flow and which is above zero. The required value is commonly that at which the
// head has already fallen by 3 %, so that a margin is needed; 0.5 m is common
// practice, no published source. The error names every fault.
//
// Source: ISO 17769-1:2012, 2.1.5 (the terms), and F. M. White, Fluid Mechanics,
// chapter 11, equations 11.19 and 11.20; numbers from memory.
func (s Suction) NPSH(required units.Length) (NPSH, error) {
	l := check.List{Package: "pump"}
	l.Require(s.Pressure.AboveVacuum() > 0 && !math.IsInf(float64(s.Pressure.AboveVacuum()), 0), "Pressure", s.Pressure, "a finite absolute pressure above zero")
	l.Require(s.Vapour.AboveVacuum() > 0 && !math.IsInf(float64(s.Vapour.AboveVacuum()), 0), "Vapour", s.Vapour, "a finite absolute pressure above zero")
	l.Require(!math.IsNaN(float64(s.Height)) && !math.IsInf(float64(s.Height), 0), "Height", s.Height, "a finite height")
	check.NotNegative(&l, "Velocity", s.Velocity)
	check.NotNegative(&l, "Loss", s.Loss)
	check.Positive(&l, "Density", s.Density)
	check.Positive(&l, "required NPSH", required)
	if err := l.Err(); err != nil {
		return NPSH{}, err
	}
	v := float64(s.Velocity)
	available := Column(s.Pressure.Sub(s.Vapour)-s.Loss, s.Density) + s.Height + units.Length(v*v/(2*standardGravity))
	return NPSH{Available: available, Required: required, Margin: available - required, Ratio: float64(available / required)}, nil
}
