package valve

import "github.com/indexrun/indexrun/internal/words"

// Side names one of the two circuits of a change-over valve.
type Side uint8

// The sides. The first circuit is open at the start of the rotation, the second
// at its end; between them neither is.
const (
	NeitherSide Side = iota
	FirstSide
	SecondSide
)

var sideWords = words.List{Package: packageName, Field: "Side", Words: []string{"neither", "first", "second"}}

// String returns the word of s, such as "first".
func (s Side) String() string { return sideWords.Text(uint8(s)) }

// MarshalText returns the word of s.
func (s Side) MarshalText() ([]byte, error) { return sideWords.Marshal(uint8(s)) }

// UnmarshalText reads the word of a side.
func (s *Side) UnmarshalText(text []byte) error { return words.Into(&sideWords, text, s) }
