package valve

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// ThreeWayConfig describes a three-way control valve as its data sheet does. A
// field that is 0 is not stated, unless its comment asks for it.
type ThreeWayConfig struct {
	Function Function // Mixing is the zero value

	// Control is the way between port A, where the flow is controlled, and the
	// common port AB.
	Control PortConfig
	// Bypass is the way between port B and the common port AB, which shuts as
	// the control port opens.
	Bypass PortConfig
	// ComplementaryBypass shapes the bypass so that the relative coefficients of
	// both ports sum to one at every position (the closing region at the
	// bypass's own shut end apart); Bypass.Curve is then not stated.
	ComplementaryBypass bool

	// Stem counts by the control port: the extended stem of a push-to-close
	// valve, the zero value, shuts A and opens B; that of a push-to-open valve
	// opens A and shuts B; a rotary valve shuts A at the closed end of its
	// angle.
	Stem   Stem
	Stroke units.Length // full stroke, 0.1 mm … 1 m; required unless rotary
	Angle  units.Angle  // full angle of a rotary valve, 1° … 360°; required if rotary

	MaxPressure units.Pressure // greatest pressure difference either port is rated for
	SpringForce units.Force    // of the valve's own spring, which retracts the stem
	Density     units.Density  // at the valve; 0 is ReferenceDensity
}

// ThreeWay is a three-way control valve: two two-way valves on one stem, of
// which one opens as the other shuts. Its relative travel h counts by the
// control port A: at 0 A is shut and the bypass port B is open, at 1 A is open
// and B is shut. Each port follows a law of its own (common practice; the laws of
// the ports are those of IEC 60534-2-4):
//
//	KvA = KvsA·φA(h)    KvB = KvsB·φB(1 − h)
//
// It is an immutable value of one word, safe for concurrent use. The zero
// ThreeWay is no valve: its numbers are NaN.
type ThreeWay struct{ model *threeWay }

type threeWay struct {
	control, bypass TwoWay
	config          ThreeWayConfig
}

var noThreeWay threeWay

// NewThreeWay makes a valve from its description, or reports every fault of it.
func NewThreeWay(cfg ThreeWayConfig) (ThreeWay, error) {
	l := check.List{Package: packageName}
	check.Enum(&l, "Function", cfg.Function, Diverting)
	control, err := NewTwoWay(cfg.port(&cfg.Control, cfg.Stem))
	addPartFaults(&l, "Control", true, err)
	bypass, err := NewTwoWay(cfg.bypass(&l, control))
	addPartFaults(&l, "Bypass", false, err)
	if err := l.Err(); err != nil {
		return ThreeWay{}, err
	}
	return ThreeWay{&threeWay{control, bypass, cfg}}, nil
}

// port is the way through a port as a two-way valve.
func (c *ThreeWayConfig) port(p *PortConfig, stem Stem) TwoWayConfig {
	return TwoWayConfig{
		Kvs: p.Kvs, Curve: p.Curve, Rangeability: p.Rangeability, ClosingTravel: p.ClosingTravel,
		Leakage: p.Leakage, SeatArea: p.SeatArea,
		Stem: stem, Stroke: c.Stroke, Angle: c.Angle,
		MaxPressure: c.MaxPressure, SpringForce: c.SpringForce, Density: c.Density,
	}
}

// bypass is the way through the bypass port, with what follows from the control
// port filled in.
func (c *ThreeWayConfig) bypass(l *check.List, control TwoWay) TwoWayConfig {
	port := c.port(&c.Bypass, c.Stem.opposite())
	if port.Kvs == 0 {
		port.Kvs = c.Control.Kvs
	}
	if !c.ComplementaryBypass {
		return port
	}
	l.Require(c.Bypass.Curve.Equal(Characteristic{}), "Bypass.Curve", c.Bypass.Curve, "none: a complementary bypass follows from the control port")
	port.Curve = Linear(50) // stands in while the control port is at fault
	if control.model != nil {
		port.Curve = Custom(complement{control.model.body})
	}
	return port
}

// opposite is the stem as the other port sees it.
func (s Stem) opposite() Stem {
	switch s {
	case PushToClose:
		return PushToOpen
	case PushToOpen:
		return PushToClose
	}
	return s
}

func (v ThreeWay) get() *threeWay {
	if v.model == nil {
		return &noThreeWay
	}
	return v.model
}

// Config returns the description the valve was made from.
func (v ThreeWay) Config() ThreeWayConfig { return v.get().config }

// Equal reports whether v and w were made from equal descriptions.
func (v ThreeWay) Equal(w ThreeWay) bool {
	if (v.model == nil) != (w.model == nil) {
		return false
	}
	a, b := &v.get().config, &w.get().config
	return v.model == w.model || a.Function == b.Function && a.ComplementaryBypass == b.ComplementaryBypass &&
		a.Control.equal(&b.Control) && a.Bypass.equal(&b.Bypass) &&
		a.common() == b.common()
}

// common is what both ports share.
func (c *ThreeWayConfig) common() plainConfig {
	return plainConfig{
		stem: c.Stem, stroke: c.Stroke, angle: c.Angle,
		maxPressure: c.MaxPressure, springForce: c.SpringForce, density: c.Density,
	}
}

// WithDensity returns the valve with a liquid of that density in it.
func (v ThreeWay) WithDensity(rho units.Density) (ThreeWay, error) {
	cfg := v.Config()
	cfg.Density = rho
	return NewThreeWay(cfg)
}

// Function says which way the liquid goes.
func (v ThreeWay) Function() Function { return v.get().config.Function }

// Density returns the density at the valve.
func (v ThreeWay) Density() units.Density { return v.get().control.Density() }

// Control returns the way through the control port, A–AB, as a two-way valve:
// its relative travel is that of the three-way valve, and it has an authority and an
// installed characteristic. A response chain takes it as its valve, but is then that of
// this way throttling alone: for the unit in its circuit take a CircuitChain of package
// hydronics. Positive flow goes the way of the valve's function.
func (v ThreeWay) Control() TwoWay { return v.get().control }

// Bypass returns the way through the bypass port, B–AB, as a two-way valve
// whose relative travel is the port's own opening: 1 − h for a relative travel h
// of the three-way valve. Its stem is the opposite of the valve's, but both ports
// of a rotary valve are rotary.
func (v ThreeWay) Bypass() TwoWay { return v.get().bypass }

// Coefficients returns Kv of both ports at relative travel h.
func (v ThreeWay) Coefficients(h float64) (control, bypass units.FlowCoefficient) {
	m := v.get()
	return m.control.coefficient(h), m.bypass.coefficient(1 - h)
}

func (v TwoWay) coefficient(h float64) units.FlowCoefficient {
	return v.Kvs() * units.FlowCoefficient(v.RelativeCoefficient(h))
}

// TotalCoefficient returns the sum of both ports' Kv at relative travel h: what
// the valve passes when both ports are under the same pressure difference, as
// with little resistance in either circuit (authority near 1). See
// [ThreeWay.InstalledTotal] for real circuits.
func (v ThreeWay) TotalCoefficient(h float64) units.FlowCoefficient {
	control, bypass := v.Coefficients(h)
	return control + bypass
}

// Flows returns the flows of both ports at relative travel h, each at the
// pressure difference between it and AB; see [TwoWay.Flow] for their laws.
func (v ThreeWay) Flows(h float64, control, bypass units.Pressure) (a, b units.Flow) {
	m := v.get()
	return m.control.Flow(h, control), m.bypass.Flow(1-h, bypass)
}
