package valve

import (
	"fmt"
	"math"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// settings is a checked settings table, in the order of rising marks and flows.
// Between two rows the flow is linear in the mark, and the least pressure
// linear in the square of the flow, as p_c + (q/Kv_r)² is.
type settings []Setting

// leastSettingPressure keeps the whole regulated range above the laminar floor.
const leastSettingPressure = 100 * units.Pascal

func (s settings) check(l *check.List) {
	if !l.Require(len(s) > 0, "Settings", "none", "one setting or more") {
		return
	}
	for i, row := range s {
		field := fmt.Sprintf("Settings[%d].", i)
		l.Require(!math.IsNaN(row.Mark) && !math.IsInf(row.Mark, 0), field+"Mark", row.Mark, "a finite number")
		check.Positive(l, field+"Flow", row.Flow)
		check.Within(l, field+"MinPressure", row.MinPressure, leastSettingPressure, 100*units.Bar)
		if i > 0 {
			l.Require(row.Mark > s[i-1].Mark, field+"Mark", row.Mark, fmt.Sprintf("a mark above %v, the one before", s[i-1].Mark))
			l.Require(row.Flow > s[i-1].Flow, field+"Flow", row.Flow, fmt.Sprintf("a flow above %v, the one before", s[i-1].Flow))
		}
	}
}

func (s settings) first() Setting { return s[0] }
func (s settings) last() Setting  { return s[len(s)-1] }

// atMark returns the row of a mark; false if the mark is outside the table.
func (s settings) atMark(mark float64) (Setting, bool) {
	return s.find(mark, func(row Setting) float64 { return row.Mark })
}

// atFlow returns the row of a flow; false if the flow is outside the table.
func (s settings) atFlow(q units.Flow) (Setting, bool) {
	row, ok := s.find(float64(q), func(row Setting) float64 { return float64(row.Flow) })
	if ok {
		row.Flow = q
	}
	return row, ok
}

// find returns the row at which key, which rises along the table, has the value
// x.
func (s settings) find(x float64, key func(Setting) float64) (Setting, bool) {
	i, found := slices.BinarySearchFunc(s, x, func(row Setting, x float64) int {
		switch {
		case key(row) < x:
			return -1
		case key(row) > x:
			return 1
		}
		return 0
	})
	if math.IsNaN(x) || !found && (i == 0 || i == len(s)) {
		return Setting{}, false
	}
	if found {
		return s[i], true
	}
	a, b := s[i-1], s[i]
	return between(a, b, (x-key(a))/(key(b)-key(a))), true
}

// between returns the row at a share t, 0 … 1, of the way from a to b.
func between(a, b Setting, t float64) Setting {
	q := mix(a.Flow, b.Flow, t)
	return Setting{Mark: mix(a.Mark, b.Mark, t), Flow: q,
		MinPressure: mix(a.MinPressure, b.MinPressure, squareShare(a.Flow, b.Flow, q))}
}

func mix[Q ~float64](a, b Q, t float64) Q { return Q(float64(a)*(1-t) + float64(float64(b)*t)) }

// squareShare returns (q² − a²)/(b² − a²).
func squareShare(a, b, q units.Flow) float64 {
	return float64((q - a) / (b - a) * ((q + a) / (b + a)))
}

// within returns the row of the greatest flow whose least pressure is no more
// than dp; false if there is none.
func (s settings) within(dp units.Pressure) (Setting, bool) {
	for i := len(s) - 1; i >= 0; i-- {
		if s[i].MinPressure <= dp {
			if i == len(s)-1 {
				return s[i], true
			}
			return crossing(s[i], s[i+1], dp), true
		}
	}
	return Setting{}, false
}

// crossing returns the row between a and b whose least pressure is dp.
func crossing(a, b Setting, dp units.Pressure) Setting {
	t := float64((dp - a.MinPressure) / (b.MinPressure - a.MinPressure))
	qa, qb := float64(a.Flow), float64(b.Flow)
	q := math.Sqrt(mix(qa*qa, qb*qb, t))
	row := between(a, b, (q-qa)/(qb-qa))
	row.MinPressure = dp
	return row
}
