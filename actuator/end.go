package actuator

// End is an end of the stem's travel as the actuator sees it. A push-to-close
// valve is closed with the stem extended, a push-to-open valve with the stem
// retracted; a rotary valve that closes clockwise counts as extended.
type End uint8

// The ends.
const (
	Extended  End = iota // pushed out, or turned fully clockwise; the zero value
	Retracted            // drawn in, or turned fully anticlockwise
)

var endWords = words{Extended: "extended", Retracted: "retracted"}

// String returns the word, such as "extended".
func (e End) String() string { return endWords.text(uint8(e)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (e End) MarshalText() ([]byte, error) { return endWords.marshal("End", uint8(e)) }

// UnmarshalText reads the word.
func (e *End) UnmarshalText(text []byte) error {
	i, err := endWords.parse("End", text)
	if err == nil {
		*e = End(i)
	}
	return err
}
