package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
	"github.com/indexrun/indexrun/units"
)

// A Result is a flow, the Kv that passes it, and every factor between the two.
// It satisfies Flow = Kv·FP·FR·√(SizingDrop·ρ0/ρ).
type Result struct {
	Kv   units.FlowCoefficient
	Flow units.Flow

	// Rev is the valve Reynolds number (clause 9, equation (23), from memory), Regime
	// what follows from it.
	Rev    float64
	Regime Regime
	// Choked tells that the flow no longer rises if the outlet pressure falls.
	Choked bool
	// ReducedTrim tells that Kv/d² is below 0.016·N18, where FR, if below 1,
	// takes the formula for reduced trim.
	ReducedTrim bool
	// InScope tells that Kv/d² is at most 0.047·N18, up to where the standard claims
	// its accuracy.
	InScope bool

	// Clauses of IEC 60534-2-1:2011, from memory: FF 6.2, equation (4); FLP 8.3,
	// equation (21); FP 8.2, equation (15); FR Annex A.
	FF  float64 // liquid critical pressure ratio factor
	FL  float64 // pressure recovery factor of the valve alone
	FLP float64 // FL and FP combined, for a valve with reducers; FL without
	FP  float64 // piping geometry factor; 1 without reducers, above 1 with a lone outlet expander
	FR  float64 // Reynolds factor; 1 in turbulent flow

	// PressureDrop is Δp = p1 − p2.
	PressureDrop units.Pressure
	// ChokedPressureDrop is (FLP/FP)²·(p1 − FF·pv) (6.2, equation (3), from memory): no
	// greater Δp adds flow.
	ChokedPressureDrop units.Pressure
	// SizingDrop is the lesser of both.
	SizingDrop units.Pressure
}

// Size returns the least Kv that passes a flow, with all factors. It refuses a
// case or a flow that is not valid, and a flow that no valve passes because
// the reducers alone take the whole pressure, or because the liquid is too thick.
//
// In viscous flow behind a lone outlet expander Kv can, very rarely, not be the
// least; it passes the flow all the same. The package comment says where.
//
// IEC 60534-2-1:2011, clause 6, equations (1) to (4), and Annex A (from memory).
func Size(q units.Flow, c Case) (r Result, err error) {
	if !c.valid() || !positive(q) {
		return r, fault(&c, "Flow", q)
	}
	var l law
	l.prepare(&c)
	flow := q.In(units.CubicMetrePerHour)
	kv, rev, fr, ok := l.kvFor(flow)
	if head, _ := l.heads(kv); !ok || !(head > 0) {
		return r, l.tooMuch(q)
	}
	return r, r.fill(&l, &c, kv, flow, rev, fr)
}

// Flow returns the flow that a valve of that Kv passes, with all factors. It
// refuses a case or a Kv that is not valid.
//
// IEC 60534-2-1:2011, clause 6, equations (1) to (4), and Annex A (from memory).
func Flow(kv units.FlowCoefficient, c Case) (r Result, err error) {
	if !c.valid() || !positive(kv) {
		return r, fault(&c, "Kv", kv)
	}
	var l law
	l.prepare(&c)
	k := kv.In(units.Kv)
	if head, _ := l.heads(k); !(head > 0) {
		return r, l.tooWide(kv)
	}
	flow, rev, fr := l.flowOf(k)
	return r, r.fill(&l, &c, k, flow, rev, fr)
}

// flowOf returns the flow of a Kv, its Reynolds number and FR.
func (l *law) flowOf(c float64) (flow, rev, fr float64) {
	flow, _ = l.capacity(c)
	rev = l.speed(c) * flow
	if rev >= turbulentFrom {
		return flow, rev, 1
	}
	n, _ := trimFactor(fastlog.Cbrt(c/l.area), l.isFullSize(c))
	v := viscousFactors(l.fl, l.rootFL)
	fr = v.settle(rev, n)
	return flow * fr, rev * fr, fr
}

// fill sets r, and refuses numbers that left the range of float64.
func (r *Result) fill(l *law, c *Case, kv, flow, rev, fr float64) error {
	r.Kv, r.Flow = units.FlowCoefficient(kv), units.Flow(flow)*units.CubicMetrePerHour
	r.Rev, r.Regime = rev, regimeOf(rev)
	r.ReducedTrim, r.InScope = !l.isFullSize(kv), kv <= scopeLimit*l.area
	r.FF, r.FL, r.FLP, r.FP, r.FR = l.ff, l.fl, l.fl, 1, fr
	r.PressureDrop = c.Inlet.Sub(c.Outlet)
	r.ChokedPressureDrop = units.Pressure(l.fl*l.fl) * l.room
	if l.reducers {
		through, inlet := l.heads(kv)
		r.FP, r.FLP = 1/math.Sqrt(through), l.fl/math.Sqrt(inlet)
		r.ChokedPressureDrop *= units.Pressure(through / inlet)
	}
	r.Choked = r.PressureDrop >= r.ChokedPressureDrop
	r.SizingDrop = min(r.PressureDrop, r.ChokedPressureDrop)
	if !positive(kv * flow * rev * r.FP * r.FLP * r.FR * float64(r.ChokedPressureDrop)) {
		*r = Result{}
		return outOfRange(c)
	}
	return nil
}
