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
	worst := 0.0
	for row := range reference.Must(t, "units").Rows() {
		unit := unitOf(t, row)
		seen[name(unit)] = true
		offset := unit.SI(0)
		assert.LessOrEqual(t, reference.RelDiff(offset, row.Float("offset")), ulp, row)
		diff := reference.RelDiff(unit.SI(1)-offset, row.Float("factor"))
		if row.Float("offset") != 0 {
			assert.Less(t, diff, 1e-13, row) // the difference of two temperatures near 273 K
			continue
		}
		assert.LessOrEqual(t, diff, ulp, row)
		worst = max(worst, diff)
	}
	t.Logf("worst relative difference of a factor: %.2g", worst)
	for _, q := range allQuantities() {
		for _, unit := range units.UnitsOf(q) {
			if q != units.QuantityFlowCoefficient { // see TestFlowCoefficientAgainstPint
				assert.True(t, seen[name(unit)], "%s has no recorded factor", name(unit))
			}
		}
	}
}

func TestConversionsAgainstPint(t *testing.T) {
	worst := 0.0
	for row := range reference.Must(t, "units_points").Rows() {
		unit := unitOf(t, row)
		diff := reference.RelDiff(unit.SI(row.Float("value")), row.Float("si"))
		back := reference.RelDiff(unit.FromSI(row.Float("si")), row.Float("value"))
		assert.Less(t, diff, 1e-15, row)
		tolerance := 1e-15
		if offset := math.Abs(unit.SI(0)); offset > 0 {
			tolerance += 1e-15 * offset / math.Abs(row.Float("si")-offset)
		}
		assert.Less(t, back, tolerance, row)
		worst = max(worst, diff)
	}
	t.Logf("worst relative difference of a conversion: %.2g", worst)
}

func TestFlowCoefficientAgainstPint(t *testing.T) {
	for row := range reference.Must(t, "kv").Rows() {
		k := units.FlowCoefficient(row.Float("Cv")) * units.Cv
		assert.Less(t, reference.RelDiff(k.In(units.Kv), row.Float("Kv")), 1e-15, row)
		assert.Less(t, reference.RelDiff(k.In(units.Kv), row.Float("Kv_fluids")), 1e-15, row)
		assert.Less(t, reference.RelDiff(k.In(units.SquareMetreAv), row.Float("Av_m2")), 1e-15, row)
	}
	// IEC 60534-1 prints three digits.
	assert.InDelta(t, 0.865, (1 * units.Cv).In(units.Kv), 0.0005)
}

func TestUCUMCodes(t *testing.T) {
	coded := map[string]bool{}
	for row := range reference.Must(t, "ucum").Rows() {
		unit := unitOf(t, row)
		coded[name(unit)] = true
		code, ok := unit.UCUM()
		assert.True(t, ok, row)
		assert.Equal(t, row.Text("ucum"), code, row)
		assert.InEpsilon(t, row.Float("factor"), unit.SI(1)-unit.SI(0), 1e-13, row)
		found, ok := units.UnitByUCUM(unit.Quantity(), code)
		assert.True(t, ok, row)
		assert.Equal(t, unit, found, row)
	}
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
	for row := range reference.Must(t, "bacnet").Rows() {
		unit := unitOf(t, row)
		coded[name(unit)] = true
		code, ok := unit.BACnet()
		assert.True(t, ok, row)
		assert.InDelta(t, row.Float("code"), code, 0, row)
		found, ok := units.UnitByBACnet(code)
		assert.True(t, ok, row)
		assert.Equal(t, unit, found, row)
	}
	assertWithoutCode(t, coded, func(u units.Unit) bool { _, ok := u.BACnet(); return ok },
		"flow coefficient Kv", "flow coefficient Cv", "flow coefficient m²",
		"absolute pressure Pa abs", "absolute pressure kPa abs", "absolute pressure MPa abs",
		"absolute pressure bar abs", "absolute pressure psi abs",
		"pressure mH2O", "pressure ftH2O", "area mm²", "density lb/ft³", "dynamic viscosity mPa·s",
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
