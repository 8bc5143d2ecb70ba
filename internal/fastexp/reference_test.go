package fastexp

import (
	"encoding/csv"
	"math"
	"math/big"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

type record struct {
	x    float64
	want *big.Float
}

// readRecords reads the values recorded from an outside implementation.
func readRecords(t *testing.T) []record {
	t.Helper()
	f, err := os.Open("testdata/exp_decimal.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"x", "exp"}, rows[0])

	var out []record
	for _, row := range rows[1:] {
		x, err := strconv.ParseFloat(row[0], 64)
		require.NoError(t, err)
		want, _, err := big.ParseFloat(row[1], 10, referenceBits, big.ToNearestEven)
		require.NoError(t, err)
		out = append(out, record{x, want})
	}
	require.Greater(t, len(out), 100)
	return out
}

// The values come from the decimal module of Python; see the file's header.
func TestExpAgainstRecordedValues(t *testing.T) {
	for _, r := range readRecords(t) {
		assert.Less(t, ulpError(Exp(r.x), r.want), 0.51, "x = %v", r.x)
	}
}

// The other tests lean on bigExp, so it must itself agree with the outside
// values, to their 40 digits.
func TestBigExpAgainstRecordedValues(t *testing.T) {
	for _, r := range readRecords(t) {
		ratio := new(big.Float).Quo(bigExp(r.x), r.want)
		diff, _ := ratio.Sub(ratio, big.NewFloat(1)).Float64()
		assert.Less(t, math.Abs(diff), 1e-38, "x = %v", r.x)
	}
}
