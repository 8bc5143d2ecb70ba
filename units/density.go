package units

// Density holds kg/m³.
type Density float64

// Units of Density.
const (
	KilogramPerCubicMetre  Density = 1
	GramPerCubicCentimetre Density = 1e3
	PoundPerCubicFoot      Density = kilogramPerPound / (1728 * metrePerInch * metrePerInch * metrePerInch)
)

var densityTable = table{
	name: "density",
	units: []unitDef{
		{quantity: QuantityDensity, symbol: "kg/m³", factor: float64(KilogramPerCubicMetre), ucum: "kg/m3", bacnet: 186 + 1},
		{quantity: QuantityDensity, symbol: "g/cm³", factor: float64(GramPerCubicCentimetre), aliases: []string{"kg/l", "kg/L"}, ucum: "g/cm3", bacnet: 221 + 1},
		{quantity: QuantityDensity, symbol: "lb/ft³", factor: float64(PoundPerCubicFoot), ucum: "[lb_av]/[cft_i]"},
	},
}
