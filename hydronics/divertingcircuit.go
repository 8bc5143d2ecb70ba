package hydronics

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// DivertingConfig describes a diverting circuit: the source's pump drives all,
// the flow taken from the source is nearly constant, and the valve sends it
// through the consumer or past it. The consumer's flow varies and its supply
// temperature does not. Cooling coils with dehumidification are built like this.
//
//	source ──primary──▶ ┬ ──▶ consumer ──▶ A   AB ──▶ source
//	                    │                  valve
//	                    └──────bypass────▶ B
//
// A mixing valve stands as drawn; a diverting valve stands at the other junction,
// in the supply, with the same result.
type DivertingConfig struct {
	// Header is the pressure difference that the source's headers hold between
	// supply and return; required.
	Header units.Pressure
	// Primary is the resistance of what carries the whole flow, supply and
	// return.
	Primary Resistance
	// Consumer is the resistance from the supply junction through the consumer to
	// port A, without the valve.
	Consumer Resistance
	// Bypass is the resistance from the supply junction to port B, without the
	// valve. A balancing valve there keeps the whole flow constant: set it to
	// drop as much as the consumer does.
	Bypass Resistance
	// SpecificHeat is that of the liquid; 0 is ReferenceSpecificHeat.
	SpecificHeat units.SpecificHeat
}

// NewDivertingCircuit puts a three-way valve in a diverting circuit, or reports
// every fault.
//
// The flow from the source depends on the sum of the conductances of both ways
// (common practice, no published source):
//
//	q = K·√header,  1/K² = R_primary + 1/(K_control + K_bypass)²
func NewDivertingCircuit(val valve.ThreeWay, cfg DivertingConfig) (Circuit, error) {
	l := check.List{Package: packageName}
	m := circuit{kind: divertingCircuit, header: float64(cfg.Header), primary: cfg.Primary.conductance()}
	m.setThreeWay(&l, val, cfg.Consumer, cfg.Bypass)
	m.setHeat(&l, val.Density(), cfg.SpecificHeat)
	check.Positive(&l, "Header", cfg.Header)
	check.NotNegative(&l, "Primary", cfg.Primary)
	check.NotNegative(&l, "Consumer", cfg.Consumer)
	check.NotNegative(&l, "Bypass", cfg.Bypass)
	return m.done(&l)
}

func (m *circuit) divert(h float64) CircuitFlows {
	control, bypass := m.control.conductance(h), m.bypass.conductance(1-h)
	x := m.source(control, bypass, 0, m.sourceGuess(control+bypass))
	a, b := units.Flow(sqrtlaw.Flow(control, x)), units.Flow(sqrtlaw.Flow(bypass, x))
	return CircuitFlows{
		Consumer: a, Primary: a + b, Control: a, Bypass: b,
		ValvePressure: m.control.port.Pressure(h, a),
	}
}

// sourceGuess is the pressure over both ports that is right where nothing but
// the source drives them.
func (m *circuit) sourceGuess(both float64) float64 {
	p := m.primary * m.primary
	return m.header * p / (p + float64(both*both))
}
