package wiring

import "github.com/indexrun/indexrun/internal/words"

// End is an end of the cable. Lengths count from the near end.
type End uint8

// The ends.
const (
	NearEnd End = iota // before the first device; the zero value
	FarEnd             // behind the last device
)

var endWords = words.List{Package: packageName, Field: "end", Words: []string{NearEnd: "near-end", FarEnd: "far-end"}}

// String returns the word, such as "near-end".
func (e End) String() string { return endWords.Text(uint8(e)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (e End) MarshalText() ([]byte, error) { return endWords.Marshal(uint8(e)) }

// UnmarshalText reads the word.
func (e *End) UnmarshalText(text []byte) error { return words.Into(&endWords, text, e) }
