package fastlog

import "math"

// cubeBits is the binary logarithm of the number of intervals of the mantissa, for
// each of three exponents.
const (
	cubeBits = 5
	cubeSize = 1 << cubeBits
)

// Cbrt returns the cube root of x, with an error below 0.52 ulp. Special cases,
// all exact:
//
//	Cbrt(±0) = ±0
//	Cbrt(±Inf) = ±Inf
//	Cbrt(NaN) = NaN
//
// So is the root of every cube, Cbrt(27) = 3. The formula is in the package
// comment.
func Cbrt(x float64) float64 {
	bits := math.Float64bits(x)
	if bits-leastNormal >= infinity-leastNormal {
		return extremeCbrt(x)
	}
	third := bits >> mantissaBits / 3 // bias is a multiple of 3
	e := &cubeTable[bits>>(mantissaBits-cubeBits)-third*(3*cubeSize)]
	mantissa := bits&(leastNormal-1) | bias<<mantissaBits
	coarse := math.Float64frombits(mantissa &^ (1<<fineBits - 1))
	fine := math.Float64frombits(mantissa) - coarse
	u := (float64(e.inverse*coarse) - 1) + float64(e.inverse*fine)
	scale := math.Float64frombits(e.bits + (third-bias/3)<<mantissaBits)
	return scale + float64(scale*cubeExcess(e.tail, u))
}

// cubeExcess returns (1+tail)·∛(1+u) − 1 for the table entry's tail. The product
// tail·u/3 is left out: it is below 2^-60.
func cubeExcess(tail, u float64) float64 {
	u2 := u * u
	first := float64(u*k1) + tail
	low := float64(u2 * (k2 + float64(u*k3)))
	middle := k4 + float64(u*k5)
	high := float64(u2 * (k6 + float64(u*k7) + float64(u2*k8)))
	return (first + low) + float64(float64(u2*u2)*(middle+high))
}
