package control

import "time"

// FinalElement is what stands between a controller's output and the valve's travel:
// [Modulating], [ThreePoint], [Thermal] or [Ideal].
type FinalElement interface {
	// Step lets time pass with an output of 0 … 1 (0 asks for a closed valve, 1 for
	// an open one) and returns the relative travel of the valve at the end. On a NaN output
	// the element does what it does without a command.
	Step(dt time.Duration, output float64) (travel float64)
}

var (
	_ FinalElement = (*Modulating)(nil)
	_ FinalElement = (*ThreePoint)(nil)
	_ FinalElement = (*Thermal)(nil)
	_ FinalElement = Ideal{}
)

// Ideal is a final element without delay or fault: the travel is the output, 0 … 1.
// It is for comparing with theory.
type Ideal struct{}

// Step returns the output.
func (Ideal) Step(_ time.Duration, output float64) (travel float64) { return clamp(output, 0, 1) }
