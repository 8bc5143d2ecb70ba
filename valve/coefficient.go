package valve

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// ReferenceDensity is ρ0 of the flow coefficient's definition: water at 15 °C,
// 999.10 kg/m³ (IEC 60534-1).
const ReferenceDensity units.Density = 999.10

// FlowThrough returns the flow through a coefficient kv at a pressure
// difference: q = Kv·√(Δp/1 bar · ρ0/ρ), q in m³/h (IEC 60534-1, turbulent and
// not choked). rho is the density at the valve. A negative dp gives a negative
// flow.
func FlowThrough(kv units.FlowCoefficient, dp units.Pressure, rho units.Density) units.Flow {
	return units.Flow(math.Copysign(conductance(kv, rho)*math.Sqrt(math.Abs(float64(dp))), float64(dp)))
}

// PressureDrop returns the pressure difference of a flow through a coefficient
// kv: Δp = 1 bar · (q/Kv)² · ρ/ρ0, the inverse of [FlowThrough].
func PressureDrop(kv units.FlowCoefficient, q units.Flow, rho units.Density) units.Pressure {
	root := float64(q) / conductance(kv, rho)
	return units.Pressure(root * math.Abs(root))
}

// CoefficientFor returns the flow coefficient that passes a flow at a pressure
// difference: Kv = q·√(1 bar/Δp · ρ/ρ0); the signs of q and dp do not matter.
func CoefficientFor(q units.Flow, dp units.Pressure, rho units.Density) units.FlowCoefficient {
	return units.FlowCoefficient(math.Abs(float64(q)) / (conductance(units.Kv, rho) * math.Sqrt(math.Abs(float64(dp)))))
}

// conductance returns K of q = K·√Δp in m³/(s·√Pa).
func conductance(kv units.FlowCoefficient, rho units.Density) float64 {
	return float64(kv) * float64(units.CubicMetrePerHour) *
		math.Sqrt(float64(ReferenceDensity)/(float64(rho)*float64(units.Bar)))
}
