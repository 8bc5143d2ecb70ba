package valve

import "github.com/indexrun/indexrun/internal/words"

// Stem says how the closing element is moved.
type Stem uint8

// The kinds of stem. On a push-to-close valve the extended stem closes; on a
// push-to-open valve the extended stem opens and the valve's own spring closes.
// A rotary valve (ball, butterfly) turns through an angle in place of a stroke.
const (
	PushToClose Stem = iota
	PushToOpen
	Rotary
)

var stemWords = words.List{Package: packageName, Field: "Stem", Words: []string{"push-to-close", "push-to-open", "rotary"}}

// String returns the word of s, such as "push-to-close".
func (s Stem) String() string { return stemWords.Text(uint8(s)) }

// MarshalText returns the word of s.
func (s Stem) MarshalText() ([]byte, error) { return stemWords.Marshal(uint8(s)) }

// UnmarshalText reads the word of a stem.
func (s *Stem) UnmarshalText(text []byte) error {
	return words.Into(&stemWords, text, s)
}
