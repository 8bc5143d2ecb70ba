package control

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// HeatCurve is the static law of valve and terminal: the heat that a terminal
// gives at a relative travel of its valve, 0 … 1, and a base temperature of the
// [Plant], once everything has settled; below zero for cooling.
//
// Where the base is the air that enters the coil, the heat must follow it: a coil
// gives less to warmer air, in proportion to supply less entering air (ε-NTU; Kays &
// London). Where it is the air outdoors and the supply is weather-compensated, the
// supply is a function of the base. A terminal that minds neither ignores the
// argument:
//
//	func(travel float64, _ units.Temperature) units.Power { return chain.HeatAtTravel(travel) }
//
// It must not allocate if the steps of a [Plant] are not to.
type HeatCurve func(travel float64, base units.Temperature) units.Power

// Tabulated returns the curve as a table, taken once at points + 1 travels (two at least) and
// as many base temperatures from the coldest to the warmest, all at equal distances,
// with straight lines between. It is for laws that take an iteration to solve; on a
// smooth curve the error is f″/(8·points²) by travel, with f″ per whole stroke, and
// the same by base, with f″ per whole span. What lies outside is clamped, NaN gives NaN.
func (f HeatCurve) Tabulated(points int, coldest, warmest units.Temperature) HeatCurve {
	n := max(1, points)
	row := n + 1
	bases := [2]units.Temperature{coldest, warmest}
	table := make([]float64, row*row)
	for i := range table {
		table[i] = float64(f(float64(i%row)/float64(n), along(bases, float64(i/row)/float64(n))))
	}
	return func(travel float64, base units.Temperature) units.Power {
		above := share(bases, base)
		if math.IsNaN(travel) || math.IsNaN(above) {
			return units.Power(math.NaN())
		}
		i, x := cell(travel, n)
		k, y := cell(above, n)
		low := between(table[k*row+i:], x)
		return units.Power(low + float64(y*(between(table[(k+1)*row+i:], x)-low)))
	}
}

// along is the temperature at a share of the way between two, share its inverse: 0 or beyond the ends if
// they are the same.
func along(ends [2]units.Temperature, share float64) units.Temperature {
	return ends[0].Add(units.TemperatureDifference(share * float64(ends[1].Sub(ends[0]))))
}

func share(ends [2]units.Temperature, t units.Temperature) float64 {
	above, span := float64(t.Sub(ends[0])), float64(ends[1].Sub(ends[0]))
	if span == 0 {
		return above
	}
	return above / span
}

// cell returns in which of n cells of 0 … 1 a number lies, and where in it.
func cell(x float64, n int) (i int, share float64) {
	x = clamp(x, 0, 1) * float64(n)
	i = min(int(x), n-1)
	return i, x - float64(i)
}

func between(pair []float64, share float64) float64 {
	return pair[0] + float64(share*(pair[1]-pair[0]))
}
