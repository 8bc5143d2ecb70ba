package wiring

import "errors"

// ErrOverload is the error of a network without a solution: constant powers or
// currents so great, or a cable so long, that no voltage is left for them.
var ErrOverload = errors.New("wiring: no solution: the cable cannot carry this power at any voltage; a thicker or shorter one, or fewer loads on it")

// ErrUnreachable is the error of a wish that cannot be met: limits that are broken
// already by a cable of no length, or by the best of the conductors.
var ErrUnreachable = errors.New("wiring: limits cannot be met")

const packageName = "wiring"
