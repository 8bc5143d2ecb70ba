package units

// Velocity holds m/s.
type Velocity float64

// Units of Velocity.
const (
	MetrePerSecond Velocity = 1
	FootPerSecond  Velocity = 12 * metrePerInch
)

var velocityTable = table{
	name: "velocity",
	units: []unitDef{
		{quantity: QuantityVelocity, symbol: "m/s", factor: float64(MetrePerSecond), ucum: "m/s", bacnet: 74 + 1},
		{quantity: QuantityVelocity, symbol: "ft/s", factor: float64(FootPerSecond), aliases: []string{"fps"}, ucum: "[ft_i]/s", bacnet: 76 + 1},
	},
}

// Flow returns the volume flow through a cross-section: v·a.
func (v Velocity) Flow(a Area) Flow { return Flow(float64(v) * float64(a)) }
