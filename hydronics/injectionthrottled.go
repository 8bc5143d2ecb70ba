package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/newton"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// ThrottledInjectionConfig describes an injection circuit with a two-way valve:
// the consumer's pump keeps a nearly constant flow there, and the valve throttles
// what the source injects. The flow from the source varies and its return is as
// cold, or as warm, as the consumer's: what variable-flow systems, district
// heating and condensing boilers want.
//
//	source ──primary──▶ ┬ ──pump──▶ consumer ──┬
//	                    │                      │
//	                    └◀──────common─────────┤
//	                                           │
//	source ◀─────────────── valve ◀────────────┘
type ThrottledInjectionConfig struct {
	// Header is the pressure difference that the source's headers hold between
	// supply and return; required.
	Header units.Pressure
	// Pump is the pressure of the consumer's pump, constant; required.
	Pump units.Pressure
	// Primary is the resistance of what carries the valve's flow alone, supply
	// and return, balancing valve included, without the valve.
	Primary Resistance
	// Consumer is the resistance of what carries the consumer's flow; required.
	Consumer Resistance
	// Common is the resistance of the pipe that joins the consumer's return with
	// its supply; 0 parts the two pumps fully.
	Common Resistance
	// SpecificHeat is that of the liquid; 0 is ReferenceSpecificHeat.
	SpecificHeat units.SpecificHeat
}

// NewThrottledInjectionCircuit puts a two-way or a pressure-independent valve in
// an injection circuit, or reports every fault.
func NewThrottledInjectionCircuit(val valve.Valve, cfg ThrottledInjectionConfig) (Circuit, error) {
	l := check.List{Package: packageName}
	m := circuit{
		header: float64(cfg.Header), pump: float64(cfg.Pump),
		consumer: cfg.Consumer.conductance(), common: cfg.Common.conductance(),
	}
	m.setHeat(&l, m.setThrottle(&l, val, cfg.Primary), cfg.SpecificHeat)
	check.Positive(&l, "Header", cfg.Header)
	check.Positive(&l, "Pump", cfg.Pump)
	check.NotNegative(&l, "Primary", cfg.Primary)
	check.Positive(&l, "Consumer", cfg.Consumer)
	check.NotNegative(&l, "Common", cfg.Common)
	return m.done(&l)
}

// setThrottle places the valve and returns the density in it.
func (m *circuit) setThrottle(l *check.List, val valve.Valve, rest Resistance) units.Density {
	switch v := val.(type) {
	case valve.TwoWay:
		l.Require(!v.Equal(valve.TwoWay{}), "Valve", "the zero valve", "a valve made by valve.NewTwoWay")
		m.kind, m.control = throttledInjection, newOrifice(v, rest)
		return v.Density()
	case valve.PressureIndependent:
		l.Require(!v.Equal(valve.PressureIndependent{}), "Valve", "the zero valve", "a valve made by valve.NewPressureIndependent")
		m.kind, m.indep, m.control.rest = regulatedInjection, v, rest
		return v.Density()
	}
	l.Fault("Valve", val, "a valve.TwoWay or a valve.PressureIndependent")
	return 0
}

func (m *circuit) throttle(h float64) CircuitFlows {
	k := m.control.conductance(h)
	feed := func(y float64) (q, fall float64) {
		return sqrtlaw.Flow(k, m.header-y), sqrtlaw.Slope(k, m.header-y)
	}
	y := m.junction(m.common, m.commonGuess(feed), feed)
	a := units.Flow(sqrtlaw.Flow(k, m.header-y))
	return m.throttled(a, y, m.control.port.Pressure(h, a))
}

// throttled are the flows that go with an injected one and the pressure y between
// the consumer's junctions.
func (m *circuit) throttled(a units.Flow, y float64, own units.Pressure) CircuitFlows {
	consumer := units.Flow(sqrtlaw.Flow(m.consumer, m.pump+y))
	return CircuitFlows{Consumer: consumer, Primary: a, Control: a, Recirculated: consumer - a, ValvePressure: own}
}

// regulate looks for the pressure v over a pressure-independent valve instead of
// that between the junctions, which follows from it: the valve's law then needs
// no inner search.
//
//	y(v) = header − v − R·q(v)²
func (m *circuit) regulate(h float64) CircuitFlows {
	rest := m.control.rest
	if math.IsInf(m.common, 1) {
		own := valvePressure(m.indep, rest, h, units.Pressure(m.header))
		return m.throttled(m.indep.Flow(h, own), 0, own)
	}
	v := newton.Rising(func(v float64) (value, slope float64) {
		q, y, stretch := m.regulated(h, v)
		value = q + sqrtlaw.Flow(m.common, -y) - sqrtlaw.Flow(m.consumer, m.pump+y)
		slope = m.indep.Slope(h, units.Pressure(v)) + float64(stretch*(sqrtlaw.Slope(m.common, -y)+sqrtlaw.Slope(m.consumer, m.pump+y)))
		return value, slope
	}, 0, m.header+m.pump, m.regulatedGuess(h), 0)
	q, y, _ := m.regulated(h, v)
	return m.throttled(units.Flow(q), y, units.Pressure(v))
}

// regulated returns, for a pressure over the valve, the flow, the pressure
// between the junctions, and by how much that falls as the first rises.
func (m *circuit) regulated(h, v float64) (q, y, stretch float64) {
	flow := m.indep.Flow(h, units.Pressure(v))
	lost := m.control.rest.Pressure(flow)
	stretch = 1
	if m.control.rest > 0 {
		stretch += m.indep.Slope(h, units.Pressure(v)) / m.control.rest.Slope(lost)
	}
	return float64(flow), m.header - v - float64(lost), stretch
}

// regulatedGuess is right where the valve regulates and its flow does not change
// that of the consumer.
func (m *circuit) regulatedGuess(h float64) float64 {
	q := m.indep.Flow(h, units.Pressure(m.header))
	y := sqrtlaw.Pressure(m.common, float64(q)-sqrtlaw.Flow(m.consumer, m.pump))
	return m.header - float64(m.control.rest.Pressure(q)) - y
}
