package control

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// RoomHeatCurve is a [HeatCurve] of a terminal that stands in the room it serves: the heat at a
// relative travel of its valve, 0 … 1, a base temperature, and the temperature of the
// room, which is the one that the loop controls. [NewRoom] takes it.
//
// A terminal gives less to a warmer room, and so helps the loop to settle: seen from the
// controller, the room has a smaller gain and a shorter time constant than with a heat
// that does not mind. A radiator at 75/65/20 °C whose room loses its heat over 30 K has
// 0.65 of the gain, a floor at 40/35/20 °C 0.45. Air heaters and coolers
// with the entering air for their base need no more than a HeatCurve.
//
//	func(travel float64, _, room units.Temperature) units.Power {
//		return radiator.Output(units.Flow(travel)*design, terminal.Conditions{Air: room}).Heat
//	}
//
// The heat must not rise with the temperature of the room. It is below zero for cooling. The
// base is that of the [Plant], for a supply that follows the temperature outdoors.
// It must not allocate if the steps of a Plant are not to.
type RoomHeatCurve func(travel float64, base, room units.Temperature) units.Power

// Tabulated returns the curve as a table, as [HeatCurve.Tabulated] does, at points + 1
// travels and, since terminals are much straighter over temperatures, at an eighth as many cells
// over bases and rooms, each from one temperature to another. A supply that minds no base has the
// same base twice. Between 5 and 35 °C in the room a radiator at 75/65 °C whose flow is in
// proportion to the travel is met with 64 points within 0.1 % of its design heat from a tenth of its
// flow on, and within 2 % below.
func (f RoomHeatCurve) Tabulated(points int, bases, rooms [2]units.Temperature) RoomHeatCurve {
	const fewer = 8
	n := max(1, points)
	m := (n + fewer - 1) / fewer
	row, plane := n+1, (n+1)*(m+1)
	table := make([]float64, plane*(m+1))
	for i := range table {
		travel, room, base := i%row, i/row%(m+1), i/plane
		table[i] = float64(f(float64(travel)/float64(n), along(bases, float64(base)/float64(m)), along(rooms, float64(room)/float64(m))))
	}
	return func(travel float64, base, room units.Temperature) units.Power {
		warm, indoors := share(bases, base), share(rooms, room)
		if math.IsNaN(travel + warm + indoors) {
			return units.Power(math.NaN())
		}
		i, x := cell(travel, n)
		k, y := cell(indoors, m)
		l, z := cell(warm, m)
		at := table[l*plane+k*row+i:]
		low := bilinear(at, row, x, y)
		return units.Power(low + float64(z*(bilinear(at[plane:], row, x, y)-low)))
	}
}

// bilinear interpolates in the first cell of a table of rows.
func bilinear(at []float64, row int, x, y float64) float64 {
	low := between(at, x)
	return low + float64(y*(between(at[row:], x)-low))
}
