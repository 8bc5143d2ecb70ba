package units

// ThermalConductivity holds W/(m·K).
type ThermalConductivity float64

// Units of ThermalConductivity.
const (
	WattPerMetreKelvin       ThermalConductivity = 1
	BtuPerHourFootFahrenheit ThermalConductivity = joulePerBtu / 3600 * 1.8 / (12 * metrePerInch)
)

var thermalConductivityTable = table{
	name: "thermal conductivity",
	units: []unitDef{
		{quantity: QuantityThermalConductivity, symbol: "W/(m·K)", factor: float64(WattPerMetreKelvin), aliases: []string{"W/mK", "W/m/K"}, ucum: "W/(m.K)", bacnet: 189 + 1},
		{quantity: QuantityThermalConductivity, symbol: "Btu/(h·ft·°F)", factor: float64(BtuPerHourFootFahrenheit), ucum: "[Btu_IT]/(h.[ft_i].[degR])"},
	},
}
