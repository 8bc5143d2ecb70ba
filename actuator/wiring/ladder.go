package wiring

import (
	"gonum.org/v1/gonum/mat"

	"github.com/indexrun/indexrun/units"
)

// ladder is the cable in the form of Kirchhoff's loop law, in SI. The loop of a load
// runs from the supply through the load and back, the loop of a signal from the
// controller through the input and back. Two loops have a stretch of conductor in
// common, whose resistance couples them.
type ladder struct {
	supply *mat.Dense // load k on load j: supply conductor, common, internal resistance
	line   *mat.Dense // signal k on signal j: signal conductor, its common, output
	shift  *mat.Dense // load k on signal j: the shared common, signed by the directions

	conductance *mat.DiagDense // of the inputs
	sent        *mat.VecDense
	open        *mat.VecDense // supply voltage without load
}

// places holds the metres of each device from both ends of interest.
type places struct {
	toSupply, toController []float64
	sameEnd                bool
	whole                  float64
}

func (c Config) places() places {
	whole := float64(c.length())
	p := places{sameEnd: c.SupplyEnd == c.ControllerEnd, whole: whole}
	var x float64
	for _, d := range c.Devices {
		x += float64(d.Length)
		p.toSupply = append(p.toSupply, fromEnd(c.SupplyEnd, x, whole))
		p.toController = append(p.toController, fromEnd(c.ControllerEnd, x, whole))
	}
	return p
}

func fromEnd(e End, x, whole float64) float64 {
	if e == FarEnd {
		return whole - x
	}
	return x
}

// sharedReturn is the stretch that the signal of j and the load k both return through:
// above zero if in the same direction, below if against each other.
func (p places) sharedReturn(j, k int) float64 {
	if p.sameEnd {
		return min(p.toController[j], p.toSupply[k])
	}
	return -max(0, p.toController[j]+p.toSupply[k]-p.whole)
}

// perMetre holds the resistances of the conductors in Ω/m.
type perMetre struct{ supply, common, signal, signalCommon float64 }

func (c Config) perMetre() perMetre {
	of := func(w Conductor) float64 { return float64(w.Resistance(units.Metre, c.Temperature)) }
	return perMetre{of(c.Cable.Conductor), of(c.Cable.common()), of(c.Cable.signal()), of(c.Cable.signalCommon())}
}

func newLadder(c Config) *ladder {
	n := len(c.Devices)
	p, r := c.places(), c.perMetre()
	a := &ladder{
		supply: mat.NewDense(n, n, nil), line: mat.NewDense(n, n, nil), shift: mat.NewDense(n, n, nil),
		conductance: mat.NewDiagDense(n, nil), sent: mat.NewVecDense(n, nil), open: mat.NewVecDense(n, nil),
	}
	for j, d := range c.Devices {
		a.conductance.SetDiag(j, d.conductance())
		a.sent.SetVec(j, c.sent(d).Number())
		a.open.SetVec(j, float64(c.Supply.Voltage))
		for k := range c.Devices {
			along := min(p.toSupply[j], p.toSupply[k])
			a.supply.Set(j, k, float64(c.Supply.Resistance)+float64((r.supply+r.common)*along))
			a.line.Set(j, k, c.lineCoupling(p, r, j, k))
			if c.Common == SharedCommon {
				a.shift.Set(j, k, r.common*p.sharedReturn(j, k))
			}
		}
	}
	return a
}

// lineCoupling is the resistance through which the current of input k lowers the
// voltage at input j.
func (c Config) lineCoupling(p places, r perMetre, j, k int) float64 {
	along := min(p.toController[j], p.toController[k])
	back := r.signalCommon
	if c.Common == SharedCommon {
		back = r.common
	}
	coupling := float64(back * along)
	oneConductor := j == k || c.Devices[j].Feed == SharedSignal && c.Devices[k].Feed == SharedSignal
	if oneConductor {
		coupling += float64(c.Output) + float64(r.signal*along)
	}
	return coupling
}
