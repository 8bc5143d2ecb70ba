package pump

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// A Law is what a circuit takes at a flow of zero or more: a pressure that does not
// fall as the flow rises. [System], pipe.Pipe and hydronics.Resistance are laws; use
// [LawFunc] for a sum of them, or for a valve at a travel.
type Law interface {
	Pressure(q units.Flow) units.Pressure
}

// LawFunc makes a function a [Law].
type LawFunc func(q units.Flow) units.Pressure

// Pressure calls the function; a nil one gives NaN.
func (f LawFunc) Pressure(q units.Flow) units.Pressure {
	if f == nil {
		return units.Pressure(math.NaN())
	}
	return f(q)
}

// OperateOn is [Pump.Operate] on any law. It refuses one that is not a number
// between no flow and the pump's runout.
func (p Pump) OperateOn(law Law) (State, error) {
	b, err := Parallel(p)
	if err != nil {
		return State{}, err
	}
	return b.OperateOn(law)
}

// OperateOn is [Bank.Operate] on any law, as [Pump.OperateOn].
func (b Bank) OperateOn(law Law) (State, error) {
	q, err := meetLaw(b.at, law)
	if err != nil {
		return State{}, err
	}
	return b.State(units.Flow(q)).orNoFlow(), nil
}

// OperateOn is [Controlled.Operate] on any law, as [Pump.OperateOn]. If a rising
// set line leaves room for several states, it is one of them.
func (c Controlled) OperateOn(law Law) (State, error) {
	q, err := c.meetLaw(law)
	if err != nil {
		return State{}, err
	}
	return c.State(units.Flow(q)).orNoFlow(), nil
}

// meetLaw returns the flow at which the pumps under control meet the law: on the
// set line if that is between their curves at the least and the greatest speed.
func (c *Controlled) meetLaw(law Law) (float64, error) {
	most, err := meetLaw(func(q float64) (float64, float64) { return c.curve(q, c.most) }, law)
	if err != nil || c.mode == FixedSpeed {
		return most, err
	}
	least, err := meetLaw(func(q float64) (float64, float64) { return c.curve(q, c.least) }, law)
	switch {
	case err != nil || above(c.line, law, least) <= 0:
		return least, err
	case above(c.line, law, most) >= 0:
		return most, nil
	}
	return cross(c.line, law, least, most), nil
}

// orNoFlow gives a state without flow its status.
func (s State) orNoFlow() State {
	if !(s.Flow > 0) {
		s.Status = NoFlow
	}
	return s
}

// headLaw returns the head at a flow, and its slope.
type headLaw func(q float64) (head, slope float64)

// above is by how much the head exceeds the law at a flow.
func above(head headLaw, law Law, q float64) float64 {
	h, _ := head(q)
	return h - float64(law.Pressure(units.Flow(q)))
}

// meetLaw returns the flow at which a head that falls to zero and below meets the
// law: zero if the law takes more even without flow.
func meetLaw(head headLaw, law Law) (float64, error) {
	l := check.List{Package: "pump"}
	if f, isFunc := law.(LawFunc); law == nil || isFunc && f == nil {
		l.Fault("Law", "nil", "a law of the circuit")
		return 0, l.Err()
	}
	if above(head, law, 0) <= 0 {
		return 0, nil
	}
	hi := 1e-9
	for above(head, law, hi) > 0 && hi < 1e9 {
		hi *= 2
	}
	q := cross(head, law, 0, hi)
	l.Require(!math.IsNaN(above(head, law, q)), "Law", law.Pressure(units.Flow(q)), "a pressure at every flow from zero up")
	return q, l.Err()
}

// cross returns where the head, above the law at lo and below it at hi, meets it.
// The slope of the law is taken from a difference: that it is not exact costs a
// step, no digit.
func cross(head headLaw, law Law, lo, hi float64) float64 {
	return root(lo, hi, func(q float64) (float64, float64) {
		h, slope := head(q)
		step := 1e-6 * q
		rise := float64(law.Pressure(units.Flow(q+step)) - law.Pressure(units.Flow(q-step)))
		return h - float64(law.Pressure(units.Flow(q))), slope - rise/(2*step)
	})
}
