package pump

import (
	"fmt"
	"math"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// A Bank is a set of pumps in parallel or in series, each at the speed it had
// when it was put there. It is a two-terminal law as a [Pump] is, and immutable.
type Bank struct {
	pumps  []Pump
	series bool
	curve  curve // of the set in forward flow, if one curve can be
	one    bool  // whether it can
	top    float64
	leak   float64 // through a shut check valve, flow per pressure
}

// checkValveLeak is the flow through a shut check valve at a reverse pressure of
// the bank's shut-off head, as a share of the smallest pump's runout flow. It is
// there for the law's sake: without it reverse flow would have no pressure.
const checkValveLeak = 1e-8

// Parallel puts pumps side by side, each behind a check valve: the flows at one
// head add up. A pump whose shut-off head is below the common head stands still
// against its check valve. Reverse flow meets the shut check valves; each leaks a
// 1e-8 part of the smallest runout flow at the greatest shut-off head, so that
// the law is strictly monotone.
func Parallel(pumps ...Pump) (Bank, error) {
	b, err := newBank(pumps)
	if err != nil {
		return Bank{}, err
	}
	runout := math.Inf(1)
	for _, p := range pumps {
		b.top, runout = max(b.top, p.curve.a), min(runout, p.curve.runout())
	}
	b.leak = checkValveLeak * runout / b.top
	differs := func(p Pump) bool { return p.curve != pumps[0].curve }
	if !slices.ContainsFunc(pumps, differs) {
		n, k := float64(len(pumps)), pumps[0].curve
		b.curve, b.one = newCurve(k.a, k.b/n, k.c/(n*n)), true
	}
	return b, nil
}

// Series puts pumps one behind the other: the heads at one flow add up. A pump
// driven beyond its runout flow counts with its negative head, as it does where
// it has no bypass.
func Series(pumps ...Pump) (Bank, error) {
	b, err := newBank(pumps)
	if err != nil {
		return Bank{}, err
	}
	var sum curve
	for _, p := range pumps {
		sum.a, sum.b, sum.c = sum.a+p.curve.a, sum.b+p.curve.b, sum.c+p.curve.c
	}
	b.series, b.curve, b.one, b.top = true, newCurve(sum.a, sum.b, sum.c), true, sum.a
	return b, nil
}

func newBank(pumps []Pump) (Bank, error) {
	l := check.List{Package: "pump"}
	l.Require(len(pumps) > 0, "pumps", len(pumps), "at least one pump")
	for i, p := range pumps {
		l.Require(p.speed > 0, fmt.Sprintf("pumps[%d]", i), "the zero Pump", "a pump made by New")
	}
	return Bank{pumps: slices.Clone(pumps)}, l.Err()
}

// Len returns the number of pumps.
func (b Bank) Len() int { return len(b.pumps) }

// Equal reports whether b and o are the same pumps in the same arrangement.
func (b Bank) Equal(o Bank) bool {
	return b.series == o.series && slices.EqualFunc(b.pumps, o.pumps, Pump.Equal)
}

// Head returns the pressure rise at a flow through the bank.
func (b Bank) Head(q units.Flow) units.Pressure {
	head, _ := b.at(float64(q))
	return units.Pressure(head)
}

// HeadSlope returns the derivative dH/dq of [Bank.Head] in SI, Pa/(m³/s). It is
// below zero everywhere; it has a kink where a check valve opens.
func (b Bank) HeadSlope(q units.Flow) float64 {
	_, slope := b.at(float64(q))
	return slope
}

// Flow returns the flow through the bank at a head, the inverse of [Bank.Head].
func (b Bank) Flow(head units.Pressure) units.Flow {
	q, _ := b.flow(float64(head))
	return units.Flow(q)
}

// Slope returns the derivative dq/dH of [Bank.Flow] in SI, m³/(s·Pa).
func (b Bank) Slope(head units.Pressure) float64 {
	_, slope := b.flow(float64(head))
	return slope
}

// ShutOff returns the head at zero flow.
func (b Bank) ShutOff() units.Pressure { return units.Pressure(b.top) }

// flow returns the flow through the bank at a head, and dq/dH.
func (b *Bank) flow(head float64) (q, slope float64) {
	if b.series {
		q = b.curve.flow(head)
		_, rise := b.curve.at(q)
		return q, 1 / rise
	}
	for i := range b.pumps {
		one, oneSlope := b.guarded(&b.pumps[i].curve, head)
		q, slope = q+one, slope+oneSlope
	}
	return q, slope
}

// guarded returns the flow of one pump behind its check valve, and dq/dH.
func (b *Bank) guarded(k *curve, head float64) (q, slope float64) {
	if head > k.a {
		return -b.leak * (head - k.a), -b.leak
	}
	q = k.flow(head)
	_, rise := k.at(q)
	return q, 1 / rise
}

// at returns the head of the bank, and dH/dq.
func (b *Bank) at(q float64) (head, slope float64) {
	if b.one && (b.series || !(q < 0)) {
		return b.curve.at(q)
	}
	lo, hi := b.bracket(q)
	head = root(lo, hi, func(h float64) (float64, float64) {
		at, slope := b.flow(h)
		return at - q, slope
	})
	_, slope = b.flow(head)
	return head, 1 / slope
}

// bracket returns a head at which one pump alone gives q and what the others leak, and
// one at which every pump alone gives q or less. Of the heads of single pumps the
// highest is the nearest: that of a small pump at a large flow lies orders below.
func (b *Bank) bracket(q float64) (lo, hi float64) {
	lo, hi = math.Inf(-1), 0
	most := max(q, 0) + float64(float64(len(b.pumps))*b.leak*b.top)
	for i := range b.pumps {
		k := &b.pumps[i].curve
		least, _ := k.at(most)
		lo, hi = max(lo, least), max(hi, k.a+max(-q, 0)/b.leak)
	}
	return lo, hi
}

// Pump returns the state of the pump at an index, while a flow goes through the
// bank; the zero State if there is no such pump. A pump that its check valve
// holds shut has the status [NoFlow].
func (b Bank) Pump(i int, q units.Flow) State {
	if i < 0 || i >= len(b.pumps) {
		return State{}
	}
	return b.pump(i, float64(q), float64(b.Head(q)), 1)
}

// pump is [Bank.Pump] at n times the bank's speed, for the bank's flow and head
// at that speed.
func (b *Bank) pump(i int, q, head, n float64) State {
	p := b.pumps[i].atSpeed(n * b.pumps[i].speed)
	if b.series {
		return p.State(units.Flow(q))
	}
	if head >= p.curve.a {
		state := p.State(0)
		state.Status = NoFlow
		return state
	}
	return p.State(units.Flow(p.curve.flow(head)))
}

// State returns how the bank works at a flow through it: powers are sums, the
// efficiency is that of the whole, NaN in reverse flow and below zero head. The speed is NaN if the pumps' speeds differ.
func (b Bank) State(q units.Flow) State {
	head, _ := b.at(float64(q))
	return b.state(float64(q), head, 1)
}

func (b *Bank) state(q, head, n float64) State {
	sum := State{Flow: units.Flow(q), Head: units.Pressure(head), Speed: math.NaN()}
	for i := range b.pumps {
		one := b.pump(i, q, head, n)
		sum.Shaft, sum.Electric = sum.Shaft+one.Shaft, sum.Electric+one.Electric
		if one.Extrapolated {
			sum.Status, sum.Extrapolated = BeyondCurve, true
		}
		switch {
		case i == 0:
			sum.Speed = one.Speed
		case one.Speed != sum.Speed:
			sum.Speed = math.NaN()
		}
	}
	sum.Efficiency = math.NaN()
	if q >= 0 && head >= 0 {
		sum.Efficiency = float64(sum.Hydraulic() / sum.Shaft)
	}
	return sum
}

// Operate returns the state in which the bank works on a system, as
// [Pump.Operate] does.
func (b Bank) Operate(s System) State {
	q := b.meet(s)
	if !(q > 0) {
		return b.State(0).orNoFlow()
	}
	return b.State(units.Flow(q))
}

// meet returns the flow at which the bank meets the system; zero if the static
// pressure holds the check valves shut.
func (b *Bank) meet(s System) float64 {
	if !(b.top > s.static) {
		return 0
	}
	if b.one {
		return b.curve.meet(s)
	}
	head := root(s.static, b.top, func(h float64) (float64, float64) {
		q, slope := b.flow(h)
		drawn := s.flow(h)
		return q - drawn, slope - 1/(2*s.resistance*drawn)
	})
	q, slope := b.flow(head)
	if drawn := s.flow(head); 2*s.resistance*drawn*math.Abs(slope) > 1 {
		return drawn // the flow of the steeper law is the less sensitive to the head's last digit
	}
	return q
}
