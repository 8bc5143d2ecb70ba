package actuator

import "github.com/indexrun/indexrun/internal/words"

// Outcome is where a failure leaves the valve.
type Outcome uint8

// The outcomes.
const (
	NotApplicable Outcome = iota // the failure cannot happen in this configuration; the zero value
	Open
	Closed
	Holds // stays where it was
)

var outcomeWords = words.List{Package: packageName, Field: "Outcome", Words: []string{NotApplicable: "not-applicable", Open: "open", Closed: "closed", Holds: "hold"}}

// String returns the word, such as "closed".
func (o Outcome) String() string { return outcomeWords.Text(uint8(o)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (o Outcome) MarshalText() ([]byte, error) { return outcomeWords.Marshal(uint8(o)) }

// UnmarshalText reads the word.
func (o *Outcome) UnmarshalText(text []byte) error { return words.Into(&outcomeWords, text, o) }
