package actuator

import (
	"fmt"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Actuator is a drive as it is set, on no valve yet. It is an immutable value
// made by [New]; the zero Actuator cannot be mounted.
type Actuator struct{ cfg Config }

// New checks the configuration and returns the actuator. The error joins every
// fault, each a *units.FieldError that unwraps to units.ErrInvalid.
func New(cfg Config) (Actuator, error) {
	if err := cfg.validate(); err != nil {
		return Actuator{}, err
	}
	return Actuator{cfg}, nil
}

// Config returns the configuration that the actuator was made from.
func (a Actuator) Config() Config { return a.cfg }

// Equal reports whether two actuators are set alike.
func (a Actuator) Equal(b Actuator) bool {
	same := a.cfg.Shaping.Equal(b.cfg.Shaping)
	a.cfg.Shaping, b.cfg.Shaping = Shaping{}, Shaping{}
	return same && a.cfg == b.cfg
}

// Rotary reports whether the drive turns instead of pushing.
func (a Actuator) Rotary() bool { return a.cfg.Angle != 0 }

// RisingOpens reports whether a rising demand opens the valve: the action
// moves the stem away from the closing end. With an inverse input range a
// rising demand is a falling voltage or current.
func (a Actuator) RisingOpens() bool {
	return (a.cfg.Action == Direct) == (a.cfg.ClosingEnd == Retracted)
}

// MountOn returns the drive on a valve of that stroke, coupled, calibrated and
// free to move: the law from signal to stem. The valve's stroke must lie within a
// factor of ten of the drive's. It is an error on a rotary drive.
func (a Actuator) MountOn(stroke units.Length) (Mounted, error) {
	l := check.List{Package: packageName}
	if l.Require(!a.Rotary(), "Stroke", stroke, "an angle, since the drive is rotary: use MountOnRotary") {
		checkRatio(&l, "Stroke", a.cfg.Stroke, stroke)
	}
	if err := l.Err(); err != nil {
		return Mounted{}, err
	}
	return a.mount(place{stroke: stroke, ratio: float64(a.cfg.Stroke / stroke)}), nil
}

// MountOnRotary is MountOn for a rotary drive and a valve that turns through
// that angle.
func (a Actuator) MountOnRotary(angle units.Angle) (Mounted, error) {
	l := check.List{Package: packageName}
	if l.Require(a.Rotary(), "Angle", angle, "a stroke, since the drive is linear: use MountOn") {
		checkRatio(&l, "Angle", a.cfg.Angle, angle)
	}
	if err := l.Err(); err != nil {
		return Mounted{}, err
	}
	return a.mount(place{angle: angle, ratio: float64(a.cfg.Angle / angle)}), nil
}

// checkRatio refuses a valve that no drive of this size is ever mounted on; more
// often than not its stroke was given in the wrong unit.
func checkRatio[Q ~float64](l *check.List, field string, own, valves Q) {
	const factor = 10
	if !(valves >= own/factor && valves <= own*factor && valves > 0) {
		l.Fault(field, valves, fmt.Sprintf("a value within a factor of %d of the drive's own, %v", factor, own))
	}
}
