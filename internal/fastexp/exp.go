package fastexp

import "math"

const (
	// tableBits is the binary logarithm of the number of table entries.
	tableBits = 7
	tableSize = 1 << tableBits

	// mantissaBits is the width of the stored mantissa of a float64.
	mantissaBits = 52

	// perLn2 turns an argument into table steps.
	perLn2 = tableSize / math.Ln2

	// toInteger, added to a number of magnitude below 2^51, rounds it to an
	// integer and leaves that integer in the low bits of the sum.
	toInteger = 0x1.8p52

	// One table step in two parts. stepHi has 33 significant bits, so that its
	// product with any step number in use (18 bits) is exact; the compiler
	// evaluates stepLo exactly before it rounds it.
	stepHi = 0x1.62e42fefp-8
	stepLo = math.Ln2/tableSize - stepHi

	// plainLimit bounds the arguments for which no factor or term comes near the
	// ends of the exponent range: e^±650 is 2^±938.
	plainLimit = 650
)

// Exp returns eˣ, the base-e exponential of x, with an error below 0.51 ulp.
// Special cases, all exact:
//
//	Exp(0) = 1
//	Exp(+Inf) = +Inf, also for x > 709.78
//	Exp(-Inf) = 0, also for x < -745.13
//	Exp(NaN) = NaN
//
// The formula and its source are in the package comment.
func Exp(x float64) float64 {
	if !(math.Abs(x) < plainLimit) {
		return extreme(x)
	}
	steps, r := reduce(x)
	e := &table[steps%tableSize]
	scale := math.Float64frombits(e.bits + steps>>tableBits<<mantissaBits)
	return scale + float64(scale*excess(e.tail, r))
}

// reduce splits x into a whole number of table steps and a rest r with
// |r| ≤ 0.00271. The low 32 bits of steps are the step number in two's
// complement; the bits above have no meaning.
func reduce(x float64) (steps uint64, r float64) {
	shifted := float64(x*perLn2) + toInteger
	k := shifted - toInteger
	return math.Float64bits(shifted), x - float64(k*stepHi) - float64(k*stepLo)
}

// excess returns (1+tail)·eʳ − 1 for the table entry's tail and the reduced
// argument r, both small. The product tail·r is left out: it is below 2^-61.
// Only two of the additions round at the size of r.
func excess(tail, r float64) float64 {
	r2 := r * r
	low := float64(r2 * (c2 + float64(r*c3)))
	high := float64(r2 * r2 * (c4 + float64(r*c5)))
	return (r + low) + (high + tail)
}
