package terminal

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastexp"
)

const (
	plainStart  = 200   // to here the sum starts at its first term
	greatestSum = 1e5   // beyond, NTU·Cr counts as this
	negligible  = 4e-16 // share of the sum, above what rounding leaves of a tail
	window      = 12    // standard deviations
)

// crossFlow is the effectiveness with both streams unmixed: low and high are
// NTU and Cr·NTU.
//
// The tail P(k, x) of Mason's series is the chance that a Poisson number of
// mean x is k or more, so the sum is the mean of the lesser of two such
// numbers. Every term is positive: nothing cancels. About high + 8·√high + 10
// terms matter. Where high is large, the first ones are 1 and are counted, not
// summed.
func crossFlow(low, high, ratio float64) float64 {
	if high > greatestSum {
		low, high = greatestSum/ratio, greatestSum
	}
	low = min(low, 1e300) // +Inf times zero is NaN
	var first, sum float64
	if high > plainStart {
		first = math.Floor(high - window*math.Sqrt(high))
		sum = first
	}
	massLow, massHigh := poisson(first, low), poisson(first, high)
	tailLow, tailHigh := 1-massLow, 1-massHigh
	if first == 0 {
		tailLow, tailHigh = rise(low), rise(high)
	}
	for k := first + 1; ; k++ {
		term := tailLow * tailHigh
		if !(term > negligible*sum) || (k > high && massHigh < negligible*tailHigh) {
			return sum / high
		}
		sum += term
		per := 1 / k
		massLow *= low * per
		massHigh *= high * per
		tailLow -= massLow
		tailHigh -= massHigh
	}
}

// poisson is e^(−x)·x^k/k!.
func poisson(k, x float64) float64 {
	if k == 0 {
		return fastexp.Exp(-x)
	}
	logFactorial, _ := math.Lgamma(k + 1)
	return fastexp.Exp(float64(k*math.Log(x)) - x - logFactorial)
}
