package control

import (
	"math"
	"time"
)

// FinalElement is what stands between a controller's output and the valve's travel:
// [Modulating], [ThreePoint], [Thermal] or [Ideal].
//
// One whose motor does not move as the valve does, for a play between them, may also
// have the method Snapshot() of [Modulating]; a [Loop] then keeps the motor's travel.
type FinalElement interface {
	// Step lets time pass with an output of 0 … 1 (0 asks for a closed valve, 1 for
	// an open one) and returns the relative travel of the valve at the end. On a NaN output
	// the element does what it does without a command, and keeps nothing of it: the travel is
	// always 0 … 1.
	Step(dt time.Duration, output float64) (travel float64)
	// Settle puts the element where an output that has lasted for long leaves it, dead band,
	// resolution and play aside, and returns the relative travel there: the mean one, if
	// it ripples. A NaN changes nothing.
	Settle(output float64) (travel float64)
	// Delay returns by how much the travel is behind a step of the output from one value
	// to another on average (the area between the two over the height of the step): half
	// the way's time for a motor of constant speed. A tuning rule takes it for dead time. It
	// is zero where the delay is not known.
	Delay(from, to float64) time.Duration
}

var (
	_ FinalElement = (*Modulating)(nil)
	_ FinalElement = (*ThreePoint)(nil)
	_ FinalElement = (*Thermal)(nil)
	_ FinalElement = Ideal{}
)

// Ideal is a final element without delay or fault: the travel is the output, 0 … 1.
// It is for comparing with theory. It remembers nothing, and so is closed on a NaN.
type Ideal struct{}

// Step returns the output.
func (i Ideal) Step(_ time.Duration, output float64) (travel float64) { return i.Settle(output) }

// Settle returns the output.
func (Ideal) Settle(output float64) (travel float64) {
	if math.IsNaN(output) {
		return 0
	}
	return clamp(output, 0, 1)
}

// Delay returns zero.
func (Ideal) Delay(_, _ float64) time.Duration { return 0 }
