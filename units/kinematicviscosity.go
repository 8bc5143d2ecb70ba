package units

// KinematicViscosity holds m²/s.
type KinematicViscosity float64

// Units of KinematicViscosity; 1 mm²/s is a centistokes.
const (
	SquareMetrePerSecond      KinematicViscosity = 1
	SquareMillimetrePerSecond KinematicViscosity = 1e-6
)

var kinematicViscosityTable = table{
	name: "kinematic viscosity",
	units: []unitDef{
		{quantity: QuantityKinematicViscosity, symbol: "m²/s", factor: float64(SquareMetrePerSecond), ucum: "m2/s"},
		{quantity: QuantityKinematicViscosity, symbol: "mm²/s", factor: float64(SquareMillimetrePerSecond), aliases: []string{"cSt"}, ucum: "mm2/s"},
	},
	show: []display{{symbol: "mm²/s"}},
}
