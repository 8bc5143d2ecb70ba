package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/units"
)

func TestZeroUnit(t *testing.T) {
	var u units.Unit
	assert.True(t, u.IsZero())
	assert.Empty(t, u.String())
	assert.Equal(t, units.QuantityRatio, u.Quantity())
	assert.True(t, math.IsNaN(u.SI(1)))
	assert.True(t, math.IsNaN(u.FromSI(1)))
	assert.Empty(t, u.Format(1, 2))
	_, ok := u.BACnet()
	assert.False(t, ok)
	_, ok = u.UCUM()
	assert.False(t, ok)
}

func TestUnknownUnits(t *testing.T) {
	const none = units.Quantity(255)
	assert.Nil(t, units.UnitsOf(none))
	assert.Equal(t, "unknown quantity", none.String())
	for _, found := range []func() (units.Unit, bool){
		func() (units.Unit, bool) { return units.UnitOf(none, "m") },
		func() (units.Unit, bool) { return units.UnitOf(units.QuantityFlow, "m") },
		func() (units.Unit, bool) { return units.UnitByBACnet(-1) },
		func() (units.Unit, bool) { return units.UnitByBACnet(65535) },
		func() (units.Unit, bool) { return units.UnitByUCUM(units.QuantityFlow, "m") },
		func() (units.Unit, bool) { return units.UnitByUCUM(units.QuantityFlowCoefficient, "") },
	} {
		u, ok := found()
		assert.False(t, ok)
		assert.True(t, u.IsZero())
	}
}

func TestUnitsOfEachQuantity(t *testing.T) {
	names := map[string]bool{}
	for _, q := range allQuantities() {
		assert.False(t, names[q.String()], "two quantities are called %v", q)
		names[q.String()] = true
		list := units.UnitsOf(q)
		assert.InDelta(t, 1, list[0].SI(1), 0, "%v: the SI unit comes first", q)
		symbols := map[string]bool{}
		for _, u := range list {
			assert.Equal(t, q, u.Quantity(), u)
			assert.False(t, symbols[u.String()], "%v has %v twice", q, u)
			symbols[u.String()] = true
			found, ok := units.UnitOf(q, u.String())
			assert.True(t, ok, u)
			assert.Equal(t, u, found, "%v: another unit answers to %q", q, u)
		}
	}
	assert.Len(t, names, 26)
}

func TestUnitFormat(t *testing.T) {
	for _, tt := range []struct {
		quantity units.Quantity
		symbol   string
		si       float64
		decimals int
		want     string
	}{
		{units.QuantityFlow, "l/s", 0.0003, 3, "0.300 l/s"},
		{units.QuantityTemperature, "°C", 294.15, 1, "21.0 °C"},
		{units.QuantityTemperature, "°F", 294.15, 1, "69.8 °F"},
		{units.QuantityPressure, "Pa", -0.4, 0, "0 Pa"},
		{units.QuantityPressure, "Pa", -0.6, 0, "-1 Pa"},
		{units.QuantityPressure, "kPa", 12345, -1, "12 kPa"},
		{units.QuantityRatio, "", 0.5, 2, "0.50"},
		{units.QuantityRatio, "%", 0.5, 0, "50 %"},
		{units.QuantityFlow, "l/s", math.NaN(), 1, "NaN l/s"},
		{units.QuantityFlow, "l/s", math.Inf(-1), 1, "-Inf l/s"},
	} {
		u, ok := units.UnitOf(tt.quantity, tt.symbol)
		assert.True(t, ok, tt.symbol)
		assert.Equal(t, tt.want, u.Format(tt.si, tt.decimals))
	}
}
