package units

// FlowCoefficient is the capacity of a valve (IEC 60534-1). It holds Kv: the
// flow in m³/h of water at 15 °C (999.10 kg/m³) over a pressure difference of
// 1 bar.
type FlowCoefficient float64

// Units of FlowCoefficient.
//
// Cv is the flow of water in US gal/min at 1 psi. One Cv is 0.864978 Kv, from
// the definitions of the gallon and of psi: (gal/min in m³/h)/√(psi in bar);
// IEC 60534-1 prints 0.865. SquareMetreAv is the coefficient in SI,
// q = Av·√(Δp/ρ): one Kv is √(999.10/1e5)/3600 = 2.77653e-5 m².
const (
	Kv            FlowCoefficient = 1
	Cv            FlowCoefficient = 0.86497765544230176
	SquareMetreAv FlowCoefficient = 36016.210943207718
)

var flowCoefficientTable = table{
	name: "flow coefficient",
	units: []unitDef{ // data sheets print the definition's m³/h as the unit of Kv
		{quantity: QuantityFlowCoefficient, symbol: "Kv", factor: float64(Kv), aliases: []string{"kv", "KV", "Kvs", "kvs", "m3/h"}},
		{quantity: QuantityFlowCoefficient, symbol: "Cv", factor: float64(Cv), aliases: []string{"cv", "CV"}},
		{quantity: QuantityFlowCoefficient, symbol: "m²", factor: float64(SquareMetreAv), aliases: []string{"m2Av", "Av"}},
	},
}
