package control

import "math"

// crossings counts how often a series leaves a band around zero on the other side
// than before, and keeps the lengths and heights of what lies between.
type crossings struct {
	band  float64
	side  float64 // +1, −1, 0 before the first
	count int
	at    [2]int  // places of the last two crossings
	peak  float64 // of the half cycle under way
	half  float64 // height of the one before, 0 if it was not whole
	end   int     // the last place

	period statistics // of whole cycles, in places
	height statistics // half from peak to peak
}

// add takes the next value. It reports when a whole cycle ends, and where it began.
func (c *crossings) add(i int, y float64) (from int, whole bool) {
	c.end = i
	side := math.Copysign(1, y)
	switch {
	case !(math.Abs(y) > c.band) || side == c.side:
	case c.side == 0: // no crossing: the record begins on this side
		c.side = side
	default:
		from, whole = c.at[0], c.count >= 2 && side > 0
		c.cross(i, side)
	}
	c.peak = math.Max(c.peak, c.side*y)
	return from, whole
}

func (c *crossings) cross(i int, side float64) {
	if c.count >= 2 {
		c.period.add(float64(i - c.at[0]))
		if c.half > 0 {
			c.height.add((c.peak + c.half) / 2)
		}
	}
	if c.count >= 1 {
		c.half = c.peak
	}
	c.at[0], c.at[1] = c.at[1], i
	c.count++
	c.side, c.peak = side, 0
}

// cycles is the number of cycles between the first and the last crossing.
func (c *crossings) cycles() float64 { return math.Max(0, float64(c.count-1)/2) }

// fewDoubt says why there are too few cycles: an average may have swallowed fast ones.
func (c *crossings) fewDoubt(width int) Doubt {
	if width > 1 {
		return TooNoisy
	}
	return TooFewCycles
}

// doubt says what speaks against a lasting swing.
func (c *crossings) doubt(width int) Doubt {
	period := c.period.mean()
	switch {
	case period < leastPerCycle:
		return TooCoarse
	case float64(width) > period/2:
		return TooNoisy
	case c.period.spread() > mostUnevenTime*period || float64(c.end-c.at[1]) > period:
		return Irregular
	case c.height.trend() < deadTrend:
		return Dying
	case c.height.unevenness() > mostUnevenSize*c.height.mean():
		return Irregular
	}
	return NoDoubt
}
