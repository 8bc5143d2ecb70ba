package signal

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// ShuntConfig describes a resistor across a voltage input that makes a voltage of
// a current signal.
type ShuntConfig struct {
	// Resistor is the shunt itself: 500 Ω makes 2–10 V of 4–20 mA.
	Resistor units.Resistance
	// Input is the resistance of the voltage input that is in parallel with it. Zero
	// means so large that it does not matter.
	Input units.Resistance
}

// Shunt is a resistor across a voltage input. Make it with [NewShunt]; Shunts are
// immutable and comparable. On the zero Shunt every current is 0 V.
type Shunt struct{ ohms float64 }

// NewShunt checks the configuration.
func NewShunt(cfg ShuntConfig) (Shunt, error) {
	l := check.List{Package: packageName}
	check.Positive(&l, "Resistor", cfg.Resistor)
	l.Require(cfg.Input >= 0, "Input", cfg.Input, "a resistance above zero, or zero for an ideal input")
	if err := l.Err(); err != nil {
		return Shunt{}, err
	}
	if cfg.Input == 0 {
		return Shunt{cfg.Resistor.In(units.Ohm)}, nil
	}
	return Shunt{cfg.Resistor.Parallel(cfg.Input).In(units.Ohm)}, nil
}

// Equal reports whether s and t have the same resistance.
func (s Shunt) Equal(t Shunt) bool { return s == t }

// Resistance returns what the current flows through: the resistor and the input
// in parallel, R·Ri/(R + Ri) (Kirchhoff). 500 Ω at an input of 100 kΩ is 497.5 Ω, so
// that every voltage is 0.5 % low.
func (s Shunt) Resistance() units.Resistance { return units.Resistance(s.ohms) * units.Ohm }

// Convert returns the voltage that a current makes over the shunt: U = I·R. An
// open wire carries no current, so no signal becomes 0 V. What a voltage source does
// into a shunt depends on the source, which it overloads as a rule: a voltage becomes
// a NaN voltage, which reads as Failed.
func (s Shunt) Convert(current Signal) Signal {
	switch current.kind {
	case KindNone:
		return Volts(0)
	case KindCurrent:
		return Volts(s.volts(current.value))
	default:
		return Volts(math.NaN())
	}
}

// ConvertRange returns the range in volts that a range in milliamps becomes over
// the shunt. What Convert makes of a signal reads on it as the signal itself does on
// r. An input set to 2–10 V behind a shunt loaded to 497.5 Ω reads about 0.5 % low
// instead; compare the two to see the error.
func (s Shunt) ConvertRange(r Range) (Range, error) {
	l := check.List{Package: packageName}
	if !l.Require(r.kind == KindCurrent, "ConvertRange", fmt.Sprintf("%q", r), "a range in milliamps") {
		return Range{}, l.Err()
	}
	window, err := NewRange(s.Convert(Milliamps(r.at0)), s.Convert(Milliamps(r.at1)))
	if err != nil || r.whole == usualWhole(r.kind, r.at0, r.at1) {
		return window, err
	}
	wide, err := NewRange(s.Convert(Milliamps(r.whole.low)), s.Convert(Milliamps(r.whole.high)))
	if err != nil {
		return Range{}, err
	}
	return window.Within(wide)
}

func (s Shunt) volts(milliamps float64) float64 { return milliamps * s.ohms / 1000 }
