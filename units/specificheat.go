package units

// SpecificHeat is a specific heat capacity at constant pressure; it holds
// J/(kg·K).
type SpecificHeat float64

// Units of SpecificHeat. 1 Btu/(lb·°F) of the International Table is
// 4186.8 J/(kg·K) exactly.
const (
	JoulePerKilogramKelvin     SpecificHeat = 1
	KilojoulePerKilogramKelvin SpecificHeat = 1e3
	BtuPerPoundFahrenheit      SpecificHeat = 4186.8
)

var specificHeatTable = table{
	name: "specific heat",
	units: []unitDef{
		{quantity: QuantitySpecificHeat, symbol: "J/(kg·K)", factor: float64(JoulePerKilogramKelvin), aliases: []string{"J/kgK", "J/kg/K"}, ucum: "J/(kg.K)", bacnet: 128 + 1},
		{quantity: QuantitySpecificHeat, symbol: "kJ/(kg·K)", factor: float64(KilojoulePerKilogramKelvin), aliases: []string{"kJ/kgK", "kJ/kg/K"}, ucum: "kJ/(kg.K)"},
		{quantity: QuantitySpecificHeat, symbol: "Btu/(lb·°F)", factor: float64(BtuPerPoundFahrenheit), ucum: "[Btu_IT]/([lb_av].[degR])"},
	},
	show: []display{{symbol: "kJ/(kg·K)"}},
}
