// Package check collects the faults of a configuration, so that a constructor
// reports all of them at once, each as a *units.FieldError.
package check

import (
	"errors"
	"fmt"
	"math"

	"github.com/indexrun/indexrun/units"
)

// List collects faults for one package. The zero List with Package set is
// ready to use.
type List struct {
	Package string
	faults  []error
}

// Err returns all faults joined, or nil.
func (l *List) Err() error { return errors.Join(l.faults...) }

// Add records a fault as it is; nil is ignored.
func (l *List) Add(err error) {
	if err != nil {
		l.faults = append(l.faults, err)
	}
}

// Fault records a value that was refused and the rule it broke.
func (l *List) Fault(field string, value any, want string) {
	l.Add(&units.FieldError{Package: l.Package, Field: field, Value: fmt.Sprint(value), Want: want})
}

// Require records a fault unless ok, and returns ok. On a hot path, where value
// or want must be made first, test the condition and call Fault instead.
func (l *List) Require(ok bool, field string, value any, want string) bool {
	if !ok {
		l.Fault(field, value, want)
	}
	return ok
}

// Positive requires a finite value above zero.
func Positive[Q ~float64](l *List, field string, v Q) bool {
	if v > 0 && !math.IsInf(float64(v), 0) {
		return true
	}
	l.Fault(field, v, "a finite value above zero")
	return false
}

// NotNegative requires a finite value of zero or more.
func NotNegative[Q ~float64](l *List, field string, v Q) bool {
	if v >= 0 && !math.IsInf(float64(v), 0) {
		return true
	}
	l.Fault(field, v, "a finite value of zero or more")
	return false
}

// Within requires lo ≤ v ≤ hi.
func Within[Q ~float64](l *List, field string, v, lo, hi Q) bool {
	if v >= lo && v <= hi {
		return true
	}
	l.Fault(field, v, fmt.Sprintf("%v … %v", lo, hi))
	return false
}

// Enum requires one of the declared constants 0 … last.
func Enum[E ~uint8](l *List, field string, v, last E) bool {
	if v <= last {
		return true
	}
	l.Fault(field, uint8(v), fmt.Sprintf("one of the constants of %T", v))
	return false
}
