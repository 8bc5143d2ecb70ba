package control

import (
	"math"
	"time"
)

// leastLate is how many values the shortest end of a record has that is looked at by itself.
const leastLate = leastCycles * leastPerCycle

// late looks for a swing at the end of a record that what has been judged so far does not
// show: one that has just begun, or grows. It judges ever shorter ends, each by its own
// straight line and noise. By the longest that swings beyond the tolerance a steady
// record is in doubt; if one shows cycles enough, it is hunting. A swing that dies in one end
// does not go on in a shorter one.
func (s *Swing[Q]) late(x []Q, step time.Duration, tolerance Q) {
	n := len(x)
	if s.LastHalf {
		n /= 2
	}
	for n = shorter(n); n >= leastLate; n = shorter(n) {
		end := x[len(x)-n:]
		r, ok := newRecord(end, step, float64(tolerance))
		if !ok {
			continue
		}
		found := judgeEnd(end, &r, step)
		hunts := found.Verdict == Hunting && found.Amplitude > tolerance
		if hunts || found.Doubt != NoDoubt && s.Verdict == Steady {
			*s = found
		}
		if hunts || found.Doubt == Dying {
			return
		}
	}
}

// shorter is 1/√2 of a length.
func shorter(n int) int { return int(float64(n) * math.Sqrt2 / 2) }

// judgeEnd is what the end of a record shows by itself. Without a swing that is surely beyond the
// tolerance it is neither a verdict nor a doubt.
func judgeEnd[Q ~float64](x []Q, r *record, step time.Duration) (s Swing[Q]) {
	s.Noise, s.Amplitude, s.LastHalf = Q(r.noise), Q(r.size(r.power)), true
	noise := square(r.noise)
	switch {
	case math.Sqrt(2*r.power) < r.tolerance:
	case noise > alternating*r.power && noise-r.power > r.chance(r.count):
		s.Doubt = TooCoarse
	case square(float64(s.Amplitude))-r.chance(r.count) > square(r.tolerance) && height(x, r) > r.tolerance:
		s.count(r, x, step)
	}
	return s
}

// height is half of what lies between the highest and the lowest value, with or without the
// line, whichever is less. The power of a part of a wave can be a little more than that of
// the whole; its height cannot.
func height[Q ~float64](x []Q, r *record) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	lowest, highest := low, high
	for i, v := range x {
		y := r.rest(i, float64(v))
		low, high = math.Min(low, y), math.Max(high, y)
		lowest, highest = math.Min(lowest, float64(v)), math.Max(highest, float64(v))
	}
	return math.Min(high-low, highest-lowest) / 2
}
