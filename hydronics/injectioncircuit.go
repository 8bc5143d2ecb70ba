package hydronics

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// InjectionConfig describes an injection circuit with a three-way valve: the
// source's pump and the consumer's pump each keep a nearly constant flow, and
// the valve decides how much of the first is injected into the second. A short
// common pipe parts the two pumps.
//
//	source ──primary──▶ ┬ ──injection──▶ ┬ ──pump──▶ consumer ──┬
//	                    │                │                      │
//	                  bypass             └◀──────common─────────┤
//	                    │                                       │
//	                    ▼                                       │
//	source ◀── AB  valve B,  A ◀─────────injection──────────────┘
//
// A mixing valve stands as drawn; a diverting valve stands at the other junction,
// in the supply, with the same result.
type InjectionConfig struct {
	// Header is the pressure difference that the source's headers hold between
	// supply and return; required.
	Header units.Pressure
	// Pump is the pressure of the consumer's pump, constant; required.
	Pump units.Pressure
	// Primary is the resistance of what carries the whole flow from the source,
	// supply and return.
	Primary Resistance
	// Injection is the resistance of what carries the control port's flow alone,
	// supply and return, without the valve.
	Injection Resistance
	// Bypass is the resistance from the supply junction to port B, without the
	// valve.
	Bypass Resistance
	// Consumer is the resistance of what carries the consumer's flow; required.
	Consumer Resistance
	// Common is the resistance of the pipe that joins the consumer's return with
	// its supply; 0 parts the two pumps fully.
	Common Resistance
	// SpecificHeat is that of the liquid; 0 is ReferenceSpecificHeat.
	SpecificHeat units.SpecificHeat
}

// NewInjectionCircuit puts a three-way valve in an injection circuit, or reports
// every fault.
func NewInjectionCircuit(val valve.ThreeWay, cfg InjectionConfig) (Circuit, error) {
	l := check.List{Package: packageName}
	m := circuit{
		kind: injectionCircuit, header: float64(cfg.Header), pump: float64(cfg.Pump),
		primary: cfg.Primary.conductance(), consumer: cfg.Consumer.conductance(), common: cfg.Common.conductance(),
	}
	m.setThreeWay(&l, val, cfg.Injection, cfg.Bypass)
	m.setHeat(&l, val.Density(), cfg.SpecificHeat)
	check.Positive(&l, "Header", cfg.Header)
	check.Positive(&l, "Pump", cfg.Pump)
	check.NotNegative(&l, "Primary", cfg.Primary)
	check.NotNegative(&l, "Injection", cfg.Injection)
	check.NotNegative(&l, "Bypass", cfg.Bypass)
	check.Positive(&l, "Consumer", cfg.Consumer)
	check.NotNegative(&l, "Common", cfg.Common)
	return m.done(&l)
}

// inject solves two junctions, one inside the other: for each pressure y of the
// consumer's supply that is tried, the pressure x over the valve.
func (m *circuit) inject(h float64) CircuitFlows {
	control, bypass := m.control.conductance(h), m.bypass.conductance(1-h)
	x := m.sourceGuess(control + bypass)
	feed := func(y float64) (q, fall float64) {
		x = m.source(control, bypass, y, x)
		return sqrtlaw.Flow(control, x-y), m.fall(control, bypass, x, y)
	}
	y := m.junction(m.common, m.commonGuess(feed), feed)
	q, _ := feed(y)
	a, b := units.Flow(q), units.Flow(sqrtlaw.Flow(bypass, x))
	consumer := units.Flow(sqrtlaw.Flow(m.consumer, m.pump+y))
	return CircuitFlows{
		Consumer: consumer, Primary: a + b, Control: a, Bypass: b, Recirculated: consumer - a,
		ValvePressure: m.control.port.Pressure(h, a),
	}
}

// fall is −dq/dy of the injected flow, with x moving along: the slope of the
// control port in series with the other two beside each other.
func (m *circuit) fall(control, bypass, x, y float64) float64 {
	own := sqrtlaw.Slope(control, x-y)
	others := sqrtlaw.Slope(bypass, x) + sqrtlaw.Slope(m.primary, m.header-x)
	return own / (1 + own/others)
}

// commonGuess is the pressure over the common pipe if it did not change the flows
// of the two pumps.
func (m *circuit) commonGuess(feed func(y float64) (q, fall float64)) float64 {
	q, _ := feed(0)
	return sqrtlaw.Pressure(m.common, q-sqrtlaw.Flow(m.consumer, m.pump))
}
