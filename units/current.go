package units

// Current is an electric current; it holds amperes.
type Current float64

// Units of Current.
const (
	Ampere      Current = 1
	Milliampere Current = 1e-3
)

var currentTable = table{
	name: "current",
	units: []unitDef{
		{quantity: QuantityCurrent, symbol: "A", factor: float64(Ampere), ucum: "A", bacnet: 3 + 1},
		{quantity: QuantityCurrent, symbol: "mA", factor: float64(Milliampere), ucum: "mA", bacnet: 2 + 1},
	},
	usual: "mA",
	show:  []display{{symbol: "A", atSI: 0.1}, {symbol: "mA"}},
}

// Through returns the voltage that i makes over a resistance: i·r.
func (i Current) Through(r Resistance) Voltage { return Voltage(float64(i) * float64(r)) }
