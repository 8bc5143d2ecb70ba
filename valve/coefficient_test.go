package valve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The definitions of Kv and Av by pint: q = Av·√(Δp/ρ).
func TestCoefficientAgainstReference(t *testing.T) {
	c := reference.Compare(t, "kv")
	for row := range c.Rows() {
		kv := units.FlowCoefficient(row.Float("Kv"))
		q := units.Flow(row.Float("Av_m2") * math.Sqrt(52000/871.5))
		c.Note(row, "flow", reference.RelDiff(float64(valve.FlowThrough(kv, 52*units.Kilopascal, 871.5)), float64(q)), "")
		c.Note(row, "pressure", reference.RelDiff(float64(valve.PressureDrop(kv, q, 871.5)), 52000), "")
		c.Check(row, "Kv", float64(valve.CoefficientFor(q, 52*units.Kilopascal, 871.5)))
	}
	c.Require(2e-15, "pressure") // the square doubles the roundings of the recorded numbers
	c.Require(1e-15)
}

func TestCoefficientThreeWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kv := units.FlowCoefficient(math.Pow(10, rapid.Float64Range(-3, 3).Draw(t, "lg kv")))
		rho := units.Density(rapid.Float64Range(700, 1200).Draw(t, "rho"))
		dp := anyPressure(t, "dp")
		q := valve.FlowThrough(kv, dp, rho)
		assert.Less(t, reference.RelDiff(float64(valve.PressureDrop(kv, q, rho)), float64(dp)), 2e-15)
		assert.Less(t, reference.RelDiff(float64(valve.CoefficientFor(q, dp, rho)), float64(kv)), 2e-15)
	})
}
