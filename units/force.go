package units

// Force holds newtons.
type Force float64

// Units of Force. The pound-force is 4.4482216152605 N exactly.
const (
	Newton     Force = 1
	Kilonewton Force = 1e3
	PoundForce Force = newtonPerPoundForce
)

var forceTable = table{
	name: "force",
	units: []unitDef{
		{quantity: QuantityForce, symbol: "N", factor: float64(Newton), ucum: "N", bacnet: 153 + 1},
		{quantity: QuantityForce, symbol: "kN", factor: float64(Kilonewton), ucum: "kN"},
		{quantity: QuantityForce, symbol: "lbf", factor: float64(PoundForce), ucum: "[lbf_av]"},
	},
	usual: "N",
	show:  []display{{symbol: "kN", atSI: 1e4}, {symbol: "N"}},
}

// Over returns the pressure of a force on an area: f/a.
func (f Force) Over(a Area) Pressure { return Pressure(float64(f) / float64(a)) }
