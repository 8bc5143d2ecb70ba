package actuator

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// RotarySeat is what a rotary drive works against in a ball valve.
type RotarySeat struct {
	// Area is the area that the pressure presses onto the seat: its bore.
	Area units.Area
	// Radius is the lever arm of the friction on the seat; about the radius of
	// the ball.
	Radius units.Length
	// Friction is the coefficient of friction between ball and seat: 0.05 … 0.2 for
	// the usual plastic seats (from memory).
	Friction units.Ratio
	// Torque is what turns the ball without pressure: packing and preload. Take
	// the breakaway torque after a standstill, not the running torque.
	Torque units.Torque
}

// CloseOffRotary is CloseOff for a rotary drive on a ball valve: the pressure
// presses the ball onto its seat, and the drive turns it against the friction
// (Coulomb's law; moment of a force),
//
//	Δp = (torque − breakaway torque)/(µ·area·radius)
//
// It is the greatest pressure at which the drive still turns the ball. The torque
// of the drive must be stated. The spare torque is that without pressure; below
// zero the drive cannot turn the valve. Butterfly valves also meet a torque from
// the flow: take theirs from the maker's table.
func (a Actuator) CloseOffRotary(s RotarySeat) (RotaryCloseOff, error) {
	if err := a.checkRotarySeat(s); err != nil {
		return RotaryCloseOff{}, err
	}
	spare := a.cfg.Torque - s.Torque
	perPascal := float64(s.Friction) * float64(s.Area) * float64(s.Radius)
	return RotaryCloseOff{units.Pressure(max(0, float64(spare)) / perPascal), spare}, nil
}

// RotaryCloseOff is [CloseOff] for a rotary drive.
type RotaryCloseOff struct {
	Pressure units.Pressure // the greatest at which the drive turns the ball, 0 if none
	Spare    units.Torque   // beyond the breakaway torque, without pressure
}

func (a Actuator) checkRotarySeat(s RotarySeat) error {
	l := check.List{Package: packageName}
	l.Require(a.Rotary(), "RotarySeat", "a linear drive", "a rotary drive; use CloseOff")
	check.Positive(&l, "Actuator.Torque", a.cfg.Torque)
	check.Positive(&l, "RotarySeat.Area", s.Area)
	check.Positive(&l, "RotarySeat.Radius", s.Radius)
	check.Positive(&l, "RotarySeat.Friction", s.Friction)
	check.NotNegative(&l, "RotarySeat.Torque", s.Torque)
	return l.Err()
}
