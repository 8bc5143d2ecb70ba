package fastexp

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The generator takes square roots of 2; this test raises e to a multiple of
// ln 2, with ln 2 summed from its own series, and compares every bit.
func TestTableBits(t *testing.T) {
	ln2 := bigLn2()
	for j, e := range table {
		power := bigExpOf(new(big.Float).Mul(ln2, big.NewFloat(float64(j)/tableSize)))
		hi, _ := power.Float64()
		rest := new(big.Float).Sub(power, big.NewFloat(hi))
		tail, _ := rest.Quo(rest, big.NewFloat(hi)).Float64()
		assert.Equal(t, math.Float64bits(hi), e.bits, "power, j = %d", j)
		if j > 0 { // for j = 0 the series leaves dust where the exact tail is 0
			assert.Equal(t, math.Float64bits(tail), math.Float64bits(e.tail), "tail, j = %d", j)
		}
	}
	assert.Zero(t, math.Float64bits(table[0].tail))
}

// The first part of the step must multiply exactly with every step number
// in use, and both parts together must be ln 2/128 to far below 1 ulp.
func TestStepParts(t *testing.T) {
	largest := math.Ceil(-surelyZero * perLn2)
	stepBits := new(big.Float).SetFloat64(stepHi).MinPrec()
	numberBits := uint(math.Ceil(math.Log2(largest)))
	require.LessOrEqual(t, stepBits+numberBits, uint(53), "every product is exact")

	step := bigLn2()
	step.SetMantExp(step, -tableBits)
	step.Sub(step, big.NewFloat(stepHi))
	step.Sub(step, big.NewFloat(stepLo))
	rest, _ := step.Float64()
	assert.Less(t, math.Abs(rest)*largest, 0x1p-72)
}

// bigLn2 returns ln 2 from the series Σ 1/(n·2ⁿ).
func bigLn2() *big.Float {
	const precision = 260
	sum := new(big.Float).SetPrec(precision)
	for n := 1; n <= precision; n++ {
		term := new(big.Float).SetPrec(precision).SetInt64(1)
		term.SetMantExp(term, -n)
		sum.Add(sum, term.Quo(term, new(big.Float).SetInt64(int64(n))))
	}
	return sum
}
