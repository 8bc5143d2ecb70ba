package units

// PressureGradient is a pressure loss per length of pipe; it holds Pa/m.
type PressureGradient float64

// Units of PressureGradient.
const (
	PascalPerMetre            PressureGradient = 1
	KilopascalPerMetre        PressureGradient = 1e3
	FootOfWaterPerHundredFeet PressureGradient = 10 * standardGravity
)

var pressureGradientTable = table{
	name: "pressure gradient",
	units: []unitDef{
		{quantity: QuantityPressureGradient, symbol: "Pa/m", factor: float64(PascalPerMetre), ucum: "Pa/m"},
		{quantity: QuantityPressureGradient, symbol: "kPa/m", factor: float64(KilopascalPerMetre), ucum: "kPa/m"},
		{quantity: QuantityPressureGradient, symbol: "ftH2O/100 ft", factor: float64(FootOfWaterPerHundredFeet), aliases: []string{"ft/100ft"}, ucum: "12.[in_i'H2O]/(100.[ft_i])"},
	},
}

// Over returns the pressure loss along a length: g·l.
func (g PressureGradient) Over(l Length) Pressure { return Pressure(float64(g) * float64(l)) }
