package hydronics

import "math"

// rootSteps bounds a search; halving alone needs about 60 steps for full
// precision, and every second step is at least a halving.
const rootSteps = 200

// risingRoot returns the zero between lo and hi of a function that does not fall,
// from a first guess: Newton steps while they stay in the bracket and at
// least halve the step before, bisection otherwise (Press et al., "Numerical
// Recipes", section 9.4). The guard matters: on a square root with a kink near
// its zero, plain Newton steps swing from side to side.
func risingRoot(f func(x float64) (value, slope float64), lo, hi, x float64) float64 {
	tolerance := 2e-16 * max(math.Abs(lo), math.Abs(hi))
	if !(x > lo && x < hi) {
		x = lo + (hi-lo)/2
	}
	last := hi - lo
	for range rootSteps {
		value, slope := f(x)
		switch {
		case value > 0:
			hi = x
		case value < 0:
			lo = x
		default: // the zero, or NaN
			return x
		}
		next := x - value/slope
		if !(next >= lo && next <= hi && 2*math.Abs(next-x) <= math.Abs(last)) {
			next = lo + (hi-lo)/2
		}
		last = next - x
		x = next
		if math.Abs(last) <= tolerance {
			break
		}
	}
	return x
}
