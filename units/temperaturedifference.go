package units

// TemperatureDifference is the difference of two temperatures; it holds kelvin.
type TemperatureDifference float64

// Units of TemperatureDifference.
const (
	Kelvin           TemperatureDifference = 1
	FahrenheitDegree TemperatureDifference = 1 / 1.8
)

var temperatureDifferenceTable = table{
	name: "temperature difference",
	units: []unitDef{
		{quantity: QuantityTemperatureDifference, symbol: "K", factor: float64(Kelvin), aliases: []string{"degC", "C"}, ucum: "K", bacnet: 121 + 1},
		{quantity: QuantityTemperatureDifference, symbol: "°F", factor: float64(FahrenheitDegree), aliases: []string{"F"}, ucum: "[degR]", bacnet: 120 + 1},
	},
}
