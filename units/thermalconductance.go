package units

// ThermalConductance is heat flow per kelvin, the UA of a heat exchanger or a
// heat capacity rate; it holds W/K.
type ThermalConductance float64

// Units of ThermalConductance.
const (
	WattPerKelvin     ThermalConductance = 1
	KilowattPerKelvin ThermalConductance = 1e3
)

var thermalConductanceTable = table{
	name: "thermal conductance",
	units: []unitDef{
		{quantity: QuantityThermalConductance, symbol: "W/K", factor: float64(WattPerKelvin), ucum: "W/K"},
		{quantity: QuantityThermalConductance, symbol: "kW/K", factor: float64(KilowattPerKelvin), ucum: "kW/K"},
	},
	usual: "W/K",
	show:  []display{{symbol: "kW/K", atSI: 1e3}, {symbol: "W/K"}},
}
