package hydronics

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// MixingConfig describes a mixing circuit: the consumer has a pump of its own and
// a nearly constant flow, and the valve mixes the source's water with the
// consumer's return. Radiator and floor heating circuits, and the preheating
// coils of air handlers, are built like this.
//
//	source ──primary──▶ A   AB ──pump──▶ consumer ──┬──▶ source
//	                    valve                       │
//	                    B ◀────────bypass───────────┘
//
// A mixing valve stands as drawn; a diverting valve stands at the other junction,
// in the return, with the same result.
type MixingConfig struct {
	// Header is the pressure difference that the source's headers hold between
	// supply and return; 0 where a hydraulic separator or an open header makes
	// them pressureless. Above what the pump draws through the bypass it turns
	// the bypass flow round, see [CircuitFlows.Recirculated].
	Header units.Pressure
	// Pump is the pressure of the consumer's pump, constant; required.
	Pump units.Pressure
	// Primary is the resistance of what carries the control port's flow alone:
	// from the supply header to port A and from the return junction to the
	// return header.
	Primary Resistance
	// Bypass is the resistance from the return junction to port B, without the
	// valve. A balancing valve there keeps the consumer's flow constant: set it to drop as
	// much as the primary circuit does.
	Bypass Resistance
	// Consumer is the resistance of what carries the consumer's flow, from port
	// AB to the return junction; required.
	Consumer Resistance
	// SpecificHeat is that of the liquid; 0 is ReferenceSpecificHeat.
	SpecificHeat units.SpecificHeat
}

// NewMixingCircuit puts a three-way valve in a mixing circuit, or reports every
// fault.
//
// Between headers without pressure the consumer's flow depends on the sum of the
// conductances of both ways only (common practice, no published source):
//
//	q = K·√pump,  1/K² = R_consumer + 1/(K_control + K_bypass)²
func NewMixingCircuit(val valve.ThreeWay, cfg MixingConfig) (Circuit, error) {
	l := check.List{Package: packageName}
	m := circuit{kind: mixingCircuit, header: float64(cfg.Header), pump: float64(cfg.Pump), consumer: cfg.Consumer.conductance()}
	m.setThreeWay(&l, val, cfg.Primary, cfg.Bypass)
	m.setHeat(&l, val.Density(), cfg.SpecificHeat)
	check.NotNegative(&l, "Header", cfg.Header)
	check.Positive(&l, "Pump", cfg.Pump)
	check.NotNegative(&l, "Primary", cfg.Primary)
	check.NotNegative(&l, "Bypass", cfg.Bypass)
	check.Positive(&l, "Consumer", cfg.Consumer)
	return m.done(&l)
}

func (m *circuit) mix(h float64) CircuitFlows {
	control, bypass := m.control.conductance(h), m.bypass.conductance(1-h)
	y := m.junction(bypass, m.guess(control, bypass), func(y float64) (q, fall float64) {
		return sqrtlaw.Flow(control, m.header-y), sqrtlaw.Slope(control, m.header-y)
	})
	a, b := units.Flow(sqrtlaw.Flow(control, m.header-y)), units.Flow(sqrtlaw.Flow(bypass, -y))
	return CircuitFlows{
		Consumer: a + b, Primary: a, Control: a, Bypass: b, Recirculated: b,
		ValvePressure: m.control.port.Pressure(h, a),
	}
}

// guess is the junction's pressure that is right without header pressure, and
// with the way from return to supply shut.
func (m *circuit) guess(control, recirculation float64) float64 {
	a, c, both := control*control, m.consumer*m.consumer, control+recirculation
	return (float64(a*m.header) - float64(c*m.pump)) / (float64(both*both) + c)
}
