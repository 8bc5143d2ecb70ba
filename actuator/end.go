package actuator

import "github.com/indexrun/indexrun/internal/words"

// End is an end of the stem's travel as the actuator sees it. A push-to-close
// valve is closed with the stem extended, a push-to-open valve with the stem
// retracted; a rotary valve that closes clockwise counts as extended.
type End uint8

// The ends.
const (
	Extended  End = iota // pushed out, or turned fully clockwise; the zero value
	Retracted            // drawn in, or turned fully anticlockwise
)

var endWords = words.List{Package: packageName, Field: "End", Words: []string{Extended: "extended", Retracted: "retracted"}}

// String returns the word, such as "extended".
func (e End) String() string { return endWords.Text(uint8(e)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (e End) MarshalText() ([]byte, error) { return endWords.Marshal(uint8(e)) }

// UnmarshalText reads the word.
func (e *End) UnmarshalText(text []byte) error { return words.Into(&endWords, text, e) }
