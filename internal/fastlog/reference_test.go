package fastlog

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
)

// referenceBits is the precision of the reference logarithm; its result loses
// some ten of them, and more where x is close to 1.
const referenceBits = 300

func bigNumber(x float64) *big.Float { return new(big.Float).SetPrec(referenceBits).SetFloat64(x) }

// bigLn2 is ln 2 from the series Σ 1/(n·2ⁿ).
var bigLn2 = func() *big.Float {
	sum := bigNumber(0)
	for n := 1; n <= referenceBits; n++ {
		term := new(big.Float).SetMantExp(bigNumber(1), -n)
		sum.Add(sum, term.Quo(term, bigNumber(float64(n))))
	}
	return sum
}()

// bigLog returns ln x in high precision for a positive x. It takes the exponent
// off, draws square roots until the rest is close to 1, and sums the power series.
// It uses no table.
func bigLog(x *big.Float) *big.Float {
	const roots = 8
	y := new(big.Float).SetPrec(referenceBits)
	exponent := x.MantExp(y)
	if y.Cmp(big.NewFloat(0.75)) < 0 {
		exponent--
		y.SetMantExp(y, 1)
	}
	for range roots {
		y.Sqrt(y)
	}
	y.Sub(y, bigNumber(1))
	sum := bigNumber(0)
	for i := len(alternating) - 1; i >= 0; i-- {
		sum.Mul(sum.Add(sum, alternating[i]), y)
	}
	sum.SetMantExp(sum, roots)
	return sum.Add(sum, new(big.Float).Mul(bigLn2, bigNumber(float64(exponent))))
}

// alternating are ±1/n for n = 1 … 27; for |y| < 0.0012 the first term left out is
// below 2^-270.
var alternating = func() (c [27]*big.Float) {
	for i := range c {
		c[i] = new(big.Float).Quo(bigNumber(math.Pow(-1, float64(i))), bigNumber(float64(i+1)))
	}
	return c
}()

// ulpError returns |got − want| in units of the last place of want.
func ulpError(got float64, want *big.Float) float64 {
	exponent := max(want.MantExp(nil)-53, -1074)
	diff := new(big.Float).Sub(bigNumber(got), want)
	ulp, _ := diff.SetMantExp(diff, -exponent).Float64()
	return math.Abs(ulp)
}

// bigCube returns y³, exactly.
func bigCube(y float64) *big.Float {
	cube := bigNumber(y)
	return cube.Mul(cube, new(big.Float).Mul(cube, cube))
}

// cubeRootError returns the error of y as the cube root of x in units of the last
// place of y, from the exact difference y³ − x = 3·y²·error.
func cubeRootError(y, x float64) float64 {
	diff := new(big.Float).Sub(bigCube(y), bigNumber(x))
	slope := new(big.Float).Mul(bigNumber(3*y), bigNumber(y))
	exponent := diff.Quo(diff, slope).MantExp(nil)
	_, unit := math.Frexp(y)
	mantissa, _ := diff.SetMantExp(diff, -exponent).Float64()
	return math.Abs(math.Ldexp(mantissa, exponent-unit+53))
}

// recordedExp returns eˣ of a row to its forty digits.
func recordedExp(t *testing.T, row reference.Row) *big.Float {
	t.Helper()
	exp, _, err := big.ParseFloat(row.Text("exp"), 10, referenceBits, big.ToNearestEven)
	require.NoError(t, err, row)
	return exp
}

// The logarithm of a recorded exponential is its argument, to the forty digits; the
// other tests lean on bigLog.
func TestBigLogAgainstRecordedValues(t *testing.T) {
	for row := range reference.Must(t, "exp").Rows() {
		diff, _ := new(big.Float).Sub(bigLog(recordedExp(t, row)), bigNumber(row.Float("x"))).Float64()
		assert.Less(t, math.Abs(diff), 1e-38, row)
	}
}

// The same records against Log itself: the rounding of eˣ to a float64 moves its
// logarithm by up to 2^-53.
func TestLogAgainstRecordedValues(t *testing.T) {
	for row := range reference.Must(t, "exp").Rows() {
		x := row.Float("x")
		if x < -708 { // a subnormal is rounded by more
			continue
		}
		exp, _ := recordedExp(t, row).Float64()
		assert.InDelta(t, x, Log(exp), 0x1p-53+logLimit*ulp(x), row)
	}
}

func ulp(x float64) float64 { return math.Nextafter(math.Abs(x), math.Inf(1)) - math.Abs(x) }
