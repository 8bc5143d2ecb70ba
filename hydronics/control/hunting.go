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
	// LastHalf marks figures of the last half of the record, or less of it, alone: steady
	// after some swing or disturbance, or a swing, hunting or in doubt, that came or grew late.
	LastHalf bool
	// Amplitude is half the swing from peak to peak, the mean over all even cycles; of an
	// irregular swing the mean over all. On a record without cycles it is that of the sine with the same
	// power (a triangle has 1.22 times as much, a square 0.71). Of a hunting loop it is above the
	// tolerance, of a steady one never.
	Amplitude Q
	// Period is the mean over all even cycles, Cycles counts those and the others; 0
	// without cycles.
	Period time.Duration
	Cycles float64
	// Trend is the amplitude at the end over that at the beginning, by the straight line
	// through the medians of both halves: below 1 the swing dies, above 1 it grows. 0 without cycles.
	Trend float64
	// Noise is the standard deviation of what changes from one value to the next.
	Noise Q
}

// The thresholds of DetectHunting; this package's own, no published source.
const (
	leastRecord    = 16
	leastCycles    = 3
	leastPerCycle  = 8    // values
	mostUnevenTime = 0.2  // of an even cycle, from the median
	mostUnevenSize = 0.35 // the same by height, from its trend
	mostUneven     = 0.3  // share that may be uneven, of the cycles beyond the first few
	leastEven      = 4
	deadTrend      = 0.5
	alternating    = 1.4  // noise power over all power: white noise has 1, a swing from value to value 8/3
	faintNoise     = 0.02 // noise over swing, below which single peaks are taken as they are
)

// DetectHunting says whether a loop hunts, from a record of its control deviation (or
// of its valve's travel) at equal steps of time. tolerance is the amplitude that does
// not matter, half the swing from peak to peak. It allocates nothing.
//
// The method, this package's own after common practice:
//
//  1. A straight line is fitted and taken off.
//  2. The noise is the standard deviation of second differences over √6, which a
//     slow swing hardly touches (a sine of 20 values to the cycle by 3 % of its
//     amplitude). If the rest of the power is surely less than that of a triangle of
//     the tolerance, the loop is steady so far: a limit cycle is not more pointed than
//     that, though a row of short spikes is, and may pass. So it is if the last half alone has as little,
//     while the whole has more than a sine of the tolerance.
//  3. Otherwise a moving average brings the noise below a tenth of the swing.
//  4. The swing is counted in turns: where the record turns back by more than a band, the
//     wider of the tolerance and ten times the noise left. A drift or a hump beneath
//     the swing does not hide it; the line counts as a drift if the values lie closer together without it.
//  5. It lasts if there are three cycles or more, up to the end, of even length
//     (20 % about the median) and height (35 % about the line through the medians of both
//     halves), that do not fall below half. Among many, three in ten may be uneven,
//     such as those after a disturbance. Of more than 512 cycles the last are judged.
//  6. The amplitude is the mean of the even cycles or, where there is noise, that of
//     the mean cycle, all even ones laid over each other in 24 to 96 parts.
//  7. A swing that lasts is hunting if its amplitude is above the tolerance, and by the trend
//     that of its last half too; if not, the loop is steady. Where steps 4 and 5 are in doubt it is
//     steady all the same if the power, of the whole or of the last half, is surely less than that
//     of a sine of the tolerance.
//  8. A steady record may swing at its end. Ever shorter ends are judged by themselves, each 1/√2 of
//     the one before, down to 24 values. It stays steady if none swings surely beyond the
//     tolerance; a swing that has just begun or that grows is hunting if an end shows enough of
//     it for step 5, and undecided otherwise. The ends of a record that step 5 finds
//     irregular by the heights of its cycles, not their lengths, are looked at alike.
//
// Within 5 % of the tolerance the verdict is open: the peaks of a swing fall between the values of a
// short cycle, and three cycles need three and a half to be seen. A triangle of 20 to 35 values to
// the cycle, or one in noise of a tenth of it, may come out lower by 10 %, and a square in noise of a
// quarter of it, of few cycles, higher by 15 %. Of fewer cycles than three and a half the power alone
// may call a triangle of up to 1.4 times the tolerance steady.
//
// It cannot tell who swings: a loop that is driven by another, or by a load that comes
// and goes in a rhythm, hunts as well. Compare the period with that of [Process.Ultimate]:
// with too much gain a loop swings at about that period (0.8 … 1.5 times, with an
// integral at the upper end); with play, friction or dead band and an integral, at
// twice to many times that; one that is forced, at the period of what drives it (ranges: common
// practice, no published source). To be sure, put the controller in hand control and look
// again: a swing that goes on comes from outside.
//
// Steady is not stable: a loop that is unstable by its [Margins] may rest within the
// dead band of its actuator, and hunts after the next disturbance. Test a loop
// with one, such as a step of the set point by a few times the tolerance, and judge what follows.
func DetectHunting[Q ~float64](deviation []Q, step time.Duration, tolerance Q) Swing[Q] {
	var s Swing[Q]
	r, ok := newRecord(deviation, step, float64(tolerance))
	if !ok {
		s.Doubt = NoRecord
		return s
	}
	s.Noise, s.Amplitude = Q(r.noise), Q(r.size(r.power))
	rhythmic := false
	if r.within(pointed, r.power, r.count) {
		s.Verdict = Steady
	} else {
		rhythmic = s.weigh(&r, deviation, step)
	}
	if s.Verdict == Steady || rhythmic {
		s.late(deviation, step, tolerance, r.shape)
	}
	return s
}

// weigh judges by the power and then, if there can be a swing beyond the tolerance in it, by
// the cycles, which overrule the power where they leave no doubt. It reports what count does.
func (s *Swing[Q]) weigh(r *record, x []Q, step time.Duration) (rhythmic bool) {
	tail := x[len(x)/2:]
	power := variance(tail)
	switch {
	case r.within(sinusoidal, r.power, r.count):
		s.Verdict = Steady
	case r.coarse():
		s.Doubt = TooCoarse
	case r.within(sinusoidal, power, len(tail)):
		s.Verdict, s.LastHalf, s.Amplitude = Steady, true, Q(r.size(power))
	case r.drowned():
		s.Doubt = TooNoisy
	}
	if r.coarse() || r.drowned() || s.LastHalf && r.within(pointed, power, len(tail)) {
		return false
	}
	counted := Swing[Q]{Noise: s.Noise, Amplitude: Q(r.size(r.power))}
	level(r, x)
	rhythmic = counted.count(r, x, step)
	if counted.Doubt == NoDoubt || s.Verdict != Steady {
		*s = counted
	}
	return rhythmic
}

// count finds the cycles and judges them. It reports whether they are in doubt for their heights,
// not for their lengths, so that an end of the record may be regular.
func (s *Swing[Q]) count(r *record, x []Q, step time.Duration) (rhythmic bool) {
	width := r.averaging()
	c := newTurns(math.Max(r.tolerance, 10*r.noise/math.Sqrt(float64(width))))
	for i, y := range averaged(x, r, width) {
		c.add(i, y)
	}
	if s.Cycles = c.whole(); s.Cycles < leastCycles {
		s.Doubt = c.fewDoubt(width)
		return false
	}
	s.LastHalf = s.LastHalf || c.first > len(x)/2
	e := c.cycles.evenness()
	s.Period = time.Duration(math.Round(e.period * float64(step)))
	s.Amplitude, s.Trend = Q(e.height), e.trend
	if r.noise > faintNoise*e.height && e.count > 0 {
		s.Amplitude = Q(overlay(x, r, width, c.band, &e))
	}
	r.shape = square(float64(s.Amplitude)) / (r.power - square(r.noise))
	switch s.Doubt = c.doubt(&e, width); s.Doubt {
	case NoDoubt:
		s.decide(Q(r.tolerance), s.Amplitude*Q(e.lastHalf))
	case Irregular:
		s.Amplitude = Q(c.cycles.meanHeight())
	}
	return s.Doubt == Irregular && e.rhythmic()
}

// decide compares the amplitude, and that of the last half, with the tolerance.
func (s *Swing[Q]) decide(tolerance, lastHalf Q) {
	switch {
	case s.Amplitude <= tolerance:
		s.Verdict = Steady
	case lastHalf <= tolerance:
		s.Verdict, s.LastHalf, s.Amplitude = Steady, true, lastHalf
	default:
		s.Verdict = Hunting
	}
}

// overlay returns the amplitude of the mean of the even cycles.
func overlay[Q ~float64](x []Q, r *record, width int, band float64, e *evenness) float64 {
	c := newTurns(band)
	f := newFolded(e, r.noise)
	for i, y := range averaged(x, r, width) {
		if from, whole := c.add(i, y); whole && e.is(c.cycles.count-1) {
			fold(&f, x, r, from, i)
		}
	}
	if f.empty() {
		return e.height
	}
	return f.amplitude()
}

func square(x float64) float64 { return x * x }
