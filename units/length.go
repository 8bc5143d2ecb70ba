package units

import "math"

// Length holds metres: a stroke, a diameter, a pipe run, a roughness.
type Length float64

// Units of Length. The inch is 25.4 mm exactly.
const (
	Metre      Length = 1
	Kilometre  Length = 1e3
	Centimetre Length = 1e-2
	Millimetre Length = 1e-3
	Micrometre Length = 1e-6
	Inch       Length = metrePerInch
	Foot       Length = 12 * metrePerInch
)

var lengthTable = table{
	name: "length",
	units: []unitDef{
		{quantity: QuantityLength, symbol: "m", factor: float64(Metre), ucum: "m", bacnet: 31 + 1},
		{quantity: QuantityLength, symbol: "km", factor: float64(Kilometre), ucum: "km", bacnet: 193 + 1},
		{quantity: QuantityLength, symbol: "cm", factor: float64(Centimetre), ucum: "cm", bacnet: 118 + 1},
		{quantity: QuantityLength, symbol: "mm", factor: float64(Millimetre), ucum: "mm", bacnet: 30 + 1},
		{quantity: QuantityLength, symbol: "µm", factor: float64(Micrometre), ucum: "um", bacnet: 194 + 1},
		{quantity: QuantityLength, symbol: "in", factor: float64(Inch), aliases: []string{`"`, "inch"}, ucum: "[in_i]", bacnet: 32 + 1},
		{quantity: QuantityLength, symbol: "ft", factor: float64(Foot), aliases: []string{"'"}, ucum: "[ft_i]", bacnet: 33 + 1},
	},
	show: []display{{symbol: "m", atSI: 1}, {symbol: "mm", atSI: 1e-4}, {symbol: "µm"}},
}

// CircleArea returns the area of a circle of diameter d: π·d²/4.
func CircleArea(d Length) Area { return Area(math.Pi / 4 * float64(d) * float64(d)) }
