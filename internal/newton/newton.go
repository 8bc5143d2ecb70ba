// Package newton finds the zero of a function of one variable that gives its slope.
package newton

import "math"

// steps bounds a search; halving alone needs about 60 for full precision, and every
// second step is at least a halving.
const steps = 200

// digits is the least tolerance, as a share of the greater end.
const digits = 2e-16

// Rising returns the zero between lo and hi of a function that does not fall, from a
// first guess: Newton steps while they stay in the bracket and at least halve the
// step before, bisection otherwise (Press et al., "Numerical Recipes", section 9.4).
// The guard matters: on a square root with a kink near its zero, plain Newton steps
// swing from side to side. It ends with a step of no more than the tolerance, of which
// 0 is the last digits of the ends. Where the function has no zero it returns the end
// that is nearer to one, and NaN where the function gives NaN.
func Rising(f func(x float64) (value, slope float64), lo, hi, guess, tolerance float64) float64 {
	tolerance = max(tolerance, digits*math.Abs(lo), digits*math.Abs(hi))
	x := guess
	if !(x > lo && x < hi) {
		x = lo + (hi-lo)/2
	}
	last := hi - lo
	for range steps {
		value, slope := f(x)
		switch {
		case value > 0:
			hi = x
		case value < 0:
			lo = x
		default: // the zero, or NaN
			return x + value
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
