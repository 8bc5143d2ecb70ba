package units

// Torque holds N·m.
type Torque float64

// Units of Torque.
const (
	NewtonMetre    Torque = 1
	PoundForceInch Torque = newtonPerPoundForce * metrePerInch
)

var torqueTable = table{
	name: "torque",
	units: []unitDef{
		{quantity: QuantityTorque, symbol: "N·m", factor: float64(NewtonMetre), aliases: []string{"Nm"}, ucum: "N.m", bacnet: 160 + 1},
		{quantity: QuantityTorque, symbol: "lbf·in", factor: float64(PoundForceInch), aliases: []string{"in.lbf", "in-lb", "lb.in"}, ucum: "[lbf_av].[in_i]"},
	},
}
