package signal

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

// ConverterConfig describes an analogue-to-digital or digital-to-analogue
// converter.
type ConverterConfig struct {
	// Bits is the number of bits, 1…24.
	Bits int
	// FullScale is what the converter spans: often 0–10 V or 0–20 mA, whatever part
	// of it a range uses.
	FullScale Range
}

// Converter is an ideal converter of n bits: 2ⁿ values, evenly spread so that the
// first and the last are the ends of the full scale. Real ones add offset, gain and
// linearity errors. (Some data sheets place the last value one step short of full
// scale, which makes a difference of one step in 2ⁿ.) Make it with [NewConverter];
// Converters are immutable and comparable. The zero Converter has no values.
type Converter struct {
	kind      Kind
	low, high float64
	last      float64 // the greatest code, 2ⁿ − 1
}

const mostBits = 24

// NewConverter checks the configuration.
func NewConverter(cfg ConverterConfig) (Converter, error) {
	l := check.List{Package: packageName}
	l.Require(cfg.Bits >= 1 && cfg.Bits <= mostBits, "Bits", cfg.Bits, fmt.Sprintf("1 … %d", mostBits))
	l.Require(!cfg.FullScale.IsZero(), "FullScale", "none", "a range")
	if err := l.Err(); err != nil {
		return Converter{}, err
	}
	full := cfg.FullScale
	return Converter{full.kind, full.lowest(), full.highest(), math.Ldexp(1, cfg.Bits) - 1}, nil
}

// Equal reports whether c and d are the same converter.
func (c Converter) Equal(d Converter) bool { return c == d }

// Step returns the difference between two neighbouring values:
// full scale/(2ⁿ − 1).
func (c Converter) Step() Signal { return Signal{c.kind, c.step()} }

func (c Converter) step() float64 {
	if c.last == 0 {
		return 0
	}
	return (c.high - c.low) / c.last
}

// Quantise returns the value nearest to a signal, the end of the full scale for one
// beyond it. No signal stays no signal; NaN, and a signal of another kind, which a
// converter does not measure, give NaN, which reads as Failed.
func (c Converter) Quantise(s Signal) Signal {
	switch {
	case s.kind == KindNone || c.kind == KindNone:
		return Signal{}
	case s.kind != c.kind:
		return Signal{c.kind, math.NaN()}
	case s.value <= c.low:
		return Signal{c.kind, c.low}
	case s.value >= c.high:
		return Signal{c.kind, c.high}
	}
	code := math.Round((s.value - c.low) / c.step())
	return Signal{c.kind, c.valueOf(code)}
}

func (c Converter) valueOf(code float64) float64 {
	if code >= c.last {
		return c.high
	}
	return c.low + float64(code*c.step())
}

// Resolution is what a converter makes of a range.
type Resolution struct {
	// Values is how many different values lie between the ends of the range, both
	// ends included. 10 bits over 0–10 V have 1024, of which 2–10 V uses 819.
	Values int
	// DemandStep is the demand between two neighbouring values, 0…1.
	DemandStep float64
	// WorstError is the greatest error of a demand by rounding to the nearest value:
	// half a step, or more if the range reaches beyond the full scale.
	WorstError float64
}

// Resolution returns what the converter makes of a range, which must be of the
// converter's kind.
func (c Converter) Resolution(r Range) (Resolution, error) {
	l := check.List{Package: packageName}
	if !l.Require(r.kind == c.kind && c.kind != KindNone, "Resolution", fmt.Sprintf("%q", r),
		"a range of the converter's kind, "+c.kind.String()) {
		return Resolution{}, l.Err()
	}
	span := r.highest() - r.lowest()
	beyond := max(c.low-r.lowest(), r.highest()-c.high, 0)
	return Resolution{
		Values:     c.values(r.lowest(), r.highest()),
		DemandStep: c.step() / span,
		WorstError: min(max(c.step()/2, beyond)/span, 1),
	}, nil
}

// values counts the codes whose values lie within low … high.
func (c Converter) values(low, high float64) int {
	const slack = 1e-9 // of a step, for ends that fall on a value
	first := math.Ceil(max((low-c.low)/c.step()-slack, 0))
	last := math.Floor(min((high-c.low)/c.step()+slack, c.last))
	return max(int(last-first)+1, 0)
}
