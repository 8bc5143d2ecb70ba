package schedule

import "github.com/indexrun/indexrun/internal/words"

// Wish is what a unit's valve should do when something fails.
type Wish uint8

// The wishes.
const (
	AnyPosition Wish = iota
	WantOpen
	WantClosed
	WantHold
	lastWish = WantHold
)

var wishWords = words.List{Package: packageName, Field: "position", Words: []string{"any", "open", "closed", "hold"}}

// String returns the word for the wish.
func (w Wish) String() string { return wishWords.Text(uint8(w)) }

// MarshalText returns the word for the wish.
func (w Wish) MarshalText() ([]byte, error) { return wishWords.Marshal(uint8(w)) }

// UnmarshalText reads the word.
func (w *Wish) UnmarshalText(text []byte) error { return words.Into(&wishWords, text, w) }
