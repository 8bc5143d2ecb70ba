package pump

import "github.com/indexrun/indexrun/internal/newton"

// root returns where the falling function f, which gives its value and slope,
// crosses zero between lo and hi. NaN if f gives NaN.
func root(lo, hi float64, f func(x float64) (y, slope float64)) float64 {
	return newton.Rising(func(x float64) (float64, float64) {
		y, slope := f(x)
		return -y, -slope
	}, lo, hi, lo+(hi-lo)/2, 0)
}
