package fastlog

import "math"

// Near returns ln x within 2e-6 for a positive normal x; any other has no meaning.
// It starts an iteration: where the next step waits, it takes 0.7 of the time of [Log].
//
// It is the exponent's share and a polynomial in the mantissa less one, which
// interpolates ln(1+t) in the Chebyshev points of [0, 1]. The parts of the
// polynomial do not wait for each other, and no table is read.
func Near(x float64) float64 {
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
	exponent := float64(int(bits>>mantissaBits) - bias)
	t := math.Float64frombits(bits&(leastNormal-1)|bias<<mantissaBits) - 1
	t2 := t * t
	low := c0 + float64(c1*t) + float64(t2*(c2+float64(c3*t)))
	high := c4 + float64(c5*t) + float64(c6*t2)
	return float64(exponent*math.Ln2) + low + float64(float64(t2*t2)*high)
}
