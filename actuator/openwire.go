package actuator

import "github.com/indexrun/indexrun/internal/words"

// OpenWire is what the input makes of a wire that is cut or was never
// connected, which leaves it floating. It depends on the input circuit: a
// resistor to common reads as zero, one to the supply reads as full signal.
// Common practice, no published source; find it in the data sheet or measure
// it, because it is seldom what the specification of the plant assumes.
type OpenWire uint8

// The readings of an open wire.
const (
	AsZeroSignal   OpenWire = iota // as 0 V or 0 mA, which a live-zero range then treats as below its live zero; the zero value
	AsFullSignal                   // as the upper end of the range: a demand of 1, or 0 if the range is inverse
	HoldOnOpenWire                 // noticed, and the stem stays where it is
)

var openWireWords = words.List{Package: packageName, Field: "OpenWire", Words: []string{AsZeroSignal: "as-zero-signal", AsFullSignal: "as-full-signal", HoldOnOpenWire: "hold"}}

// String returns the word, such as "as-zero-signal".
func (o OpenWire) String() string { return openWireWords.Text(uint8(o)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (o OpenWire) MarshalText() ([]byte, error) { return openWireWords.Marshal(uint8(o)) }

// UnmarshalText reads the word.
func (o *OpenWire) UnmarshalText(text []byte) error { return words.Into(&openWireWords, text, o) }
