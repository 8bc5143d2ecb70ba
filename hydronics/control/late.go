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
// does not go on in a shorter one. shape is that of the swing that the record is known to have, if any.
func (s *Swing[Q]) late(x []Q, step time.Duration, tolerance Q, shape float64) {
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
		found := judgeEnd(end, &r, step, shape)
		hunts := found.Verdict == Hunting
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
// tolerance it is neither a verdict nor a doubt. The power of a part of a wave can be a little more
// than that of the whole; its height cannot. For a doubt the shape is at most as pointed as a sine.
func judgeEnd[Q ~float64](x []Q, r *record, step time.Duration, shape float64) (s Swing[Q]) {
	s.Noise, s.Amplitude, s.LastHalf = Q(r.noise), Q(r.size(r.power)), true
	noise, sure := square(r.noise), r.beyond(math.Min(shape, sinusoidal))
	switch {
	case sinusoidal*r.power >= square(r.tolerance) && r.coarse() && noise-r.power > 2*r.chance(r.count):
		s.Doubt = TooCoarse
	case r.beyond(shape) && level(r, x) > r.tolerance:
		if s.count(r, x, step); !sure {
			s.Doubt = NoDoubt
		}
	}
	return s
}
