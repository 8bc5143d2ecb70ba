package units

import (
	"errors"
	"fmt"
)

// ErrInvalid is what every [FieldError] of this module unwraps to: a
// configuration or a piece of text that cannot be used as it stands.
var ErrInvalid = errors.New("invalid value")

// A FieldError says which value was refused, where, and what would have been
// accepted. All packages of the module report bad input with this one type, so
// that a caller needs a single errors.As; several faults come joined
// (errors.Join) in one error.
type FieldError struct {
	Package string // the package that refused the value, such as "valve"
	Field   string // the field or quantity, such as "Settings[2].Flow"
	Value   string // the value as it was given
	Want    string // what was expected
}

// Error returns "package: field: got value, want rule".
func (e *FieldError) Error() string {
	return fmt.Sprintf("%s: %s: got %s, want %s", e.Package, e.Field, e.Value, e.Want)
}

// Unwrap returns [ErrInvalid].
func (e *FieldError) Unwrap() error { return ErrInvalid }
