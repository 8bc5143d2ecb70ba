package actuator

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Seat is what a linear drive works against in a valve with a plug. All forces
// are amounts, zero or more.
type Seat struct {
	// Area is the area that the pressure acts on when the valve is shut: the seat
	// bore for a plain plug, what is left unbalanced for a balanced one.
	Area units.Area
	// Friction is that of the stem packing, which opposes every movement.
	Friction units.Force
	// Spring is the force of the valve's own spring with the valve shut. It opens
	// a push-to-close valve and closes a push-to-open valve; 0 = no spring.
	Spring units.Force
	// SpringOpen is that force with the valve open; 0 = as Spring. It counts on
	// push-to-open valves, where the open end is the spring's stiffest.
	SpringOpen units.Force
}

// CloseOff is how tightly a valve shuts, with the pressure under the plug
// (flow to open), and whether the drive can move it at all.
type CloseOff struct {
	// Pressure is the greatest differential pressure that the valve still shuts
	// against, 0 if it does not shut at all. Compare it with the pump's shut-off
	// pressure, not with the pressure at design flow.
	Pressure units.Pressure
	// Spare is what the drive has left, at the hardest point of the stroke
	// without pressure, beyond spring and friction; below zero it cannot make the
	// stroke.
	Spare units.Force
}

// CloseOff returns the greatest pressure that the drive, or on a push-to-open
// valve the valve's spring, shuts against (balance of forces on the plug, flow to
// open):
//
//	push-to-close  Δp = (force − spring − friction)/area    spare = force − spring − friction
//	push-to-open   Δp = (spring − friction)/area            spare = force − spring open − friction
//
// The force of the drive must be stated, and the drive must be linear. A drive on
// a push-to-open valve only pushes; that it could pull is not counted on.
func (a Actuator) CloseOff(s Seat) (CloseOff, error) {
	if err := a.checkSeat(s); err != nil {
		return CloseOff{}, err
	}
	if s.SpringOpen == 0 {
		s.SpringOpen = s.Spring
	}
	if a.cfg.ClosingEnd == Extended {
		spare := a.cfg.Force - s.Spring - s.Friction
		return CloseOff{max(0, spare).Over(s.Area), spare}, nil
	}
	return CloseOff{
		Pressure: max(0, s.Spring-s.Friction).Over(s.Area),
		Spare:    a.cfg.Force - s.SpringOpen - s.Friction,
	}, nil
}

func (a Actuator) checkSeat(s Seat) error {
	l := check.List{Package: packageName}
	l.Require(!a.Rotary(), "Seat", "a rotary drive", "a linear drive; use CloseOffRotary")
	check.Positive(&l, "Actuator.Force", a.cfg.Force)
	check.Positive(&l, "Seat.Area", s.Area)
	check.NotNegative(&l, "Seat.Friction", s.Friction)
	check.NotNegative(&l, "Seat.Spring", s.Spring)
	check.NotNegative(&l, "Seat.SpringOpen", s.SpringOpen)
	return l.Err()
}
