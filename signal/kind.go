package signal

import "github.com/indexrun/indexrun/internal/words"

// Kind says what carries a signal.
type Kind uint8

// The kinds. The zero Kind is no signal at all.
const (
	KindNone    Kind = iota // no signal: nothing connected, an open wire
	KindVoltage             // volts
	KindCurrent             // milliamps
)

var kindWords = words.List{Package: packageName, Field: "kind", Words: []string{KindNone: "none", KindVoltage: "voltage", KindCurrent: "current"}}

// String returns "none", "voltage" or "current".
func (k Kind) String() string { return kindWords.Text(uint8(k)) }

// MarshalText returns the word of [Kind.String]; an undeclared Kind is an error.
func (k Kind) MarshalText() ([]byte, error) { return kindWords.Marshal(uint8(k)) }

// UnmarshalText reads the word of [Kind.String].
func (k *Kind) UnmarshalText(text []byte) error { return words.Into(&kindWords, text, k) }

// symbol is the unit of a signal's number.
func (k Kind) symbol() string {
	if k == KindCurrent {
		return "mA"
	}
	return "V"
}
