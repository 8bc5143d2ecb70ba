package actuator

import "github.com/indexrun/indexrun/internal/words"

// Action says which way the stem moves when the demand rises. It says nothing
// about the valve: whether a rising signal opens or closes follows from the
// action and the closing end together, see [Actuator.RisingOpens].
//
// On a rotary drive to extend is to turn clockwise, seen from the drive.
type Action uint8

// The actions.
const (
	Direct  Action = iota // a rising signal extends the stem; the zero value
	Reverse               // a rising signal retracts the stem
)

var actionWords = words.List{Package: packageName, Field: "Action", Words: []string{Direct: "direct", Reverse: "reverse"}}

// String returns the word, such as "direct".
func (a Action) String() string { return actionWords.Text(uint8(a)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (a Action) MarshalText() ([]byte, error) { return actionWords.Marshal(uint8(a)) }

// UnmarshalText reads the word.
func (a *Action) UnmarshalText(text []byte) error { return words.Into(&actionWords, text, a) }
