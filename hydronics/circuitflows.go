package hydronics

import "github.com/indexrun/indexrun/units"

// CircuitFlows are the flows in the pipes of a [Circuit] at one position of its
// valve. They are positive in the direction that the circuit is drawn for.
type CircuitFlows struct {
	Consumer units.Flow // through the consumer
	Primary  units.Flow // taken from the source, and given back to it
	Control  units.Flow // through the valve's control port, or the two-way valve
	// Bypass goes through the valve's bypass port; 0 with a two-way valve. Below
	// zero in an injection circuit the consumer's pump draws from the source's
	// return, for want of a wide enough common pipe: a fault of the design.
	Bypass units.Flow
	// Recirculated goes from the consumer's return back to its supply. Below zero
	// the water of the source runs past the consumer into the return: a fault of
	// the design.
	Recirculated units.Flow
	// ValvePressure stands over the control port, or the two-way valve.
	ValvePressure units.Pressure
}

// A FlowRange is the least and the greatest flow in a pipe over the travel of the
// valve, and the relative travels where they occur.
type FlowRange struct {
	Least, Greatest     units.Flow
	LeastAt, GreatestAt float64
}

// Ratio returns the greatest flow over the least.
func (r FlowRange) Ratio() float64 { return float64(r.Greatest / r.Least) }

const (
	rangeSteps = 100 // of the travel, on which extremes are looked for
	goldenFine = 30  // steps, which narrow a cell by 1e6
)

// rangeOf looks for both extremes of a flow: on a grid, then about the best point.
func rangeOf(flow func(h float64) units.Flow) FlowRange {
	r := FlowRange{}
	r.GreatestAt, r.Greatest = greatest(flow)
	h, opposite := greatest(func(h float64) units.Flow { return -flow(h) })
	r.LeastAt, r.Least = h, -opposite
	return r
}

func greatest(flow func(h float64) units.Flow) (at float64, best units.Flow) {
	best = flow(0)
	for i := 1; i <= rangeSteps; i++ {
		h := float64(i) / rangeSteps
		if q := flow(h); !(q <= best) {
			at, best = h, q
		}
	}
	lo, hi := max(at-1.0/rangeSteps, 0), min(at+1.0/rangeSteps, 1)
	h := peak(func(h float64) float64 { return float64(flow(h)) }, lo, hi, goldenFine)
	if q := flow(h); q > best {
		at, best = h, q
	}
	return at, best
}
