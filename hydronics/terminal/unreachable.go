package terminal

import (
	"errors"
	"fmt"

	"github.com/indexrun/indexrun/units"
)

// ErrUnreachable is what [UnreachableError] and [UnreachableReturnError] unwrap
// to: a heat or a return that no flow of water gives at those conditions.
var ErrUnreachable = errors.New("cannot be reached by any flow")

// UnreachableError says which heat was wanted and what limits it: heat rises
// towards Limit with the flow but never reaches it.
type UnreachableError struct {
	Wanted units.Power
	Limit  units.Power // at an infinite flow; negative if the conditions turn the heat round
}

// Error returns the heat wanted and the limit.
func (e *UnreachableError) Error() string {
	return fmt.Sprintf("terminal: %v cannot be reached: an infinite flow gives %v", e.Wanted, e.Limit)
}

// Unwrap returns [ErrUnreachable].
func (e *UnreachableError) Unwrap() error { return ErrUnreachable }

// UnreachableReturnError says which return was wanted and what limits it: it goes
// from Air to Supply as the flow rises but never reaches Supply.
type UnreachableReturnError struct {
	Wanted, Supply, Air units.Temperature
}

// Error returns the return wanted and its limits.
func (e *UnreachableReturnError) Error() string {
	return fmt.Sprintf("terminal: a return of %v cannot be reached: it lies between air of %v and a supply of %v", e.Wanted, e.Air, e.Supply)
}

// Unwrap returns [ErrUnreachable].
func (e *UnreachableReturnError) Unwrap() error { return ErrUnreachable }
