package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Resolution is the smallest change that reaches the valve. 0 means none worth
// mentioning.
type Resolution struct {
	// Signal is the smallest change of the signal that moves the actuator, as a
	// share of its range, 0 … 0.2: the step of the controller's output, or the
	// actuator's dead band if that is more.
	Signal float64
	// Stem is the smallest change of the stem, as a share of the valve's stroke, 0 …
	// 0.2: the step of the motor, or the play of the coupling if that is more.
	Stem float64
}

const coarsest = 0.2

// LeastLoad is the least load that a unit controls; below it the valve can only
// open and shut.
type LeastLoad struct {
	Opening float64    // opening demand, on the steps of the signal
	Travel  float64    // relative travel, on the steps of the stem
	Flow    units.Flow // through the valve, or its control port
	Heat    units.Power
	Share   float64 // of the full heat
}

// LeastLoad returns the least load that the unit controls with a resolution: the
// heat at the least travel
//
//   - that is no less than the end of the valve's closing region, where its curve
//     begins to hold (the inherent rangeability, see [valve.TwoWayConfig]),
//   - that is a whole number of steps of the stem, one at least, and
//   - that an opening demand of a whole number of steps of the signal, one at
//     least, brings about, the stem standing at the last of its steps that it
//     reached.
//
// It is a definition of this package; the rangeability is that of IEC 60534-2-4. With
// the flow and the heat at that travel, authority, pressure and terminal come in: in
// front of a radiator, 2 % of the coefficient can be a third of the heat.
func (h *HeatChain) LeastLoad(r Resolution) (LeastLoad, error) {
	l := check.List{Package: packageName}
	r.check(&l)
	l.Require(h.unit != nil, "HeatChain", "the zero HeatChain", "one made by NewHeatChain")
	if err := l.Err(); err != nil {
		return LeastLoad{}, err
	}
	opening, travel := h.end.leastControlled(&h.chain.drive, h.closing, r)
	flow := h.chain.flow(travel, h.pressure)
	heat := h.heatOf(flow)
	return LeastLoad{opening, travel, flow, heat, float64(heat / h.full)}, nil
}

func (r *Resolution) check(l *check.List) {
	check.Within(l, "Resolution.Signal", r.Signal, 0, coarsest)
	check.Within(l, "Resolution.Stem", r.Stem, 0, coarsest)
}

// leastControlled is the least travel that a signal controls, and the opening demand
// for it; closing is where the valve's closing region ends.
func (s *signalSide) leastControlled(drive *actuator.Mounted, closing float64, r Resolution) (opening, travel float64) {
	least := min(max(stepAbove(closing, r.Stem), drive.LeastTravel()), drive.GreatestTravel())
	sig, _ := drive.SignalFor(least)
	opening = min(stepAbove(s.openingOf(sig), r.Signal), 1)
	reached, _ := drive.Travel(s.signalAt(opening))
	return opening, max(stepBelow(reached, r.Stem), least)
}

// onStep is by how much of a step a value may miss it and still count as on it.
const onStep = 1e-9

// stepAbove is the least multiple of a step, one at least, that is no less than x.
func stepAbove(x, step float64) float64 {
	if step == 0 {
		return x
	}
	return max(1, math.Ceil(x/step-onStep)) * step
}

// stepBelow is the greatest multiple of a step that is no more than x.
func stepBelow(x, step float64) float64 {
	if step == 0 {
		return x
	}
	return math.Floor(x/step+onStep) * step
}

// closingTravel is where the closing region of the chain's valve ends.
func (c *Chain) closingTravel() float64 {
	switch c.kind {
	case independent, independentInBranch:
		return c.indep.ClosingTravel()
	}
	return c.two.ClosingTravel()
}
