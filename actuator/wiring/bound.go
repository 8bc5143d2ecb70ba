package wiring

import "github.com/indexrun/indexrun/internal/words"

// Bound says which limit decides.
type Bound uint8

// The bounds.
const (
	Unbound       Bound = iota // none: no length reaches a limit
	BySignalError              // Limit.SignalError
	BySupplyDrop               // Limit.SupplyDrop
	ByTolerance                // the supply voltage that a load tolerates
	ByPower                    // beyond it the cable cannot carry the power at all
)

var boundWords = words.List{Package: packageName, Field: "bound", Words: []string{
	Unbound: "unbound", BySignalError: "signal-error", BySupplyDrop: "supply-drop", ByTolerance: "supply-tolerance", ByPower: "power",
}}

// String returns the word, such as "signal-error".
func (b Bound) String() string { return boundWords.Text(uint8(b)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (b Bound) MarshalText() ([]byte, error) { return boundWords.Marshal(uint8(b)) }

// UnmarshalText reads the word.
func (b *Bound) UnmarshalText(text []byte) error { return words.Into(&boundWords, text, b) }
