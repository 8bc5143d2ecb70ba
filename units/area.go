package units

import "math"

// Area holds m².
type Area float64

// Units of Area.
const (
	SquareMetre      Area = 1
	SquareCentimetre Area = 1e-4
	SquareMillimetre Area = 1e-6
	SquareInch       Area = metrePerInch * metrePerInch
	SquareFoot       Area = 144 * SquareInch
)

var areaTable = table{
	name: "area",
	units: []unitDef{
		{quantity: QuantityArea, symbol: "m²", factor: float64(SquareMetre), ucum: "m2", bacnet: 0 + 1},
		{quantity: QuantityArea, symbol: "cm²", factor: float64(SquareCentimetre), ucum: "cm2", bacnet: 116 + 1},
		{quantity: QuantityArea, symbol: "mm²", factor: float64(SquareMillimetre), ucum: "mm2"},
		{quantity: QuantityArea, symbol: "in²", factor: float64(SquareInch), aliases: []string{"sqin"}, ucum: "[in_i]2", bacnet: 115 + 1},
		{quantity: QuantityArea, symbol: "ft²", factor: float64(SquareFoot), aliases: []string{"sqft"}, ucum: "[ft_i]2", bacnet: 1 + 1},
	},
	show: []display{{symbol: "m²", atSI: 0.01}, {symbol: "cm²", atSI: 1e-4}, {symbol: "mm²"}},
}

// CircleDiameter returns the diameter of a circle of area a: √(4a/π).
func (a Area) CircleDiameter() Length { return Length(math.Sqrt(4 * float64(a) / math.Pi)) }
