package fastlog

import "math"

// Powers of two by which a subnormal number becomes a normal one.
const (
	logShift  = 52
	cubeShift = 54 // a multiple of three
)

// extreme returns ln x for zero, subnormal and negative numbers, +Inf and NaN.
func extreme(x float64) float64 {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 1):
		return x
	case x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	}
	whole, rest := Parts(x * (1 << logShift))
	return (whole - logShift*ln2Hi) + (rest - logShift*ln2Lo)
}

// extremeCbrt returns the cube root of zero, subnormal and negative numbers,
// infinities and NaN.
func extremeCbrt(x float64) float64 {
	switch {
	case x == 0 || math.IsNaN(x) || math.IsInf(x, 0):
		return x
	case x < 0:
		return -Cbrt(-x)
	}
	return Cbrt(x*(1<<cubeShift)) / (1 << (cubeShift / 3))
}
