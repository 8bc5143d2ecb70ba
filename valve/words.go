package valve

import (
	"slices"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// words are the names of the constants of an enumeration, in order.
type words []string

func (w words) text(i uint8) string {
	if int(i) >= len(w) {
		return "unknown " + strconv.Itoa(int(i))
	}
	return w[i]
}

func (w words) marshal(field string, i uint8) ([]byte, error) {
	if int(i) >= len(w) {
		return nil, w.fault(field, strconv.Itoa(int(i)))
	}
	return []byte(w[i]), nil
}

func (w words) unmarshal(field string, text []byte, to *uint8) error {
	if i := slices.Index(w, string(text)); i >= 0 {
		*to = uint8(i)
		return nil
	}
	return w.fault(field, strconv.Quote(string(text)))
}

func (w words) fault(field, value string) error {
	return &units.FieldError{Package: "valve", Field: field, Value: value, Want: "one of " + strings.Join(w, ", ")}
}
