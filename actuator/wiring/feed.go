package wiring

import "github.com/indexrun/indexrun/internal/words"

// Feed says where a device gets its signal from.
type Feed uint8

// The feeds.
const (
	SharedSignal Feed = iota // from the one conductor that all such devices share; the zero value
	OwnSignal                // from an output and a conductor of its own
	NoSignal                 // from nowhere: it only loads the supply
)

var feedWords = words.List{Package: packageName, Field: "feed", Words: []string{
	SharedSignal: "shared-signal", OwnSignal: "own-signal", NoSignal: "no-signal",
}}

// String returns the word, such as "shared-signal".
func (f Feed) String() string { return feedWords.Text(uint8(f)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (f Feed) MarshalText() ([]byte, error) { return feedWords.Marshal(uint8(f)) }

// UnmarshalText reads the word.
func (f *Feed) UnmarshalText(text []byte) error { return words.Into(&feedWords, text, f) }
