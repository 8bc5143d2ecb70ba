package signal

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

// Range is an input range: the signals between which a demand runs from 0 to 1.
// Make one with a function such as [Range0To10V], with [NewRange] or with
// [ParseRange]. Ranges are immutable and comparable. The zero Range is no range:
// every signal reads as WrongKind on it.
//
// A range is a window on the signal that the source sends. For most ranges the
// two are the same. For a stage of a split range they are not: a valve set to
// 5–10 V hangs on a controller that sends 0–10 V, so 3 V is in order there and
// merely means 0. [Range.Within] says so; the status of a signal is judged by the
// whole signal, the demand by the window.
type Range struct {
	kind      Kind
	at0, at1  float64 // the signals for demand 0 and 1
	perSignal float64 // demand per volt or milliamp, signed
	whole     whole
}

// The ranges of the trade, compiled once and never written to.
var (
	range0To10V  = compile(KindVoltage, 0, 10, whole{0, 10})
	range2To10V  = compile(KindVoltage, 2, 10, whole{2, 10})
	range0To5V   = compile(KindVoltage, 0, 5, whole{0, 5})
	range5To10V  = compile(KindVoltage, 5, 10, whole{0, 10})
	range1To5V   = compile(KindVoltage, 1, 5, whole{1, 5})
	range0To20mA = compile(KindCurrent, 0, 20, whole{0, 20})
	range4To20mA = compile(KindCurrent, 4, 20, whole{4, 20})
)

// Range0To10V is 0–10 V (IEC 60381-2). It has no live zero: a broken wire and
// a demand of 0 look alike.
func Range0To10V() Range { return range0To10V }

// Range2To10V is 2–10 V, what 4–20 mA makes over 500 Ω (common practice).
func Range2To10V() Range { return range2To10V }

// Range0To5V is 0–5 V (common practice), from a source that sends 0–5 V and without
// a live zero. For the lower half of a split 0–10 V signal write
// Range0To5V().Within(Range0To10V()).
func Range0To5V() Range { return range0To5V }

// Range5To10V is 5–10 V (common practice), the upper half of a split 0–10 V signal:
// its 5 V is not a live zero, and a signal between 0 and 5 V is in range with
// demand 0.
func Range5To10V() Range { return range5To10V }

// Range1To5V is 1–5 V, what 4–20 mA makes over 250 Ω (common practice).
func Range1To5V() Range { return range1To5V }

// Range0To20mA is 0–20 mA (common practice). It has no live zero.
func Range0To20mA() Range { return range0To20mA }

// Range4To20mA is 4–20 mA (IEC 60381-1), with the limits of NAMUR NE 43.
func Range4To20mA() Range { return range4To20mA }

// Bounds of a custom range, in volts or milliamps: they keep the arithmetic
// accurate to 1e-12 and every limit finite.
const (
	greatestEnd = 100
	leastSpan   = 0.1
)

// NewRange makes the range with demand 0 at the first signal and demand 1 at the
// second. It is inverse if the second is the lower one: 10–0 V. Both are volts or
// both milliamps, 0 to 100 and at least 0.1 apart.
//
// The source is taken to send that range and no more, so that a lower end above
// zero is a live zero; use [Range.Within] for a window on a wider signal. 5–10 V is
// always [Range5To10V].
func NewRange(at0, at1 Signal) (Range, error) {
	l := check.List{Package: packageName}
	checkEnd(&l, "Range.At0", at0)
	checkEnd(&l, "Range.At1", at1)
	if l.Err() == nil {
		if at0.kind != at1.kind {
			l.Fault("Range", pair(at0, at1), "both ends in volts or both in milliamps")
		}
		if !(math.Abs(at1.value-at0.value) >= leastSpan) {
			l.Fault("Range", pair(at0, at1), fmt.Sprintf("ends at least %g V or mA apart", leastSpan))
		}
	}
	if err := l.Err(); err != nil {
		return Range{}, err
	}
	return compile(at0.kind, at0.value, at1.value, usualWhole(at0.kind, at0.value, at1.value)), nil
}

func checkEnd(l *check.List, field string, s Signal) {
	if !(s.kind != KindNone && s.value >= 0 && s.value <= greatestEnd) {
		l.Fault(field, s, fmt.Sprintf("volts or milliamps, 0 … %d", greatestEnd))
	}
}

func pair(at0, at1 Signal) string { return at0.String() + " to " + at1.String() }

// usualWhole returns the signal that a range with these ends is a window on
// unless Within says otherwise.
func usualWhole(kind Kind, at0, at1 float64) whole {
	w := whole{min(at0, at1), max(at0, at1)}
	if kind == KindVoltage && w == (whole{5, 10}) {
		return range5To10V.whole
	}
	return w
}

func compile(kind Kind, at0, at1 float64, w whole) Range {
	return Range{kind: kind, at0: at0, at1: at1, perSignal: reciprocal(at1 - at0), whole: w}
}

// reciprocal returns 1/span, rounded so that span·reciprocal(span) is not below 1:
// the upper end of a range then reads as 1 exactly.
func reciprocal(span float64) float64 {
	r := 1 / span
	if float64(span*r) < 1 {
		return math.Nextafter(r, math.Inf(int(math.Copysign(1, span))))
	}
	return r
}

// Within returns r as a window on the wider signal that the source sends: a
// signal outside the window but within wide is then in range, with demand 0 or 1.
// The window must lie within the span of wide.
func (r Range) Within(wide Range) (Range, error) {
	l := check.List{Package: packageName}
	if l.Require(r.kind != KindNone && r.kind == wide.kind, "Within", wide, "a range of the same kind as "+r.String()) {
		l.Require(r.lowest() >= wide.lowest() && r.highest() <= wide.highest(), "Within", wide,
			"a range that holds "+r.String())
	}
	if err := l.Err(); err != nil {
		return Range{}, err
	}
	return compile(r.kind, r.at0, r.at1, wide.whole), nil
}

// Inverse returns the range with demand 0 and 1 exchanged: 10–0 V for 0–10 V. The
// inverse of the inverse is the range itself.
func (r Range) Inverse() Range {
	if r.kind == KindNone {
		return r
	}
	return compile(r.kind, r.at1, r.at0, r.whole)
}

// IsInverse reports whether the demand falls as the signal rises.
func (r Range) IsInverse() bool { return r.at1 < r.at0 }

// IsZero reports whether r is the zero Range, that is, not set.
func (r Range) IsZero() bool { return r == Range{} }

// Equal reports whether r and q are the same range.
func (r Range) Equal(q Range) bool { return r == q }

// Kind returns what carries the signals of the range.
func (r Range) Kind() Kind { return r.kind }

// Low returns the lower end of the range as a signal. For demand 0 use Encode(0).
func (r Range) Low() Signal { return Signal{r.kind, r.lowest()} }

// High returns the upper end of the range as a signal. For demand 1 use Encode(1).
func (r Range) High() Signal { return Signal{r.kind, r.highest()} }

// Span returns the difference between High and Low, above zero.
func (r Range) Span() Signal { return Signal{r.kind, r.highest() - r.lowest()} }

// LiveZero reports whether a signal of 0 reads as Failed, so that a broken wire
// is told from a demand of 0. It is so on 4–20 mA, 2–10 V and 1–5 V; it is not so
// on the ranges from zero, nor on 5–10 V.
func (r Range) LiveZero() bool { return r.whole.liveZero() }

func (r Range) lowest() float64  { return min(r.at0, r.at1) }
func (r Range) highest() float64 { return max(r.at0, r.at1) }

// Encode returns the signal for a demand, which is clamped to 0…1. The ends are
// exact; Read gives the demand back to within 1e-12. NaN gives a NaN signal, which
// reads as Failed; the zero Range gives no signal.
func (r Range) Encode(demand float64) Signal {
	switch {
	case demand <= 0 || r.kind == KindNone:
		return Signal{r.kind, r.at0}
	case demand >= 1:
		return Signal{r.kind, r.at1}
	}
	v := r.at0 + float64(demand*(r.at1-r.at0))
	return Signal{r.kind, min(max(v, r.lowest()), r.highest())}
}
