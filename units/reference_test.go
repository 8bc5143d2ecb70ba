package units_test

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

// allQuantities lists every quantity of the package.
func allQuantities() []units.Quantity {
	var list []units.Quantity
	for q := units.Quantity(0); units.UnitsOf(q) != nil; q++ {
		list = append(list, q)
	}
	return list
}

// unitOf finds the unit of a row of a recorded table.
func unitOf(t *testing.T, row reference.Row) units.Unit {
	t.Helper()
	symbol := row.Text("unit")
	if symbol == "1" {
		symbol = ""
	}
	for _, q := range allQuantities() {
		if q.String() != row.Text("quantity") {
			continue
		}
		unit, ok := units.UnitOf(q, symbol)
		require.True(t, ok, "no unit for %v", row)
		require.Equal(t, symbol, unit.String(), "the recorded spelling is the symbol: %v", row)
		return unit
	}
	require.Fail(t, "no quantity", row)
	return units.Unit{}
}

// name identifies a unit in the lists of the tests.
func name(u units.Unit) string { return strings.TrimSpace(u.Quantity().String() + " " + u.String()) }

// Factors and offsets are those of pint's exact definitions, rounded once.
func TestFactorsAgainstPint(t *testing.T) {
	const ulp = 0x1p-52
	seen := map[string]bool{}
	c := reference.Compare(t, "units")
	for row := range c.Rows() {
		unit := unitOf(t, row)
		seen[name(unit)] = true
		offset := unit.SI(0)
		c.Check(row, "offset", offset)
		if row.Float("offset") == 0 {
			c.Check(row, "factor", unit.SI(1))
		} else {
			c.Note(row, "factor with offset", reference.RelDiff(unit.SI(1)-offset, row.Float("factor")), "")
		}
	}
	c.Require(1e-13, "factor with offset") // the difference of two temperatures near 273 K
	c.Require(ulp)
	for _, q := range allQuantities() {
		for _, unit := range units.UnitsOf(q) {
			if q != units.QuantityFlowCoefficient { // see TestFlowCoefficientAgainstPint
				assert.True(t, seen[name(unit)], "%s has no recorded factor", name(unit))
			}
		}
	}
}

func TestConversionsAgainstPint(t *testing.T) {
	c := reference.Compare(t, "units_points")
	for row := range c.Rows() {
		unit, value, si := unitOf(t, row), row.Float("value"), row.Float("si")
		c.Check(row, "si", unit.SI(value))
		scale := math.Abs(value)
		if offset := math.Abs(unit.SI(0)); offset > 0 { // digits that the sum with the offset has lost
			scale *= 1 + offset/math.Abs(si-offset)
		}
		c.Note(row, "value", (unit.FromSI(si)-value)/scale, "")
	}
	c.Require(1e-15)
}

func TestFlowCoefficientAgainstPint(t *testing.T) {
	c := reference.Compare(t, "kv")
	for row := range c.Rows() {
		k := units.FlowCoefficient(row.Float("Cv")) * units.Cv
		c.Check(row, "Kv", k.In(units.Kv))
		c.Check(row, "Kv_fluids", k.In(units.Kv))
		c.Check(row, "Av_m2", k.In(units.SquareMetreAv))
	}
	c.Require(1e-15)
	// IEC 60534-1 prints three digits.
	assert.InDelta(t, 0.865, (1 * units.Cv).In(units.Kv), 0.0005)
}

func TestUCUMCodes(t *testing.T) {
	coded := map[string]bool{}
	c := reference.Compare(t, "ucum")
	for row := range c.Rows() {
		unit := unitOf(t, row)
		coded[name(unit)] = true
		code, ok := unit.UCUM()
		assert.True(t, ok, row)
		assert.Equal(t, row.Text("ucum"), code, row)
		c.Check(row, "factor", unit.SI(1)-unit.SI(0))
		found, ok := units.UnitByUCUM(unit.Quantity(), code)
		assert.True(t, ok, row)
		assert.Equal(t, unit, found, row)
	}
	c.Require(1e-13)
	// UCUM knows pressure and not absolute pressure: the codes are those of pressure.
	for _, unit := range units.UnitsOf(units.QuantityAbsolutePressure) {
		code, ok := unit.UCUM()
		assert.True(t, ok, unit)
		coded[name(unit)] = true
		if code == "MPa" { // a prefix that pressure differences do without
			continue
		}
		same, ok := units.UnitByUCUM(units.QuantityPressure, code)
		require.True(t, ok, unit)
		assert.InEpsilon(t, same.SI(1), unit.SI(1), 1e-15, unit)
	}
	assertWithoutCode(t, coded, func(u units.Unit) bool { _, ok := u.UCUM(); return ok },
		"flow coefficient Kv", "flow coefficient Cv", "flow coefficient m²")
}

func TestBACnetCodes(t *testing.T) {
	coded := map[string]bool{}
	c := reference.Compare(t, "bacnet")
	for row := range c.Rows() {
		unit := unitOf(t, row)
		coded[name(unit)] = true
		code, ok := unit.BACnet()
		assert.True(t, ok, row)
		c.Check(row, "code", float64(code))
		found, ok := units.UnitByBACnet(code)
		assert.True(t, ok, row)
		assert.Equal(t, unit, found, row)
	}
	c.Require(0)
	assertWithoutCode(t, coded, func(u units.Unit) bool { _, ok := u.BACnet(); return ok },
		"flow coefficient Kv", "flow coefficient Cv", "flow coefficient m²",
		"absolute pressure Pa abs", "absolute pressure kPa abs", "absolute pressure MPa abs",
		"absolute pressure bar abs", "absolute pressure psi abs",
		"pressure MPa", "pressure mH2O", "pressure ftH2O", "area mm²", "density lb/ft³", "dynamic viscosity mPa·s",
		"kinematic viscosity m²/s", "kinematic viscosity mm²/s", "specific heat kJ/(kg·K)",
		"specific heat Btu/(lb·°F)", "thermal conductivity Btu/(h·ft·°F)", "thermal conductance W/K",
		"thermal conductance kW/K", "pressure gradient Pa/m", "pressure gradient kPa/m",
		"pressure gradient ftH2O/100 ft", "force kN", "force lbf", "torque lbf·in")
}

// assertWithoutCode requires that the units without a code are the listed ones, and
// that every code was checked.
func assertWithoutCode(t *testing.T, checked map[string]bool, hasCode func(units.Unit) bool, want ...string) {
	t.Helper()
	without := map[string]bool{}
	for _, q := range allQuantities() {
		for _, unit := range units.UnitsOf(q) {
			if hasCode(unit) {
				assert.True(t, checked[name(unit)], "the code of %s is not checked", name(unit))
			} else {
				without[name(unit)] = true
			}
		}
	}
	slices.Sort(want)
	assert.Equal(t, want, slices.Sorted(maps.Keys(without)))
}
