package actuator

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Mounted is a drive coupled to a valve and calibrated on it: the compiled law
// from signal to stem and back. It is an immutable value, safe for concurrent
// use; its methods do not fail or allocate. Make one with [Actuator.MountOn] or
// [Actuator.MountOnRotary]. The zero Mounted stays at zero travel.
type Mounted struct {
	kind      signal.Kind
	at0       float64 // the signal for a demand of 0
	perSignal float64 // demand per volt or milliamp
	toOpen    line    // demand → opening demand
	shape     shape   // opening demand → share of the drive's span
	base      float64 // the travel that the drive takes for closed
	scale     float64 // the drive's span as a share of the valve's stroke
	top       float64 // the travel at which the valve stops the stem
	toStem    line    // relative travel → extension
	place     *place  // never written after the mounting
}

// line is a + b·x, with a and b whole numbers that turn 0…1 over or leave it.
type line struct{ a, b float64 }

func (l *line) at(x float64) float64 { return l.a + float64(l.b*x) }

// over is its own inverse, as is straight.
var (
	straight = line{0, 1}
	over     = line{1, -1}
)

// place is where a drive is mounted: what the usual path from signal to stem
// does not touch.
type place struct {
	drive    Actuator
	stroke   units.Length // of the valve
	angle    units.Angle
	ratio    float64  // the drive's stroke or angle over the valve's
	floating fallback // for an open wire
	tooLow   fallback // for a signal below a live zero
}

var nowhere place

func (m *Mounted) at() *place {
	if m.place == nil {
		return &nowhere
	}
	return m.place
}

// mount compiles the law for a healthy valve.
func (a Actuator) mount(p place) Mounted {
	p.drive = a
	p.tooLow = a.belowLiveZero()
	p.floating = a.openWire(p.tooLow)
	at0, at1 := a.cfg.Input.Encode(0), a.cfg.Input.Encode(1)
	m := Mounted{
		kind: at0.Kind(), at0: at0.Number(), perSignal: 1 / (at1.Number() - at0.Number()),
		toOpen: over, shape: newShape(a.cfg.Shaping.orLinear().c), toStem: over, place: &p,
	}
	if a.RisingOpens() {
		m.toOpen = straight
	}
	if a.cfg.ClosingEnd == Retracted {
		m.toStem = straight
	}
	return m.between(0, 1)
}

// between sets the stops of the valve, as relative travel.
func (m Mounted) between(least, greatest float64) Mounted {
	m.base, m.top, m.scale = least, greatest, m.place.ratio
	if m.place.drive.cfg.StrokeMode == SelfAdapting {
		m.scale = min(m.scale, greatest-least)
	}
	return m
}

// Obstructed returns the drive calibrated on the same valve when its plug moves
// only between two relative travels: dirt on the seat stops it at least above 0,
// a seized stem at greatest below 1. It needs 0 ≤ least < greatest ≤ 1.
//
// A fixed drive takes the stop it finds for closed and counts from there; a
// self-adapting one spreads its signal over what is left and behaves as if all
// were well, but for the found travel.
func (m Mounted) Obstructed(least, greatest float64) (Mounted, error) {
	l := check.List{Package: packageName}
	l.Require(m.place != nil, "Mounted", "zero", "a drive mounted by MountOn or MountOnRotary")
	check.Within(&l, "Least", least, 0, 1)
	check.Within(&l, "Greatest", greatest, 0, 1)
	l.Require(!(least >= greatest), "Greatest", greatest, "more than the least travel")
	if err := l.Err(); err != nil {
		return Mounted{}, err
	}
	return m.between(least, greatest), nil
}

// Actuator returns the drive that is mounted.
func (m *Mounted) Actuator() Actuator { return m.at().drive }

// Stroke returns the valve's stroke, 0 for a rotary valve.
func (m *Mounted) Stroke() units.Length { return m.at().stroke }

// Angle returns the angle that the valve turns through, 0 for a linear valve.
func (m *Mounted) Angle() units.Angle { return m.at().angle }

// GreatestTravel returns the relative travel of the valve at an opening demand
// of 1: less than 1 if the stroke set is shorter than the valve's.
func (m *Mounted) GreatestTravel() float64 { return m.travel(1) }

// LeastTravel returns the relative travel at an opening demand of 0: 0 unless
// the valve is obstructed.
func (m *Mounted) LeastTravel() float64 { return m.travel(0) }

// travel is the relative travel for a share of the drive's span.
func (m *Mounted) travel(shaped float64) float64 {
	h := m.base + float64(m.scale*shaped)
	if h > m.top {
		return m.top
	}
	return h
}

// span is the inverse of travel; it may lie outside 0 … 1.
func (m *Mounted) span(travel float64) float64 { return (travel - m.base) / m.scale }

// Equal reports whether two drives are set alike and mounted alike.
func (m Mounted) Equal(n Mounted) bool {
	p, q := m.at(), n.at()
	return p.drive.Equal(q.drive) && p.stroke == q.stroke && p.angle == q.angle && m.base == n.base && m.top == n.top
}
