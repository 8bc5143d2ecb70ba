package units

import "math"

// Angle holds radians: the rotation of a ball or butterfly valve.
type Angle float64

// Units of Angle.
const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
)

var angleTable = table{
	name: "angle",
	units: []unitDef{
		{quantity: QuantityAngle, symbol: "rad", factor: float64(Radian), ucum: "rad", bacnet: 103 + 1},
		{quantity: QuantityAngle, symbol: "°", factor: float64(Degree), ucum: "deg", bacnet: 90 + 1},
	},
	show: []display{{symbol: "°"}},
}
