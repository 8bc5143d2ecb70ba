package control

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// HeatCurve is the static law of valve and terminal: the heat that a terminal
// gives at a relative travel of its valve, 0 … 1, once everything has settled;
// below zero for cooling. It must not allocate if the steps of a [Plant] are not
// to.
type HeatCurve func(travel float64) units.Power

// Tabulated returns the curve as straight lines between points + 1 values (at least
// one line), taken once at equal distances of travel. It is for laws that take an
// iteration to solve; on a smooth curve the error is f″/(8·points²). Travels outside
// 0 … 1 are clamped, NaN gives NaN.
func (f HeatCurve) Tabulated(points int) HeatCurve {
	n := max(1, points)
	table := make([]float64, n+1)
	for i := range table {
		table[i] = float64(f(float64(i) / float64(n)))
	}
	return func(travel float64) units.Power {
		if math.IsNaN(travel) {
			return units.Power(travel)
		}
		x := float64(clamp(travel, 0, 1) * float64(n))
		i := min(int(x), n-1)
		return units.Power(table[i] + float64((x-float64(i))*(table[i+1]-table[i])))
	}
}
