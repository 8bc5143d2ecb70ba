package terminal

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastexp"
)

// greatestNTU is where the search for a conductance ends.
const greatestNTU = 1000

// effectiveness is Arrangement.Effectiveness in W/K without its checks.
func (a Arrangement) effectiveness(ua, water, air float64) float64 {
	low, high := min(water, air), max(water, air)
	ratio := low / high
	switch {
	case ua == 0:
		return 0
	case math.IsInf(low, 1):
		return math.NaN()
	case math.IsInf(high, 1):
		ratio = 0
	}
	return a.ofNTU(ua/low, ua/high, ratio, (high-low)/high, water <= air)
}

// ofNTU takes NTU on the side of the lower capacity rate and of the higher one,
// Cr, 1 − Cr, and whether the water has the lower rate.
func (a Arrangement) ofNTU(low, high, ratio, rest float64, waterIsLow bool) float64 {
	if high == 0 || ratio == 0 {
		return rise(low)
	}
	switch a {
	case CounterFlow:
		return counterFlow(low, 1, 1/ratio)
	case ParallelFlow:
		return rise(low+high) / (1 + ratio)
	case CrossFlow:
		return crossFlow(low, high, ratio)
	case CrossFlowApproximate:
		root := math.Pow(low, 0.22)
		return rise(root * rise(high/root) / ratio)
	case CrossFlowMixed:
		return 1 / (1/rise(low) + ratio/rise(high) - 1/low)
	}
	if (a == CrossFlowWaterMixed) == waterIsLow {
		return rise(rise(high) / ratio)
	}
	return rise(ratio*rise(low)) / ratio
}

// counterFlow is ε·Cmin of counterflow, written so that nothing cancels near
// equal capacity rates.
func counterFlow(ua, c1, c2 float64) float64 {
	low, high := min(c1, c2), max(c1, c2)
	rest := high - low
	switch {
	case !(rest > 0):
		return low * ua / (low + ua)
	case math.IsInf(high, 1):
		return low * rise(ua/low)
	}
	part := rise(ua / low * (rest / high))
	return low * part / (rest/high + float64(low/high*part))
}

// counterFlowConductance is the inverse of counterFlow: the ua of a heat per
// difference, +Inf where no surface is enough.
func counterFlowConductance(transfer, c1, c2 float64) float64 {
	low, high := min(c1, c2), max(c1, c2)
	rest, left := (high-low)/high, low-transfer
	switch {
	case !(left > 0):
		return math.Inf(1)
	case rest == 0:
		return transfer * low / left
	}
	return low * math.Log1p(transfer*rest/left) / rest
}

// rise is 1 − e^(−x) for x of zero or more, within 2e-15 of itself: above 0.1
// the difference costs one digit at most, and the exponential is much faster
// than math.Expm1.
func rise(x float64) float64 {
	if x > 0.1 {
		return 1 - fastexp.Exp(-x)
	}
	return -math.Expm1(-x)
}

// conductance is Arrangement.Conductance in W/K without its checks; NaN if the
// effectiveness is above the most there is.
func (a Arrangement) conductance(effectiveness, water, air float64) (ua, most float64) {
	low := min(water, air)
	limit := low * a.risingNTU(low/max(water, air))
	most = a.effectiveness(limit, water, air)
	if !(effectiveness >= 0 && effectiveness < most) {
		return math.NaN(), most
	}
	missing := func(ua float64) float64 { return a.effectiveness(ua, water, air) - effectiveness }
	return root(missing, 0, limit, -effectiveness, most-effectiveness, tiny), most
}

// risingNTU is the NTU up to which the effectiveness rises, greatestNTU at most.
// With both streams mixed dε/dNTU = 0 where h(NTU/2) + h(Cr·NTU/2) = 1 with
// h(x) = (x/sinh x)².
func (a Arrangement) risingNTU(ratio float64) float64 {
	if a != CrossFlowMixed {
		return greatestNTU
	}
	slope := func(ntu float64) float64 {
		x, y := ntu/2/math.Sinh(ntu/2), ratio*ntu/2/math.Sinh(ratio*ntu/2)
		return 1 - float64(x*x) - float64(y*y)
	}
	if !(slope(greatestNTU) > 0) {
		return greatestNTU
	}
	return root(slope, 1, greatestNTU, slope(1), slope(greatestNTU), tiny)
}
