package terminal

import "math"

const (
	mostSteps = 200       // bounds root for a function that is not as promised
	tiny      = 0x1p-1000 // tolerance that leaves it to the digits
)

// root returns a zero of f between lo and hi, where f has the values flo ≤ 0
// and fhi ≥ 0, to the tolerance and at best to the last few digits: inverse
// quadratic interpolation where that is safe and bisection elsewhere, after T.
// R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the
// zero of a nonlinear function without using derivatives", Advances in
// Engineering Software 28 (1997).
func root(f func(float64) float64, lo, hi, flo, fhi, tolerance float64) float64 {
	if flo >= 0 {
		return lo
	}
	if fhi <= 0 {
		return hi
	}
	a, fa, b, fb := hi, fhi, lo, flo
	share := fa / (fa - fb) // the first step is the secant's
	for range mostSteps {
		x := a + float64(share*(b-a))
		fx := f(x)
		c, fc := a, fa
		if (fx > 0) != (fa > 0) {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		best := a
		if math.Abs(fb) < math.Abs(fa) {
			best = b
		}
		least := (float64(0x1p-51*math.Abs(best)) + tolerance) / math.Abs(b-a)
		if fa == 0 || !(least < 0.5) {
			return best
		}
		share = min(max(step(a, b, c, fa, fb, fc), least), 1-least)
	}
	return a
}

// step is the next point's share of the way from a to b.
func step(a, b, c, fa, fb, fc float64) float64 {
	xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
	if fc == fa || !(phi*phi < xi && (1-phi)*(1-phi) < 1-xi) {
		return 0.5
	}
	return float64(fa/(fb-fa)*(fc/(fb-fc))) + float64((c-a)/(b-a)*(fa/(fc-fa))*(fb/(fc-fb)))
}
