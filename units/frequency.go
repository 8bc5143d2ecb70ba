package units

// Frequency holds hertz.
type Frequency float64

// Units of Frequency.
const (
	Hertz     Frequency = 1
	Kilohertz Frequency = 1e3
)

var frequencyTable = table{
	name: "frequency",
	units: []unitDef{
		{quantity: QuantityFrequency, symbol: "Hz", factor: float64(Hertz), ucum: "Hz", bacnet: 27 + 1},
		{quantity: QuantityFrequency, symbol: "kHz", factor: float64(Kilohertz), ucum: "kHz", bacnet: 129 + 1},
	},
	usual: "Hz",
	show:  []display{{symbol: "kHz", atSI: 1e3}, {symbol: "Hz"}},
}
