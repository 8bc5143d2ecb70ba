package terminal

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Temperatures are the three temperatures of a design or a rating, as in
// "75/65/20". The water heats if it is warmer than the air and cools if it is
// colder; its return lies between supply and air.
type Temperatures struct {
	Supply units.Temperature // of the water
	Return units.Temperature // of the water
	Air    units.Temperature // of the room, or of the air entering a coil
}

// LogMean returns the logarithmic mean difference of water and air,
//
//	ΔT = (θs − θr)/ln((θs − θa)/(θr − θa))
//
// (EN 442-2, EN 1264-2), always positive: 49.833 K at 75/65/20. It is the mean
// along a surface on which the water cools down by a constant coefficient,
// where the arithmetic mean, 50 K, is of the ends only; at a tenth of the flow
// the two differ by a tenth and more. NaN if the return is not between supply
// and air.
func (t Temperatures) LogMean() units.TemperatureDifference {
	a, b := t.ends()
	return units.TemperatureDifference(logMean(a, b))
}

// ends are the differences to the air at the two ends, in K, positive.
func (t Temperatures) ends() (supply, back float64) {
	direction := t.direction()
	return direction * float64(t.Supply.Sub(t.Air)), direction * float64(t.Return.Sub(t.Air))
}

// direction is +1 for heating, −1 for cooling.
func (t Temperatures) direction() float64 {
	return math.Copysign(1, float64(t.Supply.Sub(t.Air)))
}

// spread is |supply − return| in K.
func (t Temperatures) spread() float64 { return math.Abs(float64(t.Supply.Sub(t.Return))) }

func (t Temperatures) isZero() bool { return t == Temperatures{} }

// The air that a terminal may meet.
var (
	coldestAir = units.Celsius(-60)
	warmestAir = units.Celsius(100)
)

// check records faults under the name of the field.
func (t Temperatures) check(l *check.List, field string) bool {
	given := checkGiven(l, field+".Supply", t.Supply)
	given = checkGiven(l, field+".Return", t.Return) && given
	ok := checkAir(l, field+".Air", t.Air)
	if !given || t.Air.IsZero() {
		return false
	}
	supply, back := t.ends()
	switch {
	case !(supply > 0):
		return l.Require(false, field+".Supply", t.Supply, "a temperature above or below that of the air")
	case !(back > 0 && back < supply):
		return l.Require(false, field+".Return", t.Return, "between supply and air")
	}
	return ok
}

// checkGiven records a temperature that is missing. What else is wrong with one
// shows beside the others.
func checkGiven(l *check.List, field string, t units.Temperature) bool {
	return l.Require(!t.IsZero(), field, "none", "a temperature: it is required")
}

func checkAir(l *check.List, field string, air units.Temperature) bool {
	if air.IsZero() {
		l.Fault(field, "none", "−60 … 100 °C: it is required")
		return false
	}
	ok := air.Compare(coldestAir) >= 0 && air.Compare(warmestAir) <= 0
	return l.Require(ok, field, air, "−60 … 100 °C")
}

// logMean is the logarithmic mean of two differences.
func logMean(a, b float64) float64 {
	if !(a > 0 && b > 0) {
		return math.NaN()
	}
	excess := (a - b) / b
	switch {
	case excess == 0:
		return a
	case math.Abs(excess) < 0.05:
		return (a - b) / math.Log1p(excess)
	}
	return (a - b) / math.Log(a/b)
}
