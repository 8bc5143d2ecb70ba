package actuator

import (
	"math"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Respond returns where the drive goes on a signal, in the order
//
//	signal → demand → opening demand → shaping → relative travel → stem extension
//
// A signal somewhat out of range is clamped. Without a valid signal the drive
// does what it is set to do, and the Status says why: an open wire by the
// OpenWire setting, a signal failed below a live zero by the BelowLiveZero
// setting. A signal failed otherwise saturates the input; one of the wrong kind
// (milliamps on a voltage input) or NaN leaves nothing to read and counts as an
// open wire. These last two are conventions of this package.
func (m *Mounted) Respond(s signal.Signal) (p Position) {
	m.RespondTo(s, &p)
	return p
}

// RespondTo is [Mounted.Respond] into a Position of the caller's. It is for hot
// paths, where copying a Position takes as long as the law.
func (m *Mounted) RespondTo(s signal.Signal, p *Position) {
	demand, plain := m.decode(s)
	p.Status, p.Held = signal.InRange, false
	if !plain {
		status, clamped, held := m.beyond(s)
		if held {
			*p = Position{Status: status, Held: true}
			return
		}
		p.Status, demand = status, clamped
	}
	p.Demand = demand
	p.Opening = m.toOpen.at(demand)
	p.Shaped = m.shape.at(p.Opening)
	p.Travel = m.travel(p.Shaped)
	p.Extension = m.toStem.at(p.Travel)
}

// Travel is the shorthand of [Mounted.Respond] for the relative travel of the
// valve, a little quicker. It is false if the drive is held, so that the signal
// does not tell the travel.
func (m *Mounted) Travel(s signal.Signal) (travel float64, ok bool) {
	demand, plain := m.decode(s)
	if !plain {
		var held bool
		if _, demand, held = m.beyond(s); held {
			return 0, false
		}
	}
	return m.travel(m.shape.at(m.toOpen.at(demand))), true
}

// decode is the common case of [signal.Range.Read], a signal between the ends of
// the range. It is repeated here in two operations because a call with a Range
// by value takes as long as the rest of the path.
func (m *Mounted) decode(s signal.Signal) (demand float64, plain bool) {
	demand = float64((s.Number() - m.at0) * m.perSignal)
	return demand, demand > 0 && demand < 1 && s.Kind() == m.kind
}

// SignalFor returns the signal that brings the valve to a relative travel, to
// within 1e-12 of it on the usual ranges, and true. If the drive cannot bring it
// there the result is the signal that comes nearest, and false; for NaN it is no
// signal and false. Where a part of the signal does nothing, the result is the
// end of that part at which the stem begins to move.
func (m *Mounted) SignalFor(travel float64) (signal.Signal, bool) {
	if math.IsNaN(travel) || m.place == nil {
		return signal.Signal{}, false
	}
	least, greatest := m.LeastTravel(), m.GreatestTravel()
	nearest := max(least, min(travel, greatest))
	opening := m.shape.curve.Inverse(m.span(nearest))
	return m.place.drive.cfg.Input.Encode(m.toOpen.at(opening)), math.Abs(nearest-travel) <= travelTolerance
}

// travelTolerance is within what a travel counts as reached.
const travelTolerance = 1e-12

// SignalForStem is SignalFor with the stem's place in millimetres, counted out
// from the valve's retracted end. It is false on a rotary valve.
func (m *Mounted) SignalForStem(out units.Length) (signal.Signal, bool) {
	return m.signalForExtension(float64(out / m.Stroke()))
}

// SignalForTurn is SignalFor with the place of a rotary valve, counted clockwise.
// It is false on a linear valve.
func (m *Mounted) SignalForTurn(clockwise units.Angle) (signal.Signal, bool) {
	return m.signalForExtension(float64(clockwise / m.Angle()))
}

func (m *Mounted) signalForExtension(extension float64) (signal.Signal, bool) {
	return m.SignalFor(m.toStem.at(extension)) // a line that turns over is its own inverse
}

// Stem returns how far the stem is out of the valve's retracted end at a
// position that is not held, 0 on a rotary valve.
func (m *Mounted) Stem(p Position) units.Length { return units.Length(p.Extension) * m.Stroke() }

// Turn returns how far a rotary valve is turned clockwise at a position, 0 on a
// linear valve.
func (m *Mounted) Turn(p Position) units.Angle { return units.Angle(p.Extension) * m.Angle() }
