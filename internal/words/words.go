// Package words gives the enumerations of the module their texts: one word for
// each constant, the same in JSON, in CSV and on screen.
package words

import (
	"slices"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// List holds the words of one enumeration in the order of its constants.
type List struct {
	Package string // for error messages
	Field   string
	Words   []string
}

// Text returns the word of a constant, "unknown 7" for one that does not exist.
func (l *List) Text(i uint8) string {
	if int(i) < len(l.Words) {
		return l.Words[i]
	}
	return "unknown " + strconv.Itoa(int(i))
}

// Marshal is Text for constants that exist.
func (l *List) Marshal(i uint8) ([]byte, error) {
	if int(i) >= len(l.Words) {
		return nil, l.fault(l.Text(i))
	}
	return []byte(l.Words[i]), nil
}

// Parse returns the constant of a word; case does not matter, and spaces may
// stand for hyphens.
func (l *List) Parse(text []byte) (uint8, error) {
	word := strings.ReplaceAll(strings.TrimSpace(string(text)), " ", "-")
	i := slices.IndexFunc(l.Words, func(w string) bool { return strings.EqualFold(w, word) })
	if i < 0 {
		return 0, l.fault(strconv.Quote(string(text)))
	}
	return uint8(i), nil
}

// Into parses a word into an enumeration and leaves it alone if it is unknown.
func Into[E ~uint8](l *List, text []byte, e *E) error {
	i, err := l.Parse(text)
	if err == nil {
		*e = E(i)
	}
	return err
}

func (l *List) fault(value string) error {
	return &units.FieldError{Package: l.Package, Field: l.Field, Value: value, Want: "one of " + strings.Join(l.Words, ", ")}
}
