package terminal

import (
	"errors"
	"fmt"

	"github.com/indexrun/indexrun/units"
)

// ErrUnreachable is what an [UnreachableError] unwraps to: a heat that no flow
// of water gives at those conditions.
var ErrUnreachable = errors.New("heat cannot be reached")

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
