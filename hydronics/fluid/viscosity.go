package fluid

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastexp"
)

// viscosity is IAPWS R12-08 in Pa·s for water at T in K and rho in kg/m³:
// µ = µ0(T)·µ1(T, ρ), equations 10 to 12. The third factor, the critical
// enhancement µ2, is 1 here, as the release allows for industrial use
// (section 3 there): in the range of this package it exceeds 1 only near
// saturation above 155 °C, and by at most 1.1e-9 (at 200 °C; equations 14 to 21
// there with IF97 derivatives).
func viscosity(T, rho float64) float64 {
	reduced := criticalKelvin / T
	dilute := 100 * math.Sqrt(T/criticalKelvin) / diluteViscosity.at(reduced)
	density := rho / criticalKilogram
	return 1e-6 * dilute * fastexp.Exp(density*denseViscosity.at(density-1, reduced-1))
}

// diluteViscosity holds H0 … H3 of Table 1 of R12-08, by the power of T*/T.
var diluteViscosity = polynomial{1.67752, 2.20462, 0.6366564, -0.241605}

// denseViscosity holds Hij of Table 2 of R12-08: rows by j, the power of
// ρ/ρ* − 1; columns by i, the power of T*/T − 1.
var denseViscosity = series{
	{0.520094, 0.0850895, -1.08374, -0.289555},
	{0.222531, 0.999115, 1.88797, 1.26613, 0, 0.120573},
	{-0.281378, -0.906851, -0.772479, -0.489837, -0.257040},
	{0.161913, 0.257399},
	{-0.0325372, 0, 0, 0.0698452},
	{0, 0, 0, 0, 0.00872102},
	{0, 0, 0, -0.00435673, 0, -0.000593264},
}
