package fastlog

import "math"

const (
	// logBits is the binary logarithm of the number of intervals of the mantissa.
	logBits = 7
	logSize = 1 << logBits

	// mantissaBits is the width of the stored mantissa of a float64, bias what is
	// added to its exponent.
	mantissaBits = 52
	bias         = 1023

	// The least normal float64 and +Inf as bits.
	leastNormal = 1 << mantissaBits
	infinity    = 0x7ff << mantissaBits

	// fineBits are split off the end of the mantissa, so that what stays has an
	// exact product with an inverse of 11 bits.
	fineBits = 21

	// unity is half the width of the interval about 1 that needs no table.
	unity = 0x1p-8
)

// Log returns ln x, the natural logarithm of x, with an error below 0.51 ulp.
// Special cases, all exact:
//
//	Log(1) = 0
//	Log(+Inf) = +Inf
//	Log(±0) = -Inf
//	Log(x) = NaN for x < 0
//	Log(NaN) = NaN
//
// The formula and its source are in the package comment.
func Log(x float64) float64 {
	if u := x - 1; math.Abs(u) < unity {
		return u + logExcess(0, u)
	}
	bits := math.Float64bits(x)
	if bits-leastNormal >= infinity-leastNormal {
		return extreme(x)
	}
	e, exponent, uHi, uLo := reduce(bits)
	whole := float64(exponent*ln2Hi) + e.hi + uHi
	return whole + logExcess(float64(exponent*ln2Lo)+e.lo+uLo, uHi+uLo)
}

// Parts returns ln x for a positive normal x as the sum of whole, a multiple of
// 2^-42, and of rest, below 2^-15 and off by less than 2^-66. A number close to
// −ln x can be added to whole without rounding; the sum with rest then holds the
// difference to all its digits. Any other x has no meaning.
func Parts(x float64) (whole, rest float64) {
	e, exponent, uHi, uLo := reduce(math.Float64bits(x))
	whole = float64(exponent*ln2Hi) + e.hi + uHi
	return whole, logExcess(float64(exponent*ln2Lo)+e.lo+uLo, uHi+uLo)
}

// reduce splits the positive normal number of these bits into 2^exponent, the
// inverse of a table entry and 1 + u. u = uHi + uLo is exact, and uHi is a
// multiple of 2^-42.
func reduce(bits uint64) (e *logEntry, exponent, uHi, uLo float64) {
	e = &logTable[bits>>(mantissaBits-logBits)%logSize]
	exponent = float64(int(bits>>mantissaBits) - bias)
	mantissa := bits&(leastNormal-1) | bias<<mantissaBits
	coarse := math.Float64frombits(mantissa &^ (1<<fineBits - 1))
	fine := math.Float64frombits(mantissa) - coarse
	return e, exponent, float64(e.inverse*coarse) - 1, float64(e.inverse * fine)
}

// logExcess returns small + ln(1+u) − u. Its parts do not wait for each other.
func logExcess(small, u float64) float64 {
	u2 := u * u
	low := small + float64(u2*(l2+float64(u*l3)))
	middle := l4 + float64(u*l5)
	high := float64(u2 * (l6 + float64(u*l7)))
	return low + float64(float64(u2*u2)*(middle+high))
}
