package pump

import "github.com/indexrun/indexrun/units"

// standardGravity is 9.80665 m/s² (ISO 80000-3, item 3-9.2, number from memory).
const standardGravity = 9.80665

// Head converts a head in metres of the liquid pumped, as pump catalogues and
// many textbooks give it, to the pressure difference it is: ρ·g·h, with
// g = 9.80665 m/s². The same pump makes the same head of any thin liquid, so its
// pressure difference is proportional to the density.
func Head(h units.Length, rho units.Density) units.Pressure {
	return units.Pressure(float64(rho) * standardGravity * float64(h))
}

// Column is the inverse of [Head]: the height of a column of the liquid that a
// pressure difference carries.
func Column(dp units.Pressure, rho units.Density) units.Length {
	return units.Length(float64(dp) / (float64(rho) * standardGravity))
}
