package valve

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// CoefficientTolerance returns by how much the coefficient of a delivered valve
// may differ, either way, from the stated inherent characteristic at the
// relative coefficient phi: ±10·(1/φ)^0.2 % of the stated value (IEC 60534-2-4,
// from memory), 10 % fully open and 21.9 % at φ = 0.02. It belongs in every
// comparison of a measured flow with a calculated one. It is infinite at 0 and
// clamps above 1.
func CoefficientTolerance(phi float64) units.Ratio {
	phi = min(max(phi, 0), 1)
	return units.Ratio(0.1 * math.Pow(phi, -0.2))
}
