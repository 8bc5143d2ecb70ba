package fastlog

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The generator sums the series of the inverse hyperbolic tangent; this test draws
// square roots, and compares every bit.
func TestLogTableBits(t *testing.T) {
	for j, e := range logTable {
		hi, lo := splitBig(new(big.Float).Neg(bigLog(bigNumber(e.inverse))))
		assert.Equal(t, math.Float64bits(hi), math.Float64bits(e.hi), "hi, j = %d", j)
		assert.Equal(t, math.Float64bits(lo), math.Float64bits(e.lo), "lo, j = %d", j)
	}
	hi, lo := splitBig(bigLn2)
	assert.Equal(t, [2]float64{hi, lo}, [2]float64{ln2Hi, ln2Lo})
}

// splitBig rounds x to a multiple of 2^-42 and returns the rest beside it.
func splitBig(x *big.Float) (hi, lo float64) {
	scaled := new(big.Float).SetMantExp(x, 42)
	whole, _ := scaled.Add(scaled, big.NewFloat(math.Copysign(0.5, float64(x.Sign())))).Int(nil)
	hi, _ = new(big.Float).SetMantExp(new(big.Float).SetInt(whole), -42).Float64()
	lo, _ = new(big.Float).Sub(x, bigNumber(hi)).Float64()
	return hi, lo
}

// The generator draws the cube roots by Newton's method; this test cubes them
// again, exactly: scale must be the nearest float64, and scale·(1+tail) must be the
// root to far below its rounding.
func TestCubeTableBits(t *testing.T) {
	for i, e := range cubeTable {
		root := math.Float64frombits(e.bits)
		want := new(big.Float).Quo(bigNumber(float64(int(1)<<(i/cubeSize))), bigNumber(e.inverse))
		assert.True(t, root >= 1 && root < 2, "entry %d", i)
		assert.LessOrEqual(t, math.Abs(e.tail*root), ulp(root)/2, "entry %d", i)
		full := new(big.Float).Add(bigNumber(1), bigNumber(e.tail))
		full.Mul(full, bigNumber(root))
		full.Mul(full, new(big.Float).Mul(full, full))
		miss, _ := full.Sub(full.Quo(full, want), bigNumber(1)).Float64()
		assert.Less(t, math.Abs(miss), 0x1p-103, "entry %d", i)
	}
}

// What the exactness of the reductions rests on: inverses of eleven bits, and u
// within the range of the polynomials at both ends of each interval.
func TestInversesFitTheirIntervals(t *testing.T) {
	check := func(inverse float64, j, size int, reach float64) {
		t.Helper()
		assert.Equal(t, math.Trunc(inverse*0x1p11), inverse*0x1p11)
		for _, end := range []int{j, j + 1} {
			assert.LessOrEqual(t, math.Abs(inverse*(1+float64(end)/float64(size))-1), reach)
		}
	}
	for j, e := range logTable {
		check(e.inverse, j, logSize, logReach)
	}
	for i, e := range cubeTable {
		check(e.inverse, i%cubeSize, cubeSize, cubeReach)
	}
}
