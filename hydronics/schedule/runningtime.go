package schedule

import (
	"strconv"
	"strings"
	"time"

	"github.com/indexrun/indexrun/units"
)

// RunningTime is a time.Duration that is text in JSON, such as "75s".
type RunningTime time.Duration

// String returns the time in Go's notation, such as "1m15s".
func (t RunningTime) String() string { return time.Duration(t).String() }

// MarshalText is String.
func (t RunningTime) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText reads Go's notation, with or without spaces: "75 s", "1m15s".
func (t *RunningTime) UnmarshalText(text []byte) error {
	d, err := time.ParseDuration(strings.ReplaceAll(string(text), " ", ""))
	if err != nil {
		return &units.FieldError{Package: packageName, Field: "running time", Value: strconv.Quote(string(text)), Want: `a time such as "75s" or "2m"`}
	}
	*t = RunningTime(d)
	return nil
}
