package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

// Linearity says how near the heat of a unit comes to a straight line in its
// signal.
type Linearity struct {
	// Deviation is the root mean square of heat share − opening demand over the
	// whole signal: 0 for a straight line.
	Deviation float64
	// Controlled is the range of heat over which the gains are taken: the one asked
	// about, less what is below the end of the valve's closing region, where the unit
	// cannot control (see [HeatChain.LeastLoad]). From and To are the opening demands
	// at its ends.
	Controlled HeatRange
	From, To   float64
	// LeastGain and GreatestGain are the extremes of [HeatChain.Gain] in that range,
	// LeastAt and GreatestAt the opening demands where they are; NaN if nothing is
	// left of the range.
	LeastGain, GreatestGain float64
	LeastAt, GreatestAt     float64
}

// GainRatio returns the greatest gain over the least: 1 for a straight line. A
// loop tuned at one load has up to that factor too much gain at another, or too
// little. Up to 2 hardly matters (common practice, no published source); 3 uses up
// the gain margin of a well-tuned loop (Skogestad 2003: 3.1), so that it swings at one
// load or crawls at another. It is infinite where a part of the signal moves nothing.
func (l Linearity) GainRatio() float64 { return l.GreatestGain / l.LeastGain }

// linearitySteps is over how many steps the gain is searched and the deviation
// summed.
const linearitySteps = 256

// Linearity compares the response with a straight line, over a range of heat for
// the gains and over the whole signal for the deviation. Gains are taken at 257
// openings, and their extremes looked for between these: beside a kink of the heat, such
// as a coil has where the flow on its water side turns laminar, the gain jumps.
func (h *HeatChain) Linearity(over HeatRange) (Linearity, error) {
	l := check.List{Package: packageName}
	over.check(&l, "HeatRange")
	l.Require(h.unit != nil, "HeatChain", "the zero HeatChain", "one made by NewHeatChain")
	if err := l.Err(); err != nil {
		return Linearity{}, err
	}
	least, _ := h.LeastLoad(Resolution{})
	return linearityOf(h.HeatShare, h.OpeningForShare, over, least.Share), nil
}

// linearityOf compares a heat share over the opening demand, whose inverse is
// openingFor, with a straight line; nothing below the least share is controlled.
func linearityOf(share, openingFor func(float64) float64, over HeatRange, least float64) Linearity {
	over = over.orUsual()
	over.From = math.Min(math.Max(over.From, least), over.To)
	l := Linearity{Deviation: deviation(share), Controlled: over, From: openingFor(over.From), To: openingFor(over.To)}
	l.takeGains(share)
	return l
}

// takeGains searches the gains whose chords are within the range, lest one crosses
// into the closing region.
func (l *Linearity) takeGains(share func(opening float64) float64) {
	l.LeastGain, l.GreatestGain, l.LeastAt, l.GreatestAt = math.Inf(1), math.Inf(-1), math.NaN(), math.NaN()
	from, to := l.From+gainReach, l.To-gainReach
	if !(from < to) {
		l.LeastGain, l.GreatestGain = math.NaN(), math.NaN()
		return
	}
	gain := func(opening float64) float64 { return gainAt(share, opening) }
	cell := (to - from) / linearitySteps
	for i := range linearitySteps + 1 {
		l.take(gain, from+float64(cell*float64(i)))
	}
	l.take(gain, peak(gain, max(l.GreatestAt-cell, from), min(l.GreatestAt+cell, to), gainSteps))
	l.take(gain, peak(func(opening float64) float64 { return -gain(opening) }, max(l.LeastAt-cell, from), min(l.LeastAt+cell, to), gainSteps))
}

// gainSteps narrow two cells of the signal to less than the reach of a gain.
const gainSteps = 14

// take minds the gain at an opening if it is an extreme.
func (l *Linearity) take(gain func(opening float64) float64, opening float64) {
	g := gain(opening)
	if g < l.LeastGain {
		l.LeastGain, l.LeastAt = g, opening
	}
	if g > l.GreatestGain {
		l.GreatestGain, l.GreatestAt = g, opening
	}
}

// deviation is the integral by Simpson's rule.
func deviation(share func(opening float64) float64) float64 {
	var sum float64
	for i := range linearitySteps + 1 {
		x := float64(i) / linearitySteps
		miss := share(x) - x
		weight := 2 + 2*float64(i%2)
		if i == 0 || i == linearitySteps {
			weight = 1
		}
		sum += float64(weight * miss * miss)
	}
	return math.Sqrt(sum / (3 * linearitySteps))
}
