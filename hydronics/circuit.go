package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/newton"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Circuit is one of the standard circuits in which a control valve feeds a
// consumer: made by [NewMixingCircuit], [NewDivertingCircuit],
// [NewInjectionCircuit] or [NewThrottledInjectionCircuit]. From the relative
// travel h of its valve it tells the flow in every pipe, and from a supply
// temperature and a heat all temperatures.
//
// Assumed throughout: pumps and headers hold their pressure whatever flows;
// fixed resistances follow Δp = R·q²; the liquid has one density, that of the
// valve, and one heat capacity; junctions lose no pressure and pipes no heat.
// Check valves are not part of a circuit, so that flows the wrong way show.
//
// A Circuit is an immutable value of one word, safe for concurrent use; its
// methods do not allocate, lock or fail. NaN gives NaN. The zero Circuit is none:
// its numbers are NaN.
type Circuit struct{ model *circuit }

type circuitKind uint8

const (
	noCircuit circuitKind = iota
	mixingCircuit
	divertingCircuit
	injectionCircuit
	throttledInjection
	regulatedInjection // throttled, by a pressure-independent valve
)

type circuit struct {
	kind     circuitKind
	three    valve.ThreeWay
	indep    valve.PressureIndependent
	control  orifice
	bypass   orifice
	header   float64 // pressure differences in Pa
	pump     float64
	primary  float64 // conductances K of q = K·√Δp; +Inf without resistance
	consumer float64
	common   float64
	capacity float64 // ρ·cp in J/(m³·K)
}

// orifice is a port of the valve with the fixed resistance in series with it.
type orifice struct {
	port valve.TwoWay
	open float64 // K of the open port
	rest Resistance
}

func newOrifice(port valve.TwoWay, rest Resistance) orifice {
	return orifice{port, float64(valve.FlowThrough(port.Kvs(), units.Pascal, port.Density())), rest}
}

// conductance is K of port and resistance in series: 1/K² = 1/k² + R.
func (o *orifice) conductance(h float64) float64 {
	k := o.open * o.port.RelativeCoefficient(h)
	return k / math.Sqrt(1+float64(float64(o.rest)*k*k))
}

// share is the part of the pressure over both that the open port has.
func (o *orifice) share() float64 {
	return 1 / (1 + float64(float64(o.rest)*o.open*o.open))
}

var emptyCircuit circuit

func (c Circuit) get() *circuit {
	if c.model == nil {
		return &emptyCircuit
	}
	return c.model
}

// setThreeWay places a three-way valve with what is in series with its ports.
func (m *circuit) setThreeWay(l *check.List, val valve.ThreeWay, control, bypass Resistance) {
	l.Require(!val.Equal(valve.ThreeWay{}), "Valve", "the zero valve", "a valve made by valve.NewThreeWay")
	m.three = val
	m.control, m.bypass = newOrifice(val.Control(), control), newOrifice(val.Bypass(), bypass)
}

// setHeat keeps what the circuit needs to tell temperatures.
func (m *circuit) setHeat(l *check.List, rho units.Density, cp units.SpecificHeat) {
	if cp == 0 {
		cp = ReferenceSpecificHeat
	}
	check.Positive(l, "SpecificHeat", cp)
	m.capacity = float64(rho) * float64(cp)
}

// done returns the circuit unless it has faults.
func (m *circuit) done(l *check.List) (Circuit, error) {
	if err := l.Err(); err != nil {
		return Circuit{}, err
	}
	return Circuit{m}, nil
}

// Equal reports whether two circuits are of one kind, with equal valves,
// pressures and resistances.
func (c Circuit) Equal(d Circuit) bool {
	if (c.model == nil) != (d.model == nil) {
		return false
	}
	a, b := *c.get(), *d.get()
	same := a.three.Equal(b.three) && a.indep.Equal(b.indep) && a.control.port.Equal(b.control.port)
	for _, m := range []*circuit{&a, &b} {
		m.three, m.indep, m.control.port, m.bypass.port = valve.ThreeWay{}, valve.PressureIndependent{}, valve.TwoWay{}, valve.TwoWay{}
	}
	return same && a == b
}

// Flows returns the flow in every pipe at relative travel h of the valve, 0 … 1.
// The pressures at the junctions are found by Newton steps kept inside a bracket;
// all laws rise, so there is one solution.
func (c Circuit) Flows(h float64) CircuitFlows {
	m := c.get()
	switch kind := m.kind; {
	case math.IsNaN(h):
	case kind == mixingCircuit:
		return m.mix(h)
	case kind == divertingCircuit:
		return m.divert(h)
	case kind == injectionCircuit:
		return m.inject(h)
	case kind == throttledInjection:
		return m.throttle(h)
	case kind == regulatedInjection:
		return m.regulate(h)
	}
	nan := units.Flow(math.NaN())
	return CircuitFlows{nan, nan, nan, nan, nan, units.Pressure(nan)}
}

// ConsumerRange returns between which limits the consumer's flow varies over the
// travel of the valve: a circuit with a pump of its own is meant to keep it
// constant.
func (c Circuit) ConsumerRange() FlowRange {
	return rangeOf(func(h float64) units.Flow { return c.Flows(h).Consumer })
}

// PrimaryRange returns between which limits the flow from the source varies over
// the travel of the valve: diverting circuits and injection by three-way valves are meant to
// keep it constant.
func (c Circuit) PrimaryRange() FlowRange {
	return rangeOf(func(h float64) units.Flow { return c.Flows(h).Primary })
}

// Authority returns the authority of the control port, or of the two-way valve,
// in the circuit of variable flow:
//
//	Open    Δp of the open port / Δp of open port and what carries its flow alone
//	Design  Δp of the open port at the design flow / Δp over the shut port
//
// Open is the school's authority, which follows from resistances (common
// practice, no published source): that of the primary circuit in mixing circuits
// and throttled injection, of the consumer in diverting circuits, of the
// injection pipes in injection by a three-way valve. Design takes what really comes to stand over
// the port at the other end of the travel, which pumps and bypass decide; it can
// exceed 1 where the bypass is much tighter than the open port. design is the
// wanted flow of the control port. A pressure-independent valve has no authority:
// all but OpenFlow is NaN.
func (c Circuit) Authority(design units.Flow) valve.Authority {
	m := c.get()
	a := valve.Authority{Open: math.NaN(), Design: math.NaN(), OpenFlow: c.Flows(1).Control}
	if m.kind == noCircuit || m.kind == regulatedInjection {
		return a
	}
	a.Open = m.control.share()
	a.Design = float64(m.control.port.Pressure(1, design) / c.Flows(0).ValvePressure)
	return a
}

// junction finds the pressure y of the consumer's supply junction over its
// return junction. feed is what comes in through the control port, and by how
// much it falls with y; recirculation is K of the way from return to supply.
//
//	feed(y) + q_recirculated(−y) = q_consumer(pump + y)
func (m *circuit) junction(recirculation, guess float64, feed func(y float64) (q, fall float64)) float64 {
	if math.IsInf(recirculation, 1) {
		return 0
	}
	return newton.Rising(func(y float64) (value, slope float64) {
		q, fall := feed(y)
		value = sqrtlaw.Flow(m.consumer, m.pump+y) - sqrtlaw.Flow(recirculation, -y) - q
		return value, sqrtlaw.Slope(m.consumer, m.pump+y) + sqrtlaw.Slope(recirculation, -y) + fall
	}, -m.pump, m.header, guess, 0)
}

// source finds the pressure x over both ports of the valve, where all that the
// primary circuit carries goes through one of them:
//
//	q_control(x − y) + q_bypass(x) = q_primary(header − x)
func (m *circuit) source(control, bypass, y, guess float64) float64 {
	if math.IsInf(m.primary, 1) {
		return m.header
	}
	return newton.Rising(func(x float64) (value, slope float64) {
		value = sqrtlaw.Flow(control, x-y) + sqrtlaw.Flow(bypass, x) - sqrtlaw.Flow(m.primary, m.header-x)
		return value, sqrtlaw.Slope(control, x-y) + sqrtlaw.Slope(bypass, x) + sqrtlaw.Slope(m.primary, m.header-x)
	}, min(y, 0), m.header, guess, 0)
}
