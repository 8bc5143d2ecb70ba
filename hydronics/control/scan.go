package control

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// scan walks up the frequencies in cells that are narrow against everything that
// shapes the loop and refines what it finds in a cell.
type scan struct {
	l *loopTransfer

	encircled int     // net turns around −1: 0 if the closed loop is stable
	gain      float64 // least gain margin above 1
	gainBelow float64 // least gain margin below 1
	phase     float64 // phase margin of a stable loop
	extra     float64 // least dead time that may be added, s
	worst     float64 // greatest sensitivity
	crossed   point   // where the size last passed 1
	last      point   // where the scan ended
}

const (
	cellRatio = 1.02 // width of a cell on the low side
	cellTurn  = 0.03 // and its greatest share of the dead time's phase, radians
	mostCells = 1 << 20
)

func (l *loopTransfer) scan() scan {
	inf := math.Inf(1)
	s := scan{l: l, gain: inf, gainBelow: 1, phase: inf, extra: inf}
	before := l.at(l.lowest())
	here := l.at(s.next(before.w))
	s.worst = math.Max(before.sensitivity(), here.sensitivity())
	s.cell(before, here)
	for range mostCells {
		after := l.at(s.next(here.w))
		s.cell(here, after)
		if x := here.sensitivity(); x > before.sensitivity() && x >= after.sensitivity() {
			s.peak(before.w, after.w)
		}
		before, here = here, after
		if s.done(here) {
			break
		}
	}
	s.last = here
	return s
}

func (s *scan) next(w float64) float64 {
	return math.Min(w*cellRatio, w+cellTurn/s.l.dead)
}

// done reports whether nothing above this frequency can change what was found: the
// loop is unstable for good and stays smaller than at its worst crossing, or it stays too small
// to come nearer to −1 than it was.
func (s *scan) done(p point) bool {
	top := s.l.ceiling(p.w)
	if s.encircled > 0 && s.l.onlyFalls(p.w) && top*s.gainBelow <= 1 {
		return true
	}
	return top < 1 && top*s.gain < 1 && 1/(1-top) < s.worst
}

// cell looks for crossings between two neighbouring frequencies.
func (s *scan) cell(a, b point) {
	if (a.size > 1) != (b.size > 1) {
		s.gainCrossing(s.l.bisect(a, b, func(p point) bool { return (p.size > 1) == (a.size > 1) }))
	}
	if turn := b.turns() - a.turns(); turn != 0 {
		s.phaseCrossing(s.l.bisect(a, b, func(p point) bool { return p.turns() == a.turns() }), turn)
	}
}

// gainCrossing notes how far the phase is from the nearest of −π, −3π …, and which
// dead time would turn it there.
func (s *scan) gainCrossing(p point) {
	s.crossed = p
	left := math.Mod(math.Pi+p.phase, 2*math.Pi)
	if left < 0 {
		left += 2 * math.Pi
	}
	s.phase = math.Min(s.phase, math.Min(left, 2*math.Pi-left))
	s.extra = math.Min(s.extra, left/p.w)
}

func (s *scan) phaseCrossing(p point, turn int) {
	if p.size > 1 {
		s.encircled += turn
		s.gainBelow = math.Min(s.gainBelow, 1/p.size)
	} else {
		s.gain = math.Min(s.gain, 1/p.size)
	}
}

// peak refines a local maximum of the sensitivity by golden sections.
func (s *scan) peak(low, high float64) {
	const golden = 0.6180339887498949
	for range 50 {
		width := float64(golden * (high - low))
		left, right := s.l.at(high-width).sensitivity(), s.l.at(low+width).sensitivity()
		s.worst = math.Max(s.worst, math.Max(left, right))
		if left > right {
			high = low + width
		} else {
			low = high - width
		}
	}
}

// bisect returns the last point on a's side of a change between two points.
func (l *loopTransfer) bisect(a, b point, sameSide func(point) bool) point {
	for range 60 {
		middle := l.at(a.w + (b.w-a.w)/2)
		if sameSide(middle) {
			a = middle
		} else {
			b = middle
		}
	}
	return a
}

func (s *scan) margins() Margins {
	if s.encircled != 0 {
		return Margins{Gain: s.gainBelow, Phase: s.phaseShort(), Sensitivity: math.Inf(1)}
	}
	m := Margins{Stable: true, Gain: s.gain, Phase: units.Angle(s.phase), Sensitivity: s.worst, DeadTime: math.MaxInt64}
	if !math.IsInf(s.extra, 1) {
		m.DeadTime = duration(s.extra)
	}
	return m
}

// phaseShort is the phase margin of an unstable loop, below zero: where the size
// falls through 1 for the last time.
func (s *scan) phaseShort() units.Angle {
	a := s.last
	if !(a.size > 1) {
		return units.Angle(math.Pi + s.crossed.phase)
	}
	b := a
	for b.size > 1 {
		b = s.l.at(2 * b.w)
	}
	a = s.l.bisect(a, b, func(p point) bool { return p.size > 1 })
	return units.Angle(math.Pi + a.phase)
}
