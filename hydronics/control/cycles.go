package control

import (
	"math"
	"slices"
)

// cycles keeps the lengths and heights of the last cycles of a record.
type cycles struct {
	count          int // all, those no longer kept included
	length, height [mostCycles]float64
}

const mostCycles = 1024

func (c *cycles) add(length, height float64) {
	i := c.count % mostCycles
	c.length[i], c.height[i] = length, height
	c.count++
}

// kept is how many are known.
func (c *cycles) kept() int { return min(c.count, mostCycles) }

// at returns the place of the k-th of those kept, the oldest first.
func (c *cycles) at(k int) int { return (c.count - c.kept() + k) % mostCycles }

// median returns that of some of the values kept, the lower one of two.
func (c *cycles) median(values *[mostCycles]float64, from, to int) float64 {
	var sorted [mostCycles]float64
	some := sorted[:0]
	for k := from; k < to; k++ {
		some = append(some, values[c.at(k)])
	}
	slices.Sort(some)
	return some[(len(some)-1)/2]
}

// meanHeight is that of all cycles kept.
func (c *cycles) meanHeight() float64 {
	var sum float64
	for _, h := range c.height[:c.kept()] {
		sum += h
	}
	return sum / float64(c.kept())
}

// evenness is what the cycles have in common.
type evenness struct {
	first  int // number of the first cycle that even knows
	all    int
	even   [mostCycles]bool // by cycle kept
	count  int              // of those
	timely int              // how many are even by their length alone
	period float64          // their mean length
	height float64          // their mean height
	trend  float64          // of their height

	lastHalf float64 // height in the last half over that in both
}

// evenness compares each cycle with the median length, and with the line through the
// median heights of the first and the last half. What stands out, as the answer to a
// disturbance does, has no part in the means.
func (c *cycles) evenness() evenness {
	n := c.kept()
	e := evenness{first: c.count - n, all: n}
	length := c.median(&c.length, 0, n)
	early, late := c.median(&c.height, 0, (n+1)/2), c.median(&c.height, n/2, n)
	var lengths, heights float64
	for k := range n {
		i := c.at(k)
		height := early + float64((late-early)*(2*(float64(k)+0.5)/float64(n)-0.5))
		timely := math.Abs(c.length[i]-length) <= mostUnevenTime*length
		if timely {
			e.timely++
		}
		e.even[k] = timely && math.Abs(c.height[i]-height) <= mostUnevenSize*height
		if e.even[k] {
			lengths += c.length[i]
			heights += c.height[i]
			e.count++
		}
	}
	e.trend, e.lastHalf = trend(early, late), 2*late/(early+late)
	if e.count == 0 {
		e.period, e.height = length, (early+late)/2
		return e
	}
	e.period, e.height = lengths/float64(e.count), heights/float64(e.count)
	return e
}

// trend is the end over the beginning of the straight line through the middles of both
// halves, not below zero.
func trend(early, late float64) float64 {
	begin, end := 3*early-late, 3*late-early
	switch {
	case end <= 0:
		return 0
	case begin <= 0:
		return math.Inf(1)
	}
	return end / begin
}

// enough reports whether the cycles are those of one swing: the fewer there are, the
// fewer may stand out, and none of three whole ones (five, counted from every turn).
func (e *evenness) enough() bool { return e.few(e.all - e.count) }

// rhythmic is enough by the lengths alone.
func (e *evenness) rhythmic() bool { return e.few(e.all - e.timely) }

func (e *evenness) few(uneven int) bool {
	return float64(uneven) <= mostUneven*float64(e.all-leastEven)
}

// is reports whether the cycle of a number, counted from the beginning, is even.
func (e *evenness) is(number int) bool {
	k := number - e.first
	return k >= 0 && k < e.all && e.even[k]
}
