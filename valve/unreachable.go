package valve

import (
	"errors"
	"fmt"

	"github.com/indexrun/indexrun/units"
)

const packageName = "valve"

// ErrUnreachable is what an [UnreachableError] unwraps to: a flow that the
// valve cannot give as it is, at that pressure.
var ErrUnreachable = errors.New("flow cannot be reached")

// UnreachableError says which flow was wanted and between which the valve can
// be: at the pressure asked about, or among its settings.
type UnreachableError struct {
	Wanted          units.Flow
	Least, Greatest units.Flow
}

// Error returns the flow wanted and the limits.
func (e *UnreachableError) Error() string {
	return fmt.Sprintf("valve: %v cannot be reached: least %v, greatest %v", e.Wanted, e.Least, e.Greatest)
}

// Unwrap returns [ErrUnreachable].
func (e *UnreachableError) Unwrap() error { return ErrUnreachable }
