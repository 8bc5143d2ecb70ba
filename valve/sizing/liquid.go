package sizing

import "github.com/indexrun/indexrun/units"

// A Liquid is what flows, at the temperature of the valve's inlet. The package
// comment shows how to take it from package fluid.
type Liquid struct {
	// Density ρ at the inlet.
	Density units.Density
	// VapourPressure pv; it must be below the inlet pressure.
	VapourPressure units.AbsolutePressure
	// CriticalPressure pc; zero means water's, [CriticalPressureOfWater]. It serves
	// glycol mixes too: up to a pv of 0.5 bar half the pc changes FF by 0.6 %.
	CriticalPressure units.AbsolutePressure
	// Viscosity ν, kinematic.
	Viscosity units.KinematicViscosity
}

// CriticalPressureOfWater returns 22.064 MPa (IAPWS R2-83).
func CriticalPressureOfWater() units.AbsolutePressure {
	return units.Absolute(22064 * units.Kilopascal)
}

func (l *Liquid) criticalPressure() units.AbsolutePressure {
	if l.CriticalPressure.IsZero() {
		return CriticalPressureOfWater()
	}
	return l.CriticalPressure
}
