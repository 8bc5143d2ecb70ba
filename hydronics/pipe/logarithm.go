package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastexp"
)

// nearLog returns ln x within 2e-6 for a positive normal x: the exponent's share
// and a polynomial in the mantissa less one, which interpolates ln(1+t) in the
// Chebyshev points of [0, 1].
//
// math.Log costs 30 ns where the next step waits for it; this one and the
// correction by an exponential, see [logResidual], cost half as much.
func nearLog(x float64) float64 {
	const (
		c0 = 1.69366266e-06
		c1 = 0.999832595
		c2 = -0.497203331
		c3 = 0.315041280
		c4 = -0.189019548
		c5 = 0.0815231776
		c6 = -0.0170296106
	)
	bits := math.Float64bits(x)
	exponent := float64(int(bits>>52) - 1023)
	t := math.Float64frombits(bits&(1<<52-1)|1023<<52) - 1
	t2 := t * t
	low := c0 + float64(c1*t) + float64(t2*(c2+float64(c3*t)))
	high := c4 + float64(c5*t) + float64(c6*t2)
	return float64(exponent*math.Ln2) + low + float64(float64(t2*t2)*high)
}

// logResidual returns y + ln x to the last digits, if it is known to be below
// 1e-4 in magnitude: ln(1+d) with 1+d = x·eʸ, by its series.
func logResidual(y, x float64) float64 {
	d := float64(x*fastexp.Exp(y)) - 1
	return d - float64(float64(d*d)*(0.5-float64(d*(1.0/3))))
}

// logarithm returns ln x for a positive normal x, with an absolute error of a
// few 1e-16 and that of the rounding.
func logarithm(x float64) float64 {
	near := nearLog(x)
	return near + logResidual(-near, x)
}
