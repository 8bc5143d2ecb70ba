package control

import "math"

// turns counts how often a series turns back by more than a band, and keeps the lengths
// and heights of the cycles between. A slow drift or a single hump beneath a swing does
// not hide it.
type turns struct {
	band    float64
	way     float64 // +1 rising, −1 falling, 0 at first
	count   int
	first   int        // place of the first turn
	at      [2]int     // places of the last two turns, where the band was passed
	extreme [2]float64 // least and greatest since the last turn
	half    float64    // height of the half cycle before
	end     int        // the last place

	cycles cycles // one from each turn to that after the next
}

func newTurns(band float64) turns {
	return turns{band: band, extreme: [2]float64{math.Inf(1), math.Inf(-1)}}
}

// add takes the next value. It reports when a whole cycle ends, and where it began.
func (t *turns) add(i int, y float64) (from int, whole bool) {
	t.end = i
	low, high := &t.extreme[0], &t.extreme[1]
	*low, *high = math.Min(*low, y), math.Max(*high, y)
	switch {
	case t.way <= 0 && y-*low > t.band:
		from, whole = t.at[0], t.count >= 2
		t.turn(i, 1)
		*high = y
	case t.way >= 0 && *high-y > t.band:
		t.turn(i, -1)
		*low = y
	}
	return from, whole
}

// turn notes that the series goes the other way now.
func (t *turns) turn(i int, way float64) {
	if t.way == 0 { // no turn: the record begins this way
		t.way = way
		return
	}
	height := (t.extreme[1] - t.extreme[0]) / 2
	if t.count >= 2 {
		t.cycles.add(float64(i-t.at[0]), (height+t.half)/2)
	}
	if t.count == 0 {
		t.first = i
	}
	t.half = height
	t.at[0], t.at[1] = t.at[1], i
	t.count++
	t.way = way
}

// whole is the number of cycles between the first and the last turn.
func (t *turns) whole() float64 { return math.Max(0, float64(t.count-1)/2) }

// fewDoubt says why there are too few cycles: an average may have swallowed fast ones.
func (t *turns) fewDoubt(width int) Doubt {
	if width > 1 {
		return TooNoisy
	}
	return TooFewCycles
}

// doubt says what speaks against a lasting swing.
func (t *turns) doubt(e *evenness, width int) Doubt {
	switch {
	case e.period < leastPerCycle:
		return TooCoarse
	case float64(width) > e.period/2:
		return TooNoisy
	case float64(t.end-t.at[1]) > e.period:
		return Irregular
	case e.trend < deadTrend:
		return Dying
	case !e.enough():
		return Irregular
	}
	return NoDoubt
}
