package signal

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// Signal is one electrical control signal: volts, milliamps, or none. Signals
// are comparable; the zero Signal is no signal, an open wire.
//
// A Signal may hold any number, NaN included, as a converter or a field bus may
// deliver it: what it means is the business of [Range.Read].
type Signal struct {
	kind  Kind
	value float64 // volts or milliamps
}

// Volts makes a voltage signal from a number of volts.
func Volts(x float64) Signal { return Signal{KindVoltage, x} }

// Milliamps makes a current signal from a number of milliamps.
func Milliamps(x float64) Signal { return Signal{KindCurrent, x} }

// FromVoltage makes a voltage signal from a quantity.
func FromVoltage(v units.Voltage) Signal { return Volts(v.In(units.Volt)) }

// FromCurrent makes a current signal from a quantity.
func FromCurrent(i units.Current) Signal { return Milliamps(i.In(units.Milliampere)) }

// Kind returns what carries the signal.
func (s Signal) Kind() Kind { return s.kind }

// Number returns the number of volts or milliamps, by the kind; 0 for no signal.
func (s Signal) Number() float64 { return s.value }

// Voltage returns the signal as a voltage; false if it is not one.
func (s Signal) Voltage() (units.Voltage, bool) {
	if s.kind != KindVoltage {
		return 0, false
	}
	return units.Voltage(s.value) * units.Volt, true
}

// Current returns the signal as a current; false if it is not one.
func (s Signal) Current() (units.Current, bool) {
	if s.kind != KindCurrent {
		return 0, false
	}
	return units.Current(s.value) * units.Milliampere, true
}

// IsZero reports whether s is no signal.
func (s Signal) IsZero() bool { return s == Signal{} }

// Equal reports whether s and t are the same signal, with the same number. A
// NaN equals nothing.
func (s Signal) Equal(t Signal) bool { return s == t }

func (s Signal) finite() bool { return !math.IsNaN(s.value) && !math.IsInf(s.value, 0) }
