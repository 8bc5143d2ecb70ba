package control

import "github.com/indexrun/indexrun/internal/words"

// Verdict is what [DetectHunting] makes of a record.
type Verdict uint8

const (
	// Undecided: the record does not tell; the [Doubt] says why. It is the zero
	// value.
	Undecided Verdict = iota
	// Steady: what swing there is stays within the tolerance, at the end at least.
	Steady
	// Hunting: a regular swing beyond the tolerance that does not die.
	Hunting
)

var verdictWords = words.List{Package: packageName, Field: "Verdict", Words: []string{"undecided", "steady", "hunting"}}

// String returns "undecided", "steady" or "hunting".
func (v Verdict) String() string { return verdictWords.Text(uint8(v)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (v Verdict) MarshalText() ([]byte, error) { return verdictWords.Marshal(uint8(v)) }

// UnmarshalText reads the word.
func (v *Verdict) UnmarshalText(text []byte) error { return words.Into(&verdictWords, text, v) }
