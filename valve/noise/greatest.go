package noise

import (
	"math"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// addGreatest compares the level with those of smaller drops. inletFactor is what
// takes the xFz of 6 bar to the actual inlet.
//
// Up to xFz and FL², where the jet chokes, there is nothing to search: at a flow that
// is held the sound power goes with Δp^1.5, and the peak, which goes with Δp^(1/16)
// to Δp^(1/4) as Kv falls, can take no more from the bands than it rises by.
func (r *Result) addGreatest(c *Config, inletFactor float64) {
	t := newThrottling(c, r, inletFactor)
	here := t.heard(t.xF)
	if greatest := t.greatest(here); greatest > here*(1+indistinct) {
		r.GreatestLevel = r.Level + decibels(greatest/here)
		r.BeyondGreatest = true
	}
}

const (
	// indistinct is a ratio of powers that rounding makes.
	indistinct = 1e-9
	// scan is how many steps the search takes before it closes in.
	scan = 16
	// closings bounds the error of the place by 0.618^15/8 of the whole, 1e-4, which
	// is 1e-5 dB or less at a greatest value with a tangent.
	closings = 15
	// onsets are steps to the onset, each of which divides the error by 8 or more.
	onsets = 6
	golden = 0.6180339887498949
)

// throttling is the sound heard outside of a valve as it throttles to hold the flow.
type throttling struct {
	c           *Config
	full        operation // at the whole drop
	xF, choked  float64   // at the whole drop, and where the jet chokes
	start       float64   // xF up to which the power rises for sure
	span        float64   // ln((1 − xF)/(1 − start))
	inletFactor float64
	through     [len(bands)]float64 // of the power in each band: wall and A-weighting
}

func newThrottling(c *Config, r *Result, inletFactor float64) throttling {
	fl := c.Case.Valve.FL
	t := throttling{c: c, full: operation{c.drop(), c.Kv, r.XFz}, xF: r.XF, choked: fl * fl, inletFactor: inletFactor}
	onset := r.XFz
	for range onsets {
		onset = t.at(onset).xFz
	}
	t.start = min(onset, t.choked, r.XF)
	t.span = math.Log((1 - r.XF) / (1 - t.start))
	for i, b := range bands {
		t.through[i] = offRing(b.centre/float64(r.RingFrequency)) * weights[i]
	}
	return t
}

// at returns the operation at an xF.
func (t *throttling) at(xF float64) operation {
	share := xF / t.xF
	o := operation{units.Pressure(share) * t.full.drop, t.full.kv / units.FlowCoefficient(math.Sqrt(share)), t.full.xFz}
	if t.c.Case.Valve.XFz == 0 {
		o.xFz = sizing.EstimateXFz(o.kv, t.c.Case.Valve) * t.inletFactor
	}
	return o
}

// heard returns the power heard, in a unit of its own, at an xF.
func (t *throttling) heard(xF float64) float64 {
	s := t.c.source(t.at(xF))
	sum := 0.0
	for i, b := range bands {
		sum += float64(s.shareAt(b.centre) * t.through[i])
	}
	return sum * float64(s.power())
}

// heardAt is heard by the place in the search, 0 at the start and 1 at the whole drop. The
// places are even in the logarithm of 1 − xF, on which the peak of cavitation
// depends.
func (t *throttling) heardAt(place float64) float64 {
	return t.heard(1 - float64((1-t.start)*math.Exp(place*t.span)))
}

// greatest returns the greatest power heard over all smaller drops, of which the
// whole one is heard as here: by a scan, and golden sections about its best. Where the
// jet chokes the power has a kink, which is looked at by itself.
func (t *throttling) greatest(here float64) float64 {
	best, at := here, scan
	for k := range scan {
		if heard := t.heardAt(float64(k) / scan); heard > best {
			best, at = heard, k
		}
	}
	const nearly = 1 - 1e-4
	if at == scan && t.heardAt(nearly) < here {
		return here // it still rises
	}
	best = max(best, t.closeIn(float64(max(at-1, 0))/scan, float64(min(at+1, scan))/scan))
	if t.choked < t.xF {
		best = max(best, t.heard(t.choked))
	}
	return best
}

// closeIn returns the greatest power between two places of the search.
func (t *throttling) closeIn(lo, hi float64) float64 {
	left, right := hi-golden*(hi-lo), lo+golden*(hi-lo)
	atLeft, atRight := t.heardAt(left), t.heardAt(right)
	for range closings {
		if atLeft > atRight {
			hi, right, atRight = right, left, atLeft
			left = hi - golden*(hi-lo)
			atLeft = t.heardAt(left)
		} else {
			lo, left, atLeft = left, right, atRight
			right = lo + golden*(hi-lo)
			atRight = t.heardAt(right)
		}
	}
	return max(atLeft, atRight)
}
