package wiring

import "github.com/indexrun/indexrun/internal/words"

// Common says through which conductor the signal returns.
type Common uint8

// The commons.
const (
	// SharedCommon is the return of the supply, on which the common of the controller
	// sits as well; the zero value.
	SharedCommon Common = iota
	// SeparateCommon is a conductor of its own for the signals. The devices must keep it
	// apart from the return of the supply inside.
	SeparateCommon
)

var commonWords = words.List{Package: packageName, Field: "common", Words: []string{
	SharedCommon: "shared", SeparateCommon: "separate",
}}

// String returns the word, such as "shared".
func (c Common) String() string { return commonWords.Text(uint8(c)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (c Common) MarshalText() ([]byte, error) { return commonWords.Marshal(uint8(c)) }

// UnmarshalText reads the word.
func (c *Common) UnmarshalText(text []byte) error { return words.Into(&commonWords, text, c) }
