package actuator

import "github.com/indexrun/indexrun/signal"

// Position is where a mounted drive goes on a signal, step by step in the order
// of the maths. All steps are fractions.
type Position struct {
	// Status is what the input range makes of the signal.
	Status signal.Status
	// Held reports that the drive stays where it is, because it is set to do so
	// without a valid signal. The signal then does not tell the position, and
	// the fractions below are all 0 and mean nothing.
	Held bool

	Demand    float64 // the signal as a fraction of the input range, 0 … 1, or what the drive puts in its place
	Opening   float64 // the opening demand: 0 closed, 1 open
	Shaped    float64 // after the shaping: share of the drive's span, counted from the closed end
	Travel    float64 // relative travel of the valve: 0 closed, 1 open
	Extension float64 // how far the stem is out, as a fraction of the valve's stroke
}
