package fastexp

import "math"

// Outside these bounds the result is +Inf and 0 whatever the last bits of x.
const (
	surelyInfinite = 710
	surelyZero     = -746
)

// extreme returns eˣ for arguments whose result may be infinite, subnormal, zero
// or close to that, and for NaN.
func extreme(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return x
	case x > surelyInfinite:
		return math.Inf(1)
	case x < surelyZero:
		return 0
	}
	steps, r := reduce(x)
	e := table[steps%tableSize]
	fraction := math.Float64frombits(e.bits)
	exponent := int(int32(steps)) >> tableBits
	if x > 0 {
		y := fraction + float64(fraction*excess(e.tail, r))
		return math.Ldexp(y, exponent-1) * 2
	}
	return tiny(math.Ldexp(fraction, exponent+1022), excess(e.tail, r))
}

// tiny returns scale·(1+part)·2^-1022 and rounds only once at the size of the
// result. A subnormal one lies on a grid of 2^-1074; in units of 2^-1022 that is the spacing of
// the float64 between 1 and 2, so adding 1 rounds to it.
func tiny(scale, part float64) float64 {
	const leastNormal = 0x1p-1022
	correction := float64(scale * part)
	if normal := scale + correction; normal >= 1 {
		return normal * leastNormal
	}
	sum := 1 + scale
	lost := scale - (sum - 1)
	return (sum + (lost + correction) - 1) * leastNormal
}
