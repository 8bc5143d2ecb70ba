package actuator

import "github.com/indexrun/indexrun/internal/words"

// BelowLiveZero is what the actuator does when the signal of a live-zero range
// has fallen so far below its zero that the range calls it failed. Most drives
// do not tell a failed signal from a small one. It does nothing on a range without
// a live zero.
type BelowLiveZero uint8

// The behaviours below the live zero.
const (
	AsLowestSignal    BelowLiveZero = iota // as the lower end of the range: a demand of 0, or 1 if the range is inverse; the zero value
	HoldBelowLiveZero                      // the stem stays where it is
	ToExtended                             // the stem runs out
	ToRetracted                            // the stem runs in
)

var belowLiveZeroWords = words.List{Package: packageName, Field: "BelowLiveZero", Words: []string{AsLowestSignal: "as-lowest-signal", HoldBelowLiveZero: "hold",
	ToExtended: "to-extended", ToRetracted: "to-retracted"}}

// String returns the word, such as "as-lowest-signal".
func (b BelowLiveZero) String() string { return belowLiveZeroWords.Text(uint8(b)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (b BelowLiveZero) MarshalText() ([]byte, error) {
	return belowLiveZeroWords.Marshal(uint8(b))
}

// UnmarshalText reads the word.
func (b *BelowLiveZero) UnmarshalText(text []byte) error {
	return words.Into(&belowLiveZeroWords, text, b)
}
