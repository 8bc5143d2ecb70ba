package valve

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// Regulator is the pressure regulator inside a pressure-independent valve, as
// far as the settings table tells. The regulator holds ControlPressure p_c
// across the control orifice, so that q = Kv_o·√p_c; wide open it has the
// coefficient Kv_r, so that the valve needs p_c + (q/Kv_r)² for the flow q.
type Regulator struct {
	ControlPressure units.Pressure
	// Coefficient is Kv_r of the regulator wide open.
	Coefficient units.FlowCoefficient
	// Identified tells whether the two come from the table: by unweighted least
	// squares of the least pressure on the square of the flow, where that pressure
	// nowhere falls and rises altogether, and where the fit's ControlPressure is 0.1
	// to 1.1 of the smallest one. If not, ControlPressure is half the smallest least
	// pressure, and Coefficient follows from the last row.
	Identified bool
}

// ruleShare is the control pressure as a share of the smallest least pressure
// where the table does not tell (a rule of this package, no published source).
const ruleShare = 0.5

// A fit is believed whose control pressure is between these shares of the
// smallest least pressure, which it cannot exceed but for the rounding of the
// table.
const (
	leastControlShare    = 0.1
	greatestControlShare = 1.1
)

// identify finds the regulator from rows of flow and least pressure for the
// full flow. A table whose least pressure nowhere falls with the flow and rises
// altogether is fitted by least squares to p = p_c + q²/K_r². A constant or
// falling one does not tell, nor does a fit that is not to be believed: then
// p_c is half the smallest least pressure, and the last row gives Kv_r.
func identify(s settings) Regulator {
	least := s.first().MinPressure
	rises := s.last().MinPressure > s.first().MinPressure
	for i := 1; i < len(s); i++ {
		least = min(least, s[i].MinPressure)
		rises = rises && s[i].MinPressure >= s[i-1].MinPressure
	}
	if rises {
		pc, slope := fit(s)
		if slope > 0 && pc >= leastControlShare*least && pc <= greatestControlShare*least {
			return regulator(pc, slope, true)
		}
	}
	pc := ruleShare * least
	q := s.last().Flow
	return regulator(pc, float64(s.last().MinPressure-pc)/float64(q*q), false)
}

func regulator(pc units.Pressure, slope float64, identified bool) Regulator {
	k := 1 / math.Sqrt(slope)
	return Regulator{
		ControlPressure: pc, Identified: identified,
		Coefficient: units.FlowCoefficient(k / conductance(units.Kv, ReferenceDensity)),
	}
}

// fit is the line of least squares through the points (q², p).
func fit(s settings) (intercept units.Pressure, slope float64) {
	n := float64(len(s))
	var x, p float64
	for _, row := range s {
		x += float64(row.Flow*row.Flow) / n
		p += float64(row.MinPressure) / n
	}
	var xx, xp float64
	for _, row := range s {
		dx := float64(row.Flow*row.Flow) - x
		xx += float64(dx * dx)
		xp += float64(dx * (float64(row.MinPressure) - p))
	}
	slope = xp / xx
	return units.Pressure(p - float64(slope*x)), slope
}
