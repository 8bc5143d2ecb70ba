package schedule

import (
	"strconv"
	"strings"
)

// A Reason says why something was chosen. It is put into words only when it is
// asked for, so that a plan of many units costs nothing for it.
type Reason struct {
	pattern string // {0} … {4} stand for the values
	values  [5]Value
}

// String returns the reason in words.
func (r Reason) String() string {
	if r.pattern == "" {
		return ""
	}
	pairs := make([]string, 0, 2*len(r.values))
	for i, v := range r.values {
		pairs = append(pairs, "{"+strconv.Itoa(i)+"}", v.String())
	}
	return strings.NewReplacer(pairs...).Replace(r.pattern)
}

// MarshalText returns the reason in words.
func (r Reason) MarshalText() ([]byte, error) { return []byte(r.String()), nil }
