package signal

import "github.com/indexrun/indexrun/internal/words"

// Status says what a [Range] makes of a signal. It is a fact of the field, not
// an error of the program. The zero Status is NoSignal, so that the zero
// [Reading] is the reading of the zero [Signal].
type Status uint8

// The statuses, with what [Reading.Demand] holds.
const (
	// NoSignal: nothing is connected. Demand is 0.
	NoSignal Status = iota
	// InRange: a signal that the source sends in normal service, the small
	// excess that the limits allow included. Demand is exact and clamped to 0…1.
	InRange
	// UnderRange: the signal is below what the source should send, but not so far
	// as to be a fault. Demand is clamped: 0, or 1 for an inverse range.
	UnderRange
	// OverRange: likewise above. Demand is clamped: 1, or 0 for an inverse range.
	OverRange
	// Failed: no working source sends this: a broken wire under a live zero, a
	// short circuit, a wrong terminal. Demand is the clamped number all the same;
	// it is 0 if the signal is NaN. Whether to use it is the receiver's decision.
	Failed
	// WrongKind: milliamps on a range in volts or the other way round, or any
	// signal on the zero Range. Demand is 0.
	WrongKind
)

var statusWords = words.List{Package: packageName, Field: "status", Words: []string{
	NoSignal:   "no-signal",
	InRange:    "in-range",
	UnderRange: "under-range",
	OverRange:  "over-range",
	Failed:     "failed",
	WrongKind:  "wrong-kind",
}}

// Valid reports whether the demand may be followed: InRange, UnderRange or
// OverRange.
func (s Status) Valid() bool { return s >= InRange && s <= OverRange }

// String returns a word such as "in-range".
func (s Status) String() string { return statusWords.Text(uint8(s)) }

// MarshalText returns the word of [Status.String]; an undeclared Status is an
// error.
func (s Status) MarshalText() ([]byte, error) { return statusWords.Marshal(uint8(s)) }

// UnmarshalText reads the word of [Status.String].
func (s *Status) UnmarshalText(text []byte) error {
	return words.Into(&statusWords, text, s)
}
