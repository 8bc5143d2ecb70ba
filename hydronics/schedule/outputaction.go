package schedule

import "github.com/indexrun/indexrun/internal/words"

// OutputAction is what a rising controller output asks of the valve.
type OutputAction uint8

// The actions of an output.
const (
	RisingOpens OutputAction = iota
	RisingCloses
	lastOutputAction = RisingCloses
)

var outputActionWords = words.List{Package: packageName, Field: "output action", Words: []string{"rising-opens", "rising-closes"}}

// String returns the word for the action.
func (a OutputAction) String() string { return outputActionWords.Text(uint8(a)) }

// MarshalText returns the word for the action.
func (a OutputAction) MarshalText() ([]byte, error) { return outputActionWords.Marshal(uint8(a)) }

// UnmarshalText reads the word.
func (a *OutputAction) UnmarshalText(text []byte) error {
	return words.Into(&outputActionWords, text, a)
}
