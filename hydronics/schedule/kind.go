package schedule

import "github.com/indexrun/indexrun/internal/words"

// Kind is the kind of valve that a unit wants.
type Kind uint8

// The kinds.
const (
	AnyKind Kind = iota
	PressureIndependent
	TwoWay
	RotaryTwoWay              // a ball or butterfly valve
	RotaryPressureIndependent // a pressure regulator with a ball
	lastKind                  = RotaryPressureIndependent
)

var kindWords = words.List{Package: packageName, Field: "valve kind", Words: []string{"any", "pressure-independent", "two-way", "rotary-two-way", "rotary-pressure-independent"}}

// independent reports whether valves of the kind regulate their pressure.
func (k Kind) independent() bool { return k == PressureIndependent || k == RotaryPressureIndependent }

// rotary reports whether valves of the kind turn.
func (k Kind) rotary() bool { return k == RotaryTwoWay || k == RotaryPressureIndependent }

// String returns the word for the kind.
func (k Kind) String() string { return kindWords.Text(uint8(k)) }

// MarshalText returns the word for the kind.
func (k Kind) MarshalText() ([]byte, error) { return kindWords.Marshal(uint8(k)) }

// UnmarshalText reads the word.
func (k *Kind) UnmarshalText(text []byte) error { return words.Into(&kindWords, text, k) }
