package signal

import (
	"slices"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// word returns the name of an enumerated value.
func word[E ~uint8](words []string, e E) string {
	if int(e) < len(words) {
		return words[e]
	}
	return "undeclared " + strconv.Itoa(int(e))
}

func marshalWord[E ~uint8](field string, words []string, e E) ([]byte, error) {
	if int(e) >= len(words) {
		return nil, fault(field, word(words, e), "one of "+strings.Join(words, ", "))
	}
	return []byte(words[e]), nil
}

func unmarshalWord[E ~uint8](field string, words []string, text []byte, e *E) error {
	i := slices.Index(words, string(text))
	if i < 0 {
		return fault(field, strconv.Quote(string(text)), "one of "+strings.Join(words, ", "))
	}
	*e = E(i)
	return nil
}

func fault(field, value, want string) error {
	return &units.FieldError{Package: "signal", Field: field, Value: value, Want: want}
}
