package units

// Voltage holds volts.
type Voltage float64

// Units of Voltage.
const (
	Volt      Voltage = 1
	Millivolt Voltage = 1e-3
)

var voltageTable = table{
	name: "voltage",
	units: []unitDef{
		{quantity: QuantityVoltage, symbol: "V", factor: float64(Volt), ucum: "V", bacnet: 5 + 1},
		{quantity: QuantityVoltage, symbol: "mV", factor: float64(Millivolt), ucum: "mV", bacnet: 124 + 1},
	},
	show: []display{{symbol: "V", atSI: 0.1}, {symbol: "mV"}},
}

// Across returns the current that v drives through a resistance: v/r.
func (v Voltage) Across(r Resistance) Current { return Current(float64(v) / float64(r)) }
