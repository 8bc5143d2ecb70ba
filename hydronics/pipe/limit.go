package pipe

import "github.com/indexrun/indexrun/internal/words"

// Limit names a limit of a [SizingConfig]. It marshals as text, such as
// "velocity".
type Limit uint8

// The limits.
const (
	NoLimit       Limit = iota // none
	GradientLimit              // the pressure gradient, MaxGradient
	VelocityLimit              // the velocity, MaxVelocity
)

var limitWords = words.List{Package: "pipe", Field: "Limit", Words: []string{"none", "gradient", "velocity"}}

// String returns the word: none, gradient or velocity.
func (l Limit) String() string { return limitWords.Text(uint8(l)) }

// MarshalText returns the word; a value that is no limit is an error.
func (l Limit) MarshalText() ([]byte, error) { return limitWords.Marshal(uint8(l)) }

// UnmarshalText reads the word.
func (l *Limit) UnmarshalText(text []byte) error { return words.Into(&limitWords, text, l) }
