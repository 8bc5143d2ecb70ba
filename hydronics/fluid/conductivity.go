package fluid

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastexp"
)

// conductivity is IAPWS R15-11 for industrial use in W/(m·K), for liquid water
// at the state of g: λ = λ0(T)·λ1(T, ρ) + λ2, with the critical
// enhancement λ2 of section 3 there from IF97 derivatives. The enhancement is
// zero up to about 155 °C and at most 2.2e-3 of λ at 200 °C and saturation.
func conductivity(g *gibbs, viscosity float64) float64 {
	rho := g.density()
	return 1e-3 * (plainConductivity(g.temperature, rho) + enhancement(g, rho, viscosity))
}

// plainConductivity is λ0·λ1 in mW/(m·K), equations 16 and 17.
func plainConductivity(T, rho float64) float64 {
	reduced := criticalKelvin / T
	dilute := math.Sqrt(T/criticalKelvin) / diluteConductivity.at(reduced)
	density := rho / criticalKilogram
	return dilute * fastexp.Exp(density*denseConductivity.at(reduced-1, density-1))
}

// Constants of the critical enhancement, Table 3 of R15-11.
const (
	enhancementScale     = 177.8514  // Λ
	enhancementGas       = 461.51805 // R, J/(kg·K)
	correlationCutoff    = 0.40      // 1/qD, nm
	correlationAmplitude = 0.13      // ξ0, nm
	correlationGamma     = 0.06      // Γ0
	correlationExponent  = 0.630 / 1.239
	correlationReference = 1.5 // T of reference / T*
	leastCorrelation     = 1.2e-7
)

// enhancement is λ2 in mW/(m·K), equations 18 to 24 with equation 25 for the
// reference compressibility.
func enhancement(g *gibbs, rho, viscosity float64) float64 {
	density, temperature := rho/criticalKilogram, g.temperature/criticalKelvin
	compressibility := criticalPascal / criticalKilogram * g.densityByPressure()
	reference := correlationReference / temperature / referenceCompressibility.at(density)
	excess := density * (compressibility - reference)
	if !(excess > 0) {
		return 0
	}
	length := correlationAmplitude * math.Pow(excess/correlationGamma, correlationExponent)
	y := length / correlationCutoff
	if y < leastCorrelation {
		return 0
	}
	cp := g.specificHeat()
	inverseKappa := g.isochoricSpecificHeat() / cp
	damping := 1 - fastexp.Exp(-1/(1/y+y*y/(3*density*density)))
	z := 2 / (math.Pi * y) * (float64((1-inverseKappa)*math.Atan(y)) + float64(inverseKappa*y) - damping)
	return enhancementScale * density * (cp / enhancementGas) * temperature / (viscosity * 1e6) * z
}

// diluteConductivity holds L0 … L4 of Table 1 of R15-11, by the power of T*/T.
var diluteConductivity = polynomial{2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4}

// denseConductivity holds Lij of Table 2 of R15-11: rows by i, the power of
// T*/T − 1; columns by j, the power of ρ/ρ* − 1.
var denseConductivity = series{
	{1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
	{2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
	{2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
	{-1.21051378, 1.60812989, -0.621178141, 0.0716373224},
	{-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
}

// referenceCompressibility is 1/ζ at 1.5·T*, the column of Table 6 of R15-11 for
// ρ/ρ* > 1.863 (600 kg/m³), below which region 1 does not come here.
var referenceCompressibility = polynomial{
	1.11999926419994, 0.595748562571649, 9.88952565078920, -10.3255051147040, 4.66861294457414, -0.503243546373828,
}
