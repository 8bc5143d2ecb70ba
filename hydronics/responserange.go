package hydronics

import "github.com/indexrun/indexrun/internal/check"

// A HeatRange is a range of shares of the full heat, 0 … 1. The zero HeatRange
// stands for [UsualHeatRange].
type HeatRange struct{ From, To float64 }

// UsualHeatRange is 10 … 90 % of the heat, where a unit spends its time; below it
// loops are commonly allowed to cycle (common practice, no published source).
func UsualHeatRange() HeatRange { return HeatRange{0.1, 0.9} }

func (r HeatRange) orUsual() HeatRange {
	if r == (HeatRange{}) {
		return UsualHeatRange()
	}
	return r
}

func (r HeatRange) check(l *check.List, field string) {
	r = r.orUsual()
	l.Require(r.From > 0 && r.From < r.To && r.To < 1, field, r, "two shares with 0 < From < To < 1, or none for 10 … 90 %")
}
