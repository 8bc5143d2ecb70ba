package wiring

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// LoopConfig describes a current loop: a source, the two conductors of a cable, and
// receivers in series.
type LoopConfig struct {
	// Source is the greatest voltage that the source can put on the loop (its compliance).
	// An output stated for a burden of 500 Ω at 20 mA has 10 V.
	Source units.Voltage
	// Keeps is what a two-wire instrument in the loop needs for itself.
	Keeps units.Voltage `json:",omitzero"`
	// Full is the greatest current the loop must carry; 0 = 20 mA. NAMUR NE 43 signals a
	// failure with 21 mA.
	Full units.Current `json:",omitzero"`
	// Burden is the resistance of the receivers in series; signal.Shunt gives that of a
	// resistor in parallel with a voltage input.
	Burden units.Resistance
	// Conductor is each of the two conductors, Length that of the cable one way,
	// Temperature that of the copper (zero = 20 °C).
	Conductor   Conductor
	Length      units.Length
	Temperature units.Temperature `json:",omitzero"`
}

const (
	usualFull = 20 * units.Milliampere
	leastFull = 1 * units.Milliampere
)

// Loop is a current loop. Make it with [NewLoop]; Loops are immutable values. Too little
// voltage is a fact about a loop, not an error.
type Loop struct {
	available units.Voltage
	full      units.Current
	burden    units.Resistance
	perMetre  units.Resistance // there and back
	length    units.Length
}

// NewLoop checks the configuration.
func NewLoop(cfg LoopConfig) (Loop, error) {
	l := check.List{Package: packageName}
	checkVoltage(&l, "Source", cfg.Source)
	l.Require(cfg.Keeps >= 0 && cfg.Keeps < cfg.Source, "Keeps", cfg.Keeps, "zero or more, and less than Source")
	l.Require(cfg.Full == 0 || cfg.Full >= leastFull && cfg.Full <= units.Ampere, "Full", cfg.Full, "zero for 20 mA, or 1 mA … 1 A")
	checkResistance(&l, "Burden", cfg.Burden)
	cfg.Conductor.check(&l, "Conductor")
	checkLength(&l, "Length", cfg.Length)
	checkTemperature(&l, "Temperature", cfg.Temperature)
	if err := l.Err(); err != nil {
		return Loop{}, err
	}
	return Loop{
		available: cfg.Source - cfg.Keeps, full: orElse(cfg.Full, usualFull), burden: cfg.Burden,
		perMetre: 2 * cfg.Conductor.Resistance(units.Metre, cfg.Temperature), length: cfg.Length,
	}, nil
}

// Equal reports whether l and m are the same.
func (l Loop) Equal(m Loop) bool { return l == m }

// Resistance returns that of the whole loop: receivers and both conductors.
func (l Loop) Resistance() units.Resistance {
	return l.burden + l.perMetre*units.Resistance(l.length)
}

// Needed returns the voltage over the loop at full current, I·R; on top of it comes
// what the instrument keeps.
func (l Loop) Needed() units.Voltage { return l.full.Through(l.Resistance()) }

// Spare returns the voltage that is left at full current; below zero the loop does not
// reach it.
func (l Loop) Spare() units.Voltage { return l.available - l.Needed() }

// GreatestCurrent returns the greatest current that the loop carries, U/R. It may be
// beyond what the source gives, and is infinite for a loop without resistance.
func (l Loop) GreatestCurrent() units.Current {
	if l.Resistance() == 0 {
		return units.Current(math.Inf(1))
	}
	return l.available.Across(l.Resistance())
}

// GreatestBurden returns the resistance of receivers that the loop could carry at full
// current with this cable; below zero the cable alone is too much.
func (l Loop) GreatestBurden() units.Resistance {
	return l.carries() - l.perMetre*units.Resistance(l.length)
}

// GreatestLength returns the length of cable, one way, at which the loop just reaches
// full current, (U/I − R)/(2·r); 0 if it never does.
func (l Loop) GreatestLength() units.Length {
	if l.perMetre == 0 {
		return 0
	}
	return units.Length(max(0, (l.carries()-l.burden)/l.perMetre)) * units.Metre
}

// carries returns the resistance at which full current is just reached.
func (l Loop) carries() units.Resistance {
	return units.Resistance(float64(l.available) / float64(l.full))
}

// At returns the current in the loop for one that the source is asked for: the same, up
// to GreatestCurrent. What is not a current passes unchanged. The zero Loop limits
// nothing.
func (l Loop) At(sent signal.Signal) signal.Signal {
	if sent.Kind() != signal.KindCurrent || l == (Loop{}) {
		return sent
	}
	most := l.GreatestCurrent().In(units.Milliampere)
	if math.IsNaN(sent.Number()) || sent.Number() <= most {
		return sent
	}
	return signal.Milliamps(most)
}
