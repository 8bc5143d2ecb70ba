package schedule

import (
	"fmt"
	"strconv"

	"github.com/indexrun/indexrun/units"
)

// A Value is what a finding or a reason speaks of: a quantity, a fraction, or a
// word. It is made without allocation, since most are never shown.
type Value struct {
	kind valueKind
	x    float64      // SI
	text fmt.Stringer // of a word
}

type valueKind uint8

const (
	noValue valueKind = iota
	flowValue
	pressureValue
	differenceValue
	coefficientValue
	velocityValue
	levelValue
	shareValue
	countValue
	textValue
)

func flowOf(q units.Flow) Value          { return Value{kind: flowValue, x: float64(q)} }
func pressureOf(dp units.Pressure) Value { return Value{kind: pressureValue, x: float64(dp)} }
func differenceOf(dt units.TemperatureDifference) Value {
	return Value{kind: differenceValue, x: float64(dt)}
}
func coefficientOf(k units.FlowCoefficient) Value {
	return Value{kind: coefficientValue, x: float64(k)}
}
func velocityOf(v units.Velocity) Value { return Value{kind: velocityValue, x: float64(v)} }
func levelOf(l SoundLevel) Value        { return Value{kind: levelValue, x: float64(l)} }
func shareOf(x float64) Value           { return Value{kind: shareValue, x: x} }
func countOf(n int) Value               { return Value{kind: countValue, x: float64(n)} }

// textOf is a value that says itself; a pointer to something that stays as it is
// saves a copy.
func textOf(s fmt.Stringer) Value { return Value{kind: textValue, text: s} }

// word is a plain text as a value.
type word string

func (w word) String() string { return string(w) }

// String writes the value with the digits and units that the tables of the plan
// have.
func (v Value) String() string {
	switch v.kind {
	case flowValue:
		return flowText(units.Flow(v.x))
	case pressureValue:
		return pressureText(units.Pressure(v.x))
	case differenceValue:
		return units.TemperatureDifference(v.x).Fixed(units.Kelvin, 1)
	case coefficientValue:
		return units.FlowCoefficient(v.x).String()
	case velocityValue:
		return units.Velocity(v.x).Fixed(units.MetrePerSecond, 1)
	case levelValue:
		return SoundLevel(v.x).String()
	case shareValue:
		return twoDecimals(v.x)
	case countValue:
		return strconv.Itoa(int(v.x))
	case textValue:
		return v.text.String()
	}
	return ""
}
