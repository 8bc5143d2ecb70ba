package units

// DynamicViscosity holds Pa·s.
type DynamicViscosity float64

// Units of DynamicViscosity.
const (
	PascalSecond      DynamicViscosity = 1
	MillipascalSecond DynamicViscosity = 1e-3
)

var dynamicViscosityTable = table{
	name: "dynamic viscosity",
	units: []unitDef{
		{quantity: QuantityDynamicViscosity, symbol: "Pa·s", factor: float64(PascalSecond), ucum: "Pa.s", bacnet: 253 + 1},
		{quantity: QuantityDynamicViscosity, symbol: "mPa·s", factor: float64(MillipascalSecond), aliases: []string{"cP"}, ucum: "mPa.s"},
	},
	show: []display{{symbol: "mPa·s"}},
}

// Kinematic returns the kinematic viscosity of a fluid of density rho: mu/rho.
func (mu DynamicViscosity) Kinematic(rho Density) KinematicViscosity {
	return KinematicViscosity(float64(mu) / float64(rho))
}
