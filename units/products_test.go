package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/units"
)

// Each named product against a figure worked by hand, in SI and in trade units.
func TestProducts(t *testing.T) {
	flow := 0.3 * units.LitrePerSecond
	rho := 998 * units.KilogramPerCubicMetre
	area := 2 * units.SquareCentimetre
	for name, tt := range map[string]struct{ want, got float64 }{
		"q·ρ":         {0.2994, flow.MassFlow(rho).In(units.KilogramPerSecond)},
		"m/ρ":         {0.3, flow.MassFlow(rho).Flow(rho).In(units.LitrePerSecond)},
		"q/a":         {1.5, flow.Velocity(area).In(units.MetrePerSecond)},
		"v·a":         {0.3, (1.5 * units.MetrePerSecond).Flow(area).In(units.LitrePerSecond)},
		"Δp·a":        {8, (40 * units.Kilopascal).Force(area).In(units.Newton)},
		"F/a":         {40, (8 * units.Newton).Over(area).In(units.Kilopascal)},
		"Δp·q":        {12, (40 * units.Kilopascal).Power(flow).In(units.Watt)},
		"R·l":         {3, (300 * units.PascalPerMetre).Over(10 * units.Metre).In(units.Kilopascal)},
		"µ/ρ":         {1.002004008016, (1 * units.MillipascalSecond).Kinematic(rho).In(units.SquareMillimetrePerSecond)},
		"π·d²/4":      {1.767145867644, units.CircleArea(15 * units.Millimetre).In(units.SquareCentimetre)},
		"√(4a/π)":     {15, units.CircleArea(15 * units.Millimetre).CircleDiameter().In(units.Millimetre)},
		"I·R":         {6, (12 * units.Milliampere).Through(500 * units.Ohm).In(units.Volt)},
		"U/R":         {12, (6 * units.Volt).Across(500 * units.Ohm).In(units.Milliampere)},
		"R ∥ S":       {497.512437810945, (500 * units.Ohm).Parallel(100 * units.Kilohm).In(units.Ohm)},
		"R ∥ R":       {250, (500 * units.Ohm).Parallel(500 * units.Ohm).In(units.Ohm)},
		"TR per Btu":  {12000, (1 * units.TonOfRefrigeration).In(units.BtuPerHour)},
		"ft in in":    {12, (1 * units.Foot).In(units.Inch)},
		"bar in kPa":  {100, (1 * units.Bar).In(units.Kilopascal)},
		"m³/h in l/h": {1000, (1 * units.CubicMetrePerHour).In(units.LitrePerHour)},
	} {
		assert.InEpsilon(t, tt.want, tt.got, 1e-12, name)
	}
}

func TestParallelAtTheLimits(t *testing.T) {
	r, infinite := 500*units.Ohm, units.Resistance(math.Inf(1))
	assert.Equal(t, r, r.Parallel(infinite))
	assert.Equal(t, r, infinite.Parallel(r))
	assert.Equal(t, infinite, infinite.Parallel(infinite))
	assert.Zero(t, r.Parallel(0))
	assert.Zero(t, units.Resistance(0).Parallel(0))
	assert.True(t, math.IsNaN(float64(r.Parallel(units.Resistance(math.NaN())))))
}
