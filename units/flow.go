package units

// Flow is a volume flow rate; it holds m³/s.
type Flow float64

// Units of Flow. The US gallon is 231 in³ exactly (NIST SP 811, B.8).
const (
	CubicMetrePerSecond Flow = 1
	CubicMetrePerHour   Flow = 1.0 / 3600
	LitrePerSecond      Flow = 1e-3
	LitrePerMinute      Flow = 1e-3 / 60
	LitrePerHour        Flow = 1e-3 / 3600
	USGallonPerMinute   Flow = 231 * metrePerInch * metrePerInch * metrePerInch / 60
)

var flowTable = table{
	name: "flow",
	units: []unitDef{
		{quantity: QuantityFlow, symbol: "m³/s", factor: float64(CubicMetrePerSecond), ucum: "m3/s", bacnet: 85 + 1},
		{quantity: QuantityFlow, symbol: "m³/h", factor: float64(CubicMetrePerHour), aliases: []string{"m3/hr", "cmh"}, ucum: "m3/h", bacnet: 135 + 1},
		{quantity: QuantityFlow, symbol: "l/s", factor: float64(LitrePerSecond), aliases: []string{"L/s", "lps"}, ucum: "L/s", bacnet: 87 + 1},
		{quantity: QuantityFlow, symbol: "l/min", factor: float64(LitrePerMinute), aliases: []string{"L/min", "lpm", "LPM"}, ucum: "L/min", bacnet: 88 + 1},
		{quantity: QuantityFlow, symbol: "l/h", factor: float64(LitrePerHour), aliases: []string{"L/h", "l/hr", "L/hr", "lph"}, ucum: "L/h", bacnet: 136 + 1},
		{quantity: QuantityFlow, symbol: "US gpm", factor: float64(USGallonPerMinute), aliases: []string{"USGPM", "gpm", "GPM", "USgal/min", "gal/min"}, ucum: "[gal_us]/min", bacnet: 89 + 1},
	},
	show: []display{{symbol: "l/s", atSI: 0.1e-3}, {symbol: "l/h"}},
}

// MassFlow returns the mass flow of a fluid of density rho: q·rho.
func (q Flow) MassFlow(rho Density) MassFlow { return MassFlow(float64(q) * float64(rho)) }

// Velocity returns the mean velocity through a cross-section: q/a.
func (q Flow) Velocity(a Area) Velocity { return Velocity(float64(q) / float64(a)) }
