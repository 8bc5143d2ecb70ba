package fluid

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/internal/reference"
)

// IAPWS R15-11, Table 4: without the enhancement, nine digits (mW/(m·K)).
func TestPlainConductivityGivesTable4(t *testing.T) {
	c := reference.Compare(t, "water_r15_11_table4")
	for row := range c.Rows() {
		got := plainConductivity(row.Float("T_K"), row.Float("rho_kg_m3"))
		c.Check(row, "k_mW_mK", got)
		assert.Equal(t, nineDigits(row.Float("k_mW_mK")), nineDigits(got), row)
	}
	c.Require(5e-9)
}

// IAPWS R15-11, Table 7: region 1 with the enhancement for industrial use. Its
// points lie above 200 °C, where the enhancement is large enough to show.
func TestConductivityGivesTable7(t *testing.T) {
	c := reference.Compare(t, "water_r15_11_table7")
	for row := range c.Rows() {
		g := region1(row.Float("T_K"), row.Float("p_Pa"))
		got := 1e3 * conductivity(&g, viscosity(g.temperature, g.density()))
		c.Check(row, "k_mW_mK", got)
		assert.Equal(t, nineDigits(row.Float("k_mW_mK")), nineDigits(got), row)
	}
	c.Require(5e-9)
}

// The statement of the documentation on the size of the enhancement.
func TestEnhancementIsSmall(t *testing.T) {
	greatest := 0.0
	for T := lowestSaturated; T <= warmestWater; T += 0.5 {
		g := region1(T, vapourPressure(T))
		share := enhancement(&g, g.density(), viscosity(T, g.density())) / (1e3 * conductivity(&g, viscosity(T, g.density())))
		if T < 273.15+155 {
			assert.Zero(t, share, "at %v K", T)
		}
		greatest = max(greatest, share)
	}
	t.Logf("λ2/λ is at most %.2e", greatest)
	assert.Less(t, greatest, 2.2e-3)
}
