package control

import "github.com/indexrun/indexrun/internal/words"

// Action says which way a controller's output moves when the measured
// temperature rises (terms of the trade). It is a setting of the controller and has
// nothing to do with that of an actuator, which is about the stem: reversing both
// undoes it.
type Action uint8

const (
	// ReverseActing: the output falls when the temperature rises, as heating
	// needs it. It is the zero value.
	ReverseActing Action = iota
	// DirectActing: the output rises with the temperature, as cooling needs it.
	DirectActing
)

var actionWords = words.List{Package: packageName, Field: "Action", Words: []string{"reverse-acting", "direct-acting"}}

// String returns "reverse-acting" or "direct-acting".
func (a Action) String() string { return actionWords.Text(uint8(a)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (a Action) MarshalText() ([]byte, error) { return actionWords.Marshal(uint8(a)) }

// UnmarshalText reads the word.
func (a *Action) UnmarshalText(text []byte) error { return words.Into(&actionWords, text, a) }
