package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// BranchFlow returns the flow of a branch, a valve at a relative travel in
// series with a fixed resistance, at a pressure difference over both.
func BranchFlow(val valve.Valve, rest Resistance, h float64, dp units.Pressure) units.Flow {
	return val.Flow(h, ValvePressure(val, rest, h, dp))
}

// ValvePressure returns the part of a branch's pressure difference that stands
// over the valve at a relative travel: the root of
//
//	Δp_v + R·q(h, Δp_v)² = Δp
//
// with the sign of q. The resistance keeps its square law below 1 Pa here, where
// [Resistance] alone bends: the valve's own law has the slope that is needed.
// It is found by Newton steps kept inside a bracket; both laws rise, so there is
// one root.
func ValvePressure(val valve.Valve, rest Resistance, h float64, dp units.Pressure) units.Pressure {
	return valvePressure(val, rest, h, dp)
}

// flower is what the split of a branch's pressure needs of a valve.
type flower interface {
	Flow(h float64, dp units.Pressure) units.Flow
	Slope(h float64, dp units.Pressure) float64
}

// splitSteps bounds the iteration; halving alone would need 60 for full
// precision.
const splitSteps = 100

func valvePressure[V flower](val V, rest Resistance, h float64, dp units.Pressure) units.Pressure {
	if !(math.Abs(float64(dp)) > 0) || rest == 0 || math.IsInf(float64(dp), 0) {
		return dp
	}
	lo, hi := math.Min(0, float64(dp)), math.Max(0, float64(dp))
	x := float64(dp)
	for range splitSteps {
		q := float64(val.Flow(h, units.Pressure(x)))
		miss := x + float64(float64(rest)*q*math.Abs(q)) - float64(dp)
		if miss > 0 {
			hi = x
		} else {
			lo = x
		}
		slope := 1 + float64(val.Slope(h, units.Pressure(x))*float64(2*float64(rest)*math.Abs(q)))
		next := x - miss/slope
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if math.Abs(next-x) <= 1e-15*math.Abs(float64(dp)) {
			return units.Pressure(next)
		}
		x = next
	}
	return units.Pressure(x)
}
