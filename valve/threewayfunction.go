package valve

import "github.com/indexrun/indexrun/internal/words"

// Function says which way the liquid goes through a three-way valve: a plug made
// for one of them may slam or chatter when it is passed the other way (common
// practice, no published source).
type Function uint8

// The functions. A mixing valve has two inlets, A and B, and the outlet AB; a
// diverting valve has the inlet AB and two outlets.
const (
	Mixing Function = iota
	Diverting
)

var functionWords = words.List{Package: packageName, Field: "Function", Words: []string{"mixing", "diverting"}}

// String returns the word of f, such as "mixing".
func (f Function) String() string { return functionWords.Text(uint8(f)) }

// MarshalText returns the word of f.
func (f Function) MarshalText() ([]byte, error) { return functionWords.Marshal(uint8(f)) }

// UnmarshalText reads the word of a function.
func (f *Function) UnmarshalText(text []byte) error {
	return words.Into(&functionWords, text, f)
}
