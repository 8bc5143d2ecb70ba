package actuator

import (
	"slices"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// words are the texts of an enumeration, in the order of its constants.
type words []string

// text returns the word of a constant, or the number of one that does not
// exist.
func (w words) text(i uint8) string {
	if int(i) < len(w) {
		return w[i]
	}
	return strconv.Itoa(int(i))
}

// marshal is text for constants that exist.
func (w words) marshal(field string, i uint8) ([]byte, error) {
	if int(i) >= len(w) {
		return nil, fault(field, strconv.Itoa(int(i)), w.rule())
	}
	return []byte(w[i]), nil
}

// parse is the inverse of marshal.
func (w words) parse(field string, text []byte) (uint8, error) {
	i := slices.Index(w, string(text))
	if i < 0 {
		return 0, fault(field, strconv.Quote(string(text)), w.rule())
	}
	return uint8(i), nil
}

func (w words) rule() string { return "one of " + strings.Join(w, ", ") }

const packageName = "actuator"

func fault(field, value, want string) error {
	return &units.FieldError{Package: packageName, Field: field, Value: value, Want: want}
}
