package terminal

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/fastexp"
	"github.com/indexrun/indexrun/units"
)

const (
	// DefaultLaminarFloor is the least coefficient on the water side, as a
	// share of that at design, where a configuration does not state one: 7 %,
	// which [LaminarFloor] gives at a Reynolds number of 10 000 and a Prandtl
	// number of 2.5.
	DefaultLaminarFloor units.Ratio = 0.07

	turbulentExponent = 0.8  // Dittus–Boelter
	laminarNusselt    = 3.66 // fully developed, uniform wall temperature
	mostWaterShare    = 0.95
)

// LaminarFloor returns the heat transfer coefficient of laminar flow in a tube
// as a share of that at a turbulent design flow:
//
//	3.66/(0.023·Re^0.8·Pr^0.4), 1 at most
//
// with the Nusselt number of fully developed laminar flow at a uniform wall
// temperature and the law of Dittus and Boelter for water that is heated
// (Incropera, "Fundamentals of Heat and Mass Transfer", equations 8.55 and
// 8.60, from memory). Re and Pr are those in the tube at design flow, Re above
// 4000.
func LaminarFloor(reynolds, prandtl float64) units.Ratio {
	turbulent := 0.023 * math.Pow(reynolds, turbulentExponent) * math.Pow(prandtl, 0.4)
	return units.Ratio(min(1, laminarNusselt/turbulent))
}

// waterSide is the water's part of a resistance.
type waterSide struct {
	share float64 // of the whole resistance, at reference flow
	floor float64 // least relative coefficient
	per   float64 // 1/reference flow, s/m³
}

func newWaterSide(l *check.List, share, floor units.Ratio) waterSide {
	check.Within(l, "WaterShare", share, 0, mostWaterShare)
	check.Within(l, "LaminarFloor", floor, 0, 1)
	if floor == 0 {
		floor = DefaultLaminarFloor
	}
	return waterSide{share: float64(share), floor: float64(floor)}
}

// resistance is the share of the whole resistance at reference flow that the
// water has at flow q: share/max((q/q0)^0.8, floor).
func (w *waterSide) resistance(q float64) float64 {
	if w.share == 0 {
		return 0
	}
	x := q * w.per
	coefficient := 1.0
	if x != 1 {
		coefficient = fastexp.Exp(turbulentExponent * math.Log(x))
	}
	return w.share / max(coefficient, w.floor)
}

// relative is the conductance at flow q over that at reference flow.
func (w *waterSide) relative(q float64) float64 {
	if w.share == 0 {
		return 1
	}
	return 1 / (1 - w.share + w.resistance(q))
}
