package units

import "math"

// Resistance is an electric resistance; it holds ohms.
type Resistance float64

// Units of Resistance.
const (
	Ohm      Resistance = 1
	Kilohm   Resistance = 1e3
	Milliohm Resistance = 1e-3
)

var resistanceTable = table{
	name: "resistance",
	units: []unitDef{
		{quantity: QuantityResistance, symbol: "Ω", factor: float64(Ohm), aliases: []string{"ohm"}, ucum: "Ohm", bacnet: 4 + 1},
		{quantity: QuantityResistance, symbol: "kΩ", factor: float64(Kilohm), aliases: []string{"kohm"}, ucum: "kOhm", bacnet: 122 + 1},
		{quantity: QuantityResistance, symbol: "mΩ", factor: float64(Milliohm), aliases: []string{"mohm"}, ucum: "mOhm", bacnet: 145 + 1},
	},
	usual: "Ω",
	show:  []display{{symbol: "kΩ", atSI: 1e3}, {symbol: "Ω", atSI: 1}, {symbol: "mΩ"}},
}

// Parallel returns the resistance of r and s side by side: r·s/(r+s). One of them
// may be infinite.
func (r Resistance) Parallel(s Resistance) Resistance {
	low, high := min(r, s), max(r, s)
	if low == 0 || math.IsInf(float64(high), 1) {
		return low
	}
	return low / (1 + low/high)
}
