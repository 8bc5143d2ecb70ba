package units

import (
	"math"
	"slices"
	"strconv"
)

// A Unit is one unit of one quantity together with its codes in BACnet
// (ASHRAE 135 / ISO 16484-5, BACnetEngineeringUnits) and in UCUM (the Unified
// Code for Units of Measure). It serves code that learns its units at run time,
// such as a building controller reading a point; code that knows them uses the
// typed constants. Units are comparable; the zero Unit is no unit.
type Unit struct{ def *unitDef }

// unitDef is one row of a table: SI value = number·factor + offset.
type unitDef struct {
	quantity Quantity
	symbol   string
	factor   float64
	offset   float64
	aliases  []string
	ucum     string
	bacnet   int // the code plus one, so that zero means none
}

// UnitsOf lists the units known for a quantity, the SI unit first.
func UnitsOf(q Quantity) []Unit {
	t := tableOf(q)
	if t == nil {
		return nil
	}
	list := make([]Unit, len(t.units))
	for i := range t.units {
		list[i] = Unit{&t.units[i]}
	}
	return list
}

// UnitOf finds a unit of q by the spelling that the Parse functions accept.
func UnitOf(q Quantity, symbol string) (Unit, bool) {
	t := tableOf(q)
	if t == nil {
		return Unit{}, false
	}
	d := t.find(symbol)
	return Unit{d}, d != nil
}

// UnitByBACnet finds a unit by its BACnet engineering-unit code: 87 is l/s.
func UnitByBACnet(code int) (Unit, bool) {
	return findUnit(func(d *unitDef) bool { return code >= 0 && d.bacnet == code+1 })
}

// UnitByUCUM finds a unit of q by its UCUM code: "L/s" is l/s. The quantity is
// asked for because UCUM gives one code to a temperature and a temperature
// difference, and to an absolute pressure and a pressure difference.
func UnitByUCUM(q Quantity, code string) (Unit, bool) {
	return findUnit(func(d *unitDef) bool { return code != "" && d.quantity == q && d.ucum == code })
}

func findUnit(match func(*unitDef) bool) (Unit, bool) {
	for _, t := range tables {
		if i := slices.IndexFunc(t.units, func(d unitDef) bool { return match(&d) }); i >= 0 {
			return Unit{&t.units[i]}, true
		}
	}
	return Unit{}, false
}

// Equal reports whether u and v are the same unit, as == does; it serves
// packages that compare structs, such as go-cmp.
func (u Unit) Equal(v Unit) bool { return u == v }

// IsZero reports whether u is no unit.
func (u Unit) IsZero() bool { return u.def == nil }

// Quantity returns what the unit measures; [QuantityRatio] for no unit.
func (u Unit) Quantity() Quantity {
	if u.def == nil {
		return QuantityRatio
	}
	return u.def.quantity
}

// String returns the symbol, such as "m³/h".
func (u Unit) String() string {
	if u.def == nil {
		return ""
	}
	return u.def.symbol
}

// BACnet returns the BACnet engineering-unit code, if there is one.
func (u Unit) BACnet() (code int, ok bool) {
	if u.def == nil || u.def.bacnet == 0 {
		return 0, false
	}
	return u.def.bacnet - 1, true
}

// UCUM returns the UCUM code, if there is one. For a unit that UCUM has no atom for
// it is an expression: a ton of refrigeration is "12000.[Btu_IT]/h".
func (u Unit) UCUM() (code string, ok bool) {
	if u.def == nil {
		return "", false
	}
	return u.def.ucum, u.def.ucum != ""
}

// SI converts a number in this unit to SI: it is what the quantity's type
// holds (kelvin for a temperature, pascal for a pressure, Kv for a flow
// coefficient). NaN for no unit.
func (u Unit) SI(x float64) float64 {
	if u.def == nil {
		return math.NaN()
	}
	return u.def.si(x)
}

// FromSI is the inverse of [Unit.SI].
func (u Unit) FromSI(si float64) float64 {
	if u.def == nil {
		return math.NaN()
	}
	return u.def.fromSI(si)
}

// Format writes an SI value in this unit with a fixed number of decimals and
// the symbol, such as "0.300 l/s".
func (u Unit) Format(si float64, decimals int) string {
	if u.def == nil {
		return ""
	}
	return u.def.format(si, decimals)
}

func (d *unitDef) si(x float64) float64      { return float64(x*d.factor) + d.offset }
func (d *unitDef) fromSI(si float64) float64 { return (si - d.offset) / d.factor }

func (d *unitDef) format(si float64, decimals int) string {
	text := strconv.FormatFloat(d.fromSI(si), 'f', max(decimals, 0), 64)
	return join(positiveZero(text), d.symbol)
}

// positiveZero drops the sign of a number that was rounded to zero.
func positiveZero(text string) string {
	if text[0] == '-' && !hasNonZeroDigit(text) {
		return text[1:]
	}
	return text
}

func hasNonZeroDigit(text string) bool {
	return slices.ContainsFunc([]byte(text), func(c byte) bool { return c >= '1' && c <= '9' || c == 'I' || c == 'N' })
}

func join(number, symbol string) string {
	if symbol == "" {
		return number
	}
	return number + " " + symbol
}
