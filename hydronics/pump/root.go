package pump

import "math"

// root returns where the falling function f, which gives its value and slope,
// crosses zero between lo and hi: by Newton's method, with a bisection where a
// step leaves the bracket or does not halve the one before. NaN if f gives NaN.
func root(lo, hi float64, f func(x float64) (y, slope float64)) float64 {
	x, before := lo+(hi-lo)/2, hi-lo
	for range 200 {
		y, slope := f(x)
		if math.IsNaN(y) {
			return y
		}
		if y > 0 {
			lo = x
		} else {
			hi = x
		}
		step := -y / slope
		fine := 4e-16 * math.Max(math.Abs(lo), math.Abs(hi))
		if math.Abs(step) <= fine || hi-lo <= fine {
			return x + step
		}
		if next := x + step; !(next > lo && next < hi) || math.Abs(step) > before/2 {
			step = lo + (hi-lo)/2 - x
		}
		before = math.Abs(step)
		x += step
	}
	return x
}
