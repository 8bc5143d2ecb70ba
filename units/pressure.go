package units

// Pressure is a pressure difference; it holds pascal. Where a law needs the
// absolute pressure it asks for an [AbsolutePressure].
type Pressure float64

// Units of Pressure; the hectopascal, which is read too, is the millibar. Water columns are conventional: 1000 kg/m³ and
// 9.80665 m/s² (ISO 80000-4, NIST SP 811, B.8).
const (
	Pascal             Pressure = 1
	Kilopascal         Pressure = 1e3
	Megapascal         Pressure = 1e6
	Millibar           Pressure = 1e2
	Bar                Pressure = 1e5
	MetreOfWater       Pressure = 1000 * standardGravity
	MillimetreOfWater  Pressure = standardGravity
	PoundPerSquareInch Pressure = newtonPerPoundForce / (metrePerInch * metrePerInch)
	FootOfWater        Pressure = 12 * InchOfWater
	InchOfWater        Pressure = 1000 * standardGravity * metrePerInch
)

var pressureTable = table{
	name: "pressure",
	units: []unitDef{
		{quantity: QuantityPressure, symbol: "Pa", factor: float64(Pascal), ucum: "Pa", bacnet: 53 + 1},
		{quantity: QuantityPressure, symbol: "kPa", factor: float64(Kilopascal), aliases: []string{"KPa", "kpa"}, ucum: "kPa", bacnet: 54 + 1},
		{quantity: QuantityPressure, symbol: "MPa", factor: float64(Megapascal), ucum: "MPa"},
		{quantity: QuantityPressure, symbol: "mbar", factor: float64(Millibar), ucum: "mbar", bacnet: 134 + 1},
		{quantity: QuantityPressure, symbol: "hPa", factor: float64(Millibar), ucum: "hPa", bacnet: 133 + 1},
		{quantity: QuantityPressure, symbol: "bar", factor: float64(Bar), ucum: "bar", bacnet: 55 + 1},
		{quantity: QuantityPressure, symbol: "mH2O", factor: float64(MetreOfWater), aliases: []string{"mH₂O", "mwc", "mWC"}, ucum: "m[H2O]"},
		{quantity: QuantityPressure, symbol: "mmH2O", factor: float64(MillimetreOfWater), aliases: []string{"mmH₂O", "mmwc"}, ucum: "mm[H2O]", bacnet: 206 + 1},
		{quantity: QuantityPressure, symbol: "psi", factor: float64(PoundPerSquareInch), aliases: []string{"lbf/in2"}, ucum: "[psi]", bacnet: 56 + 1},
		{quantity: QuantityPressure, symbol: "ftH2O", factor: float64(FootOfWater), aliases: []string{"ftH₂O", "ftwc"}, ucum: "12.[in_i'H2O]"},
		{quantity: QuantityPressure, symbol: "inH2O", factor: float64(InchOfWater), aliases: []string{"inH₂O", "inwc"}, ucum: "[in_i'H2O]", bacnet: 58 + 1},
	},
	show: []display{{symbol: "kPa", atSI: 100}, {symbol: "Pa"}},
}

// Force returns the force of a pressure difference on an area: dp·a.
func (dp Pressure) Force(a Area) Force { return Force(float64(dp) * float64(a)) }

// Power returns the hydraulic power of a flow over a pressure difference: dp·q.
func (dp Pressure) Power(q Flow) Power { return Power(float64(dp) * float64(q)) }
