package units

// MassFlow is a mass flow rate; it holds kg/s.
type MassFlow float64

// Units of MassFlow. The pound is 0.45359237 kg exactly (NIST SP 811, B.8).
const (
	KilogramPerSecond MassFlow = 1
	KilogramPerHour   MassFlow = 1.0 / 3600
	PoundPerHour      MassFlow = kilogramPerPound / 3600
)

var massFlowTable = table{
	name: "mass flow",
	units: []unitDef{
		{quantity: QuantityMassFlow, symbol: "kg/s", factor: float64(KilogramPerSecond), ucum: "kg/s", bacnet: 42 + 1},
		{quantity: QuantityMassFlow, symbol: "kg/h", factor: float64(KilogramPerHour), aliases: []string{"kg/hr"}, ucum: "kg/h", bacnet: 44 + 1},
		{quantity: QuantityMassFlow, symbol: "lb/h", factor: float64(PoundPerHour), aliases: []string{"lb/hr", "lbm/h"}, ucum: "[lb_av]/h", bacnet: 46 + 1},
	},
}

// Flow returns the volume flow of a fluid of density rho: m/rho.
func (m MassFlow) Flow(rho Density) Flow { return Flow(float64(m) / float64(rho)) }
