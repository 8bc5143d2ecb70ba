package units

import "cmp"

// AbsolutePressure is a pressure above vacuum. It is a type of its own, so that
// a vapour pressure is never compared with a pressure difference by mistake.
// The zero value is vacuum, which no liquid model accepts: it reads as not set.
type AbsolutePressure struct{ pa float64 }

// Absolute makes an absolute pressure from its difference to vacuum:
// Absolute(3 * Bar) is 3 bar abs.
func Absolute(p Pressure) AbsolutePressure { return AbsolutePressure{float64(p)} }

// Atmospheric is the standard atmosphere, 101.325 kPa (ISO 2533).
func Atmospheric() AbsolutePressure { return AbsolutePressure{101325} }

// Gauge makes an absolute pressure from a gauge reading, which counts from the
// standard atmosphere: Gauge(1 * Bar) is 2.01325 bar abs. Where the barometer or
// the altitude matters, add the reading to the actual atmosphere instead.
func Gauge(p Pressure) AbsolutePressure { return Atmospheric().Add(p) }

// Sub returns the difference p − q.
func (p AbsolutePressure) Sub(q AbsolutePressure) Pressure { return Pressure(p.pa - q.pa) }

// Add returns p raised by dp.
func (p AbsolutePressure) Add(dp Pressure) AbsolutePressure {
	return AbsolutePressure{p.pa + float64(dp)}
}

// AboveVacuum returns the difference to vacuum, the inverse of [Absolute].
func (p AbsolutePressure) AboveVacuum() Pressure { return Pressure(p.pa) }

// Fixed writes p in one of the units of [Pressure] with that many decimals,
// such as "300.0 kPa abs"; a unit without an absolute form gives Pa abs.
func (p AbsolutePressure) Fixed(unit Pressure, decimals int) string {
	return absolutePressureTable.format(p.pa, float64(unit), decimals)
}

// Equal reports whether p and q are the same pressure, as == does; it serves
// packages that compare structs, such as go-cmp.
func (p AbsolutePressure) Equal(q AbsolutePressure) bool { return p == q }

// IsZero reports whether p is vacuum, that is, not set.
func (p AbsolutePressure) IsZero() bool { return p == AbsolutePressure{} }

// Compare returns −1, 0 or +1 as p is below, equal to or above q.
func (p AbsolutePressure) Compare(q AbsolutePressure) int { return cmp.Compare(p.pa, q.pa) }

var absolutePressureTable = table{
	name:     "absolute pressure",
	absolute: true,
	units: []unitDef{
		{quantity: QuantityAbsolutePressure, symbol: "Pa abs", factor: float64(Pascal), aliases: []string{"Pa(a)"}, ucum: "Pa"},
		{quantity: QuantityAbsolutePressure, symbol: "kPa abs", factor: float64(Kilopascal), aliases: []string{"kPa(a)"}, ucum: "kPa"},
		{quantity: QuantityAbsolutePressure, symbol: "MPa abs", factor: 1e6, aliases: []string{"MPa(a)"}, ucum: "MPa"},
		{quantity: QuantityAbsolutePressure, symbol: "bar abs", factor: float64(Bar), aliases: []string{"bar(a)", "bara"}, ucum: "bar"},
		{quantity: QuantityAbsolutePressure, symbol: "psi abs", factor: float64(PoundPerSquareInch), aliases: []string{"psi(a)", "psia"}, ucum: "[psi]"},
	},
	show: []display{{symbol: "kPa abs", atSI: 100}, {symbol: "Pa abs"}},
}
