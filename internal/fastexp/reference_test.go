package fastexp

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
)

// referenceBits is the precision of the reference exponential; its result loses
// some twenty of them.
const referenceBits = 200

// bigExp returns eˣ in high precision.
func bigExp(x float64) *big.Float {
	return bigExpOf(new(big.Float).SetPrec(referenceBits).SetFloat64(x))
}

// bigExpOf returns eˣ for |x| ≤ 746 by the plain power series: it halves x until
// it is small, sums, and squares back. It uses no table.
func bigExpOf(x *big.Float) *big.Float {
	const halvings = 20
	y := new(big.Float).SetPrec(referenceBits).SetMantExp(x, -halvings)
	sum := new(big.Float).SetPrec(referenceBits)
	for i := len(seriesCoefficients) - 1; i >= 0; i-- {
		sum.Add(sum.Mul(sum, y), seriesCoefficients[i])
	}
	for range halvings {
		sum.Mul(sum, sum)
	}
	return sum
}

// seriesCoefficients are 1/n! for n = 0 … 16; for |y| < 0.0008 the first term left
// out is below 2^-220.
var seriesCoefficients = func() (c [17]*big.Float) {
	term := new(big.Float).SetPrec(referenceBits).SetInt64(1)
	for n := range c {
		if n > 0 {
			term.Quo(term, new(big.Float).SetInt64(int64(n)))
		}
		c[n] = new(big.Float).Copy(term)
	}
	return c
}()

// ulpError returns |got − want| in units of the last place of want.
func ulpError(got float64, want *big.Float) float64 {
	exponent := max(want.MantExp(nil)-53, -1074)
	diff := new(big.Float).SetPrec(referenceBits).SetFloat64(got)
	diff.Sub(diff, want)
	diff.SetMantExp(diff, -exponent)
	ulp, _ := diff.Float64()
	return math.Abs(ulp)
}

// recordedExp returns all the digits of a row.
func recordedExp(t *testing.T, row reference.Row) *big.Float {
	t.Helper()
	want, _, err := big.ParseFloat(row.Text("exp"), 10, referenceBits, big.ToNearestEven)
	require.NoError(t, err, row)
	return want
}

func TestExpAgainstRecordedValues(t *testing.T) {
	c := reference.Compare(t, "exp")
	for row := range c.Rows() {
		c.Note(row, "exp", ulpError(Exp(row.Float("x")), recordedExp(t, row)), "ulp")
	}
	c.Require(0.51)
}

// The other tests lean on bigExp, so it must itself agree with the outside
// values, to their 40 digits.
func TestBigExpAgainstRecordedValues(t *testing.T) {
	for row := range reference.Must(t, "exp").Rows() {
		ratio := new(big.Float).Quo(bigExp(row.Float("x")), recordedExp(t, row))
		diff, _ := ratio.Sub(ratio, big.NewFloat(1)).Float64()
		assert.Less(t, math.Abs(diff), 1e-38, row)
	}
}
