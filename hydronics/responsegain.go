package hydronics

import "math"

// Gain returns the slope of the heat at an opening demand, in shares of the full
// heat per whole signal: 1 everywhere would be a straight line. It is the chord
// over ±0.01 % of the signal (cut off at its ends), about what a 12-bit converter
// tells apart, and within 1e-5 of the derivative, relatively, where the curve is
// smooth. At a kink it is between the slopes on both sides.
//
// Times [HeatChain.FullHeat] it is d(heat)/d(demand) of the signal, with the
// opposite sign where a rising signal closes.
func (h *HeatChain) Gain(opening float64) float64 { return gainAt(h.HeatShare, opening) }

// gainAt is the slope of a heat share over the opening demand.
func gainAt(share func(opening float64) float64, opening float64) float64 {
	opening = math.Max(0, math.Min(opening, 1)) // NaN passes
	low, high := math.Max(0, opening-gainReach), math.Min(1, opening+gainReach)
	return (share(high) - share(low)) / (high - low)
}

const gainReach = 1e-4
