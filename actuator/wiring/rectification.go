package wiring

import (
	"math"

	"github.com/indexrun/indexrun/internal/words"
)

// Rectification says in which half waves a load on an alternating supply draws its
// current. On a direct supply it does not matter.
type Rectification uint8

// The rectifications.
const (
	// HalfWave draws half a sine in every second half wave: a drive with one diode,
	// whose signal common is its supply common. With a crest Ip the effective current is
	// Ip/2 and the mean Ip/π, 2/π of the effective current (textbooks of power
	// electronics). A drive with a reservoir capacitor draws shorter and higher pulses:
	// for the same effective current a smaller mean, and a greater drop at the crest.
	// The zero value, since it is usual and the worse case for the signal.
	HalfWave Rectification = iota
	// FullWave draws a whole sine, or both its halves: a drive with a bridge rectifier or
	// an isolating transformer, a heater, a synchronous motor. It is taken to draw the same in
	// both half waves, so that it has no mean.
	FullWave
)

var rectificationWords = words.List{Package: packageName, Field: "rectification", Words: []string{
	HalfWave: "half-wave", FullWave: "full-wave",
}}

// String returns the word, such as "half-wave".
func (r Rectification) String() string { return rectificationWords.Text(uint8(r)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (r Rectification) MarshalText() ([]byte, error) { return rectificationWords.Marshal(uint8(r)) }

// UnmarshalText reads the word.
func (r *Rectification) UnmarshalText(text []byte) error {
	return words.Into(&rectificationWords, text, r)
}

// wave gives the parts of a current whose effective value is 1.
type wave struct {
	rising  float64 // crest/√2 in the half wave in which every load draws
	falling float64 // crest/√2 in the other one
	mean    float64
}

func (r Rectification) wave(kind SupplyKind) wave {
	switch {
	case kind == Direct:
		return wave{1, 1, 1}
	case r == HalfWave:
		return wave{math.Sqrt2, 0, 2 / math.Pi}
	default:
		return wave{1, 1, 0}
	}
}
