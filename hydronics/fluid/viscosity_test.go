package fluid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/internal/reference"
)

// IAPWS R12-08, Table 4, to its six printed decimals (µPa·s).
func TestViscosityGivesTable4(t *testing.T) {
	c := reference.Compare(t, "water_r12_08_table4")
	for row := range c.Rows() {
		got := 1e6 * viscosity(row.Float("T_K"), row.Float("rho_kg_m3"))
		c.Check(row, "mu_uPa_s", got)
		assert.InDelta(t, row.Float("mu_uPa_s"), got, 6e-7, row)
	}
	c.Require(5e-8)
}

// The bound that the documentation states for the factor that is left out.
func TestViscosityEnhancementIsNegligible(t *testing.T) {
	greatest := 0.0
	for T := lowestSaturated; T <= warmestWater; T += 0.5 {
		for p := vapourPressure(T); p <= greatestOfWater; p *= 1.5 {
			greatest = max(greatest, viscosityEnhancement(T, p)-1)
		}
	}
	t.Logf("µ2 − 1 is at most %.2e", greatest)
	assert.Less(t, greatest, 1.1e-9)
	assert.Greater(t, greatest, 1e-10, "the sum is not worked out")
}

// viscosityEnhancement is µ2 of R12-08, equations 14, 15 and 20 to 21, for a
// correlation length below 0.3817 nm, with x_µ = 0.068, 1/qC = 1.9 nm and
// 1/qD = 1.1 nm.
func viscosityEnhancement(T, p float64) float64 {
	g := region1(T, p)
	density := g.density() / criticalKilogram
	reference := 1.5 * criticalKelvin / T / referenceCompressibility.at(density)
	excess := density * (criticalPascal/criticalKilogram*g.densityByPressure() - reference)
	length := 0.13 * math.Pow(max(excess, 0)/0.06, 0.630/1.239)
	c, d := length/1.9, length/1.1
	y := c / 5 * math.Pow(d, 5) * (1 - c + c*c - 765.0/504*d*d)
	return math.Exp(0.068 * y)
}
