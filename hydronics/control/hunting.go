package control

import (
	"math"
	"time"
)

// Swing is what [DetectHunting] finds in a record. Q is the kind of the values:
// a temperature difference, or float64 for travels and outputs.
type Swing[Q ~float64] struct {
	Verdict Verdict
	Doubt   Doubt // why it is undecided
	// Amplitude is half the swing from peak to peak, the mean over all cycles; on a
	// record without cycles that of the sine with the same power.
	Amplitude Q
	// Period and Cycles are those of the swing; 0 without cycles.
	Period time.Duration
	Cycles float64
	// Trend is the amplitude at the end over that at the beginning, by a straight line
	// through all: below 1 the swing dies, above 1 it grows. 0 without cycles.
	Trend float64
	// Noise is the standard deviation of what changes from one value to the next.
	Noise Q
}

// The thresholds of DetectHunting; this package's own, no published source.
const (
	leastRecord    = 16
	leastCycles    = 3
	leastPerCycle  = 8    // values
	mostUnevenTime = 0.2  // standard deviation of the periods over their mean
	mostUnevenSize = 0.35 // the same of the amplitudes, about their trend
	deadTrend      = 0.5
	alternating    = 1.4  // noise power over all power: white noise has 1, a swing from value to value 8/3
	faintNoise     = 0.02 // noise over swing, below which single peaks are taken as they are
)

// DetectHunting says whether a loop hunts, from a record of its control deviation (or
// of its valve's travel) at equal steps of time. tolerance is the amplitude that does
// not matter. It allocates nothing.
//
// The method, this package's own after common practice:
//
//  1. A straight line is fitted and taken off.
//  2. The noise is the standard deviation of second differences over √6, which a
//     slow swing hardly touches (a sine of 20 values to the cycle by 3 % of its
//     amplitude). If the rest of the power is surely less than that of a sine of
//     the tolerance, over the whole record or over its last half, the loop is steady.
//  3. A moving average brings the noise below a tenth of the swing.
//  4. The swing is counted in crossings of zero with hysteresis: only what leaves a band
//     on the one side after the other counts, the wider of half the tolerance and
//     five times the noise left.
//  5. It is hunting if there are three cycles or more, up to the end, of even length
//     (20 %) and height (35 %), that do not fall below half.
//  6. The amplitude is the mean of the peaks or, where there is noise, that of the
//     mean of all cycles laid over each other in 24 parts.
//
// It cannot tell who swings: a loop that is driven by another in its rhythm hunts as
// well. To find out, put the controller in hand control and look again.
func DetectHunting[Q ~float64](deviation []Q, step time.Duration, tolerance Q) Swing[Q] {
	var s Swing[Q]
	r, ok := newRecord(deviation, step, float64(tolerance))
	if !ok {
		s.Doubt = NoRecord
		return s
	}
	size := r.size(r.power)
	s.Noise, s.Amplitude = Q(r.noise), Q(size)
	coarse := square(r.noise) > alternating*r.power
	tail := deviation[len(deviation)/2:]
	switch {
	case math.Sqrt(2*r.power) < r.tolerance, !coarse && r.within(r.power, r.count):
		s.Verdict = Steady
	case coarse:
		s.Doubt = TooCoarse
	case r.within(variance(tail), len(tail)):
		s.Verdict = Steady
	case square(size) < r.chance(r.count):
		s.Doubt = TooNoisy
	default:
		s.count(&r, deviation, step)
	}
	return s
}

// count finds the cycles and judges them.
func (s *Swing[Q]) count(r *record, x []Q, step time.Duration) {
	width := r.averaging()
	c := crossings{band: math.Max(r.tolerance/2, 5*r.noise/math.Sqrt(float64(width)))}
	var f folded
	for i, y := range averaged(x, r, width) {
		if from, whole := c.add(i, y); whole {
			fold(&f, x, r, from, i)
		}
	}
	if s.Cycles = c.cycles(); s.Cycles < leastCycles {
		s.Doubt = c.fewDoubt(width)
		return
	}
	s.Period = time.Duration(math.Round(c.period.mean() * float64(step)))
	s.Amplitude, s.Trend = Q(c.height.mean()), c.height.trend()
	if r.noise > faintNoise*c.height.mean() {
		s.Amplitude = Q(f.amplitude())
	}
	if s.Doubt = c.doubt(width); s.Doubt == NoDoubt {
		s.Verdict = Hunting
	}
}

func square(x float64) float64 { return x * x }
