package terminal

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// handle gives every terminal the methods of Terminal. It is one word, and what
// it points at never changes. Without a model its numbers are NaN.
type handle struct{ m *model }

var none model // never written to

// newHandle returns the empty handle with an error.
func newHandle(m model, err error) handle {
	if err != nil {
		return handle{}
	}
	return handle{&m}
}

func (h handle) model() *model {
	if h.m == nil {
		return &none
	}
	return h.m
}

func (h handle) equal(g handle) bool { return *h.model() == *g.model() }

// Design returns the point that the terminal was chosen for.
func (h handle) Design() DesignPoint { return h.model().point }

// Heat returns the heat at flow q and the design conditions, positive for
// cooling too. It is 0 for a flow of zero or less (a terminal has no law for
// water that comes from its return side), rises with q, and stays below the
// limit that an infinite flow gives.
func (h handle) Heat(q units.Flow) units.Power {
	m := h.model()
	return units.Power(m.heat(float64(q), &m.design))
}

// Output returns heat, return temperature and the rest at flow q and the
// conditions c; a field of c that is zero stands for the design's. At a flow of
// zero or less no heat flows and the return has the temperature of the air; an
// infinite flow gives the limit, with a return as warm as the supply. Where the
// supply lies on the other side of the air than at design, the same law runs
// the other way and the heat is negative. NaN in, NaN out.
func (h handle) Output(q units.Flow, c Conditions) Output {
	m := h.model()
	s := m.state(c)
	return m.output(float64(q), &s)
}

// FlowFor returns the flow that gives a heat at the conditions c, the inverse
// of Output. The error wraps [ErrUnreachable] if no flow gives it: at the limit
// and above, or in the wrong direction. A NaN is an error that wraps
// [units.ErrInvalid].
func (h handle) FlowFor(heat units.Power, c Conditions) (units.Flow, error) {
	m := h.model()
	s := m.state(c)
	q, limit, ok := m.flowFor(s.sign*float64(heat), &s)
	switch {
	case ok:
		return units.Flow(q), nil
	case h.m == nil:
		return units.Flow(math.NaN()), zeroFault()
	case math.IsNaN(float64(heat) + limit):
		return units.Flow(math.NaN()), &units.FieldError{Package: packageName, Field: "heat", Value: heat.String(), Want: "a number, at known conditions"}
	}
	return units.Flow(math.NaN()), &UnreachableError{Wanted: heat, Limit: units.Power(s.sign * limit)}
}

// FlowForReturn returns the flow at which the water leaves at a temperature under
// the conditions c: the inverse of Output in its Return, which goes from the air's
// temperature to the supply's as the flow rises. It answers which flow a
// condensing boiler or a district heating network may be sent so that it gets its
// cold return, and HeatShare what heat is left. The air's own temperature takes no
// flow: 0. A [WetCoil] with most of its resistance on the water side can have the
// same return at several flows, about where it begins to condense; what comes back
// is one of them.
//
// The error wraps [ErrUnreachable] if no flow does it: at the supply temperature
// and beyond, or on the other side of the air. A temperature that is zero or NaN
// is an error that wraps [units.ErrInvalid].
func (h handle) FlowForReturn(back units.Temperature, c Conditions) (units.Flow, error) {
	m := h.model()
	s := m.state(c)
	change := m.direction * s.sign * float64(s.conditions.Supply.Sub(back))
	switch {
	case back.IsZero():
		return units.Flow(math.NaN()), returnFault("none")
	case m.kind == noLaw || math.IsNaN(change+m.heat(1, &s)):
		return units.Flow(math.NaN()), returnFault(back.String())
	case back == s.conditions.Air:
		return 0, nil
	case !(change > 0 && change < s.excess):
		return units.Flow(math.NaN()), &UnreachableReturnError{Wanted: back, Supply: s.conditions.Supply, Air: s.conditions.Air}
	}
	return units.Flow(m.flowForChange(change, &s)), nil
}

func zeroFault() error {
	return &units.FieldError{Package: packageName, Field: "Terminal", Value: "the zero terminal", Want: "one made by a constructor of this package"}
}

func returnFault(value string) error {
	return &units.FieldError{Package: packageName, Field: "return", Value: value, Want: "a temperature, at known conditions"}
}

// HeatShare returns the share of the design heat at a share of the design flow,
// both at the design conditions: exactly 0 at 0 and 1 at 1, more than 1 above.
func (h handle) HeatShare(flowShare float64) float64 {
	m := h.model()
	return m.heat(flowShare*float64(m.point.Flow), &m.design) / float64(m.point.Heat)
}

// FlowShare returns the share of the design flow that gives a share of the
// design heat, the inverse of HeatShare: 0 for 0 and less, +Inf where no flow
// is enough.
func (h handle) FlowShare(heatShare float64) float64 {
	m := h.model()
	switch {
	case heatShare == 1:
		return 1
	case heatShare <= 0:
		return 0
	}
	q, limit, ok := m.flowFor(heatShare*float64(m.point.Heat), &m.design)
	if !ok && heatShare*float64(m.point.Heat) >= limit {
		return math.Inf(1)
	}
	return q / float64(m.point.Flow)
}
