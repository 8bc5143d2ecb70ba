package signal

// Kind says what carries a signal.
type Kind uint8

// The kinds. The zero Kind is no signal at all.
const (
	KindNone    Kind = iota // no signal: nothing connected, an open wire
	KindVoltage             // volts
	KindCurrent             // milliamps
)

var kindWords = []string{KindNone: "none", KindVoltage: "voltage", KindCurrent: "current"}

// String returns "none", "voltage" or "current".
func (k Kind) String() string { return word(kindWords, k) }

// MarshalText returns the word of [Kind.String]; an undeclared Kind is an error.
func (k Kind) MarshalText() ([]byte, error) { return marshalWord("kind", kindWords, k) }

// UnmarshalText reads the word of [Kind.String].
func (k *Kind) UnmarshalText(text []byte) error { return unmarshalWord("kind", kindWords, text, k) }

// symbol is the unit of a signal's number.
func (k Kind) symbol() string {
	if k == KindCurrent {
		return "mA"
	}
	return "V"
}
