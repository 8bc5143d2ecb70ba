package fluid

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/internal/reference"
)

// The verification values of IAPWS R7-97(2012), Table 5, to every printed digit.
func TestRegion1GivesTable5(t *testing.T) {
	c := reference.Compare(t, "water_if97_table5")
	for row := range c.Rows() {
		g := region1(row.Float("T_K"), row.Float("p_Pa"))
		for column, got := range map[string]float64{
			"v_m3_kg": 1 / g.density(), "cp_J_kgK": g.specificHeat(), "w_m_s": g.speedOfSound(),
		} {
			c.Check(row, column, got)
			assert.Equal(t, nineDigits(row.Float(column)), nineDigits(got), "%s, %v", column, row)
		}
	}
	c.Require(5e-9)
}

// Specific isochoric heat capacity and isothermal compressibility are not in
// Table 5; the values are those that the iapws library documents.
func TestRegion1GivesDerivedProperties(t *testing.T) {
	g := region1(300, 80e6)
	assert.InEpsilon(t, 3917.36606, g.isochoricSpecificHeat(), 2e-9)
	g = region1(500, 3e6)
	assert.InEpsilon(t, 0.00112892188e-6, g.densityByPressure()/g.density(), 4e-9)
}

func TestPowersReachEveryExponent(t *testing.T) {
	var xs, ys powers
	xs.fill(2, stepsOfX[:])
	ys.fill(2, stepsOfY[:])
	for _, e := range region1Terms {
		assert.Equal(t, powerOf2(e.i), xs.to(e.i), "2^%d", e.i)
		assert.Equal(t, powerOf2(e.j), ys.to(e.j), "2^%d", e.j)
	}
}

func powerOf2(n int) float64 {
	p := 1.0
	for range max(n, -n) {
		p *= 2
	}
	if n < 0 {
		return 1 / p
	}
	return p
}

func nineDigits(x float64) string { return fmt.Sprintf("%.8e", x) }
