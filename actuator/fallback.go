package actuator

import (
	"math"

	"github.com/indexrun/indexrun/signal"
)

// fallback is what a drive does without a valid signal.
type fallback struct {
	demand float64
	held   bool
}

// belowLiveZero compiles the behaviour of a signal that fails below a live zero.
func (a Actuator) belowLiveZero() fallback {
	switch a.cfg.BelowLiveZero {
	case HoldBelowLiveZero:
		return fallback{held: true}
	case ToExtended:
		return fallback{demand: a.demandTowards(Extended)}
	case ToRetracted:
		return fallback{demand: a.demandTowards(Retracted)}
	}
	return fallback{demand: a.cfg.Input.Read(a.cfg.Input.Low()).Demand}
}

// openWire compiles the behaviour of a floating input.
func (a Actuator) openWire(tooLow fallback) fallback {
	switch {
	case a.cfg.OpenWire == HoldOnOpenWire:
		return fallback{held: true}
	case a.cfg.OpenWire == AsFullSignal:
		return fallback{demand: a.cfg.Input.Read(a.cfg.Input.High()).Demand}
	case a.cfg.Input.LiveZero():
		return tooLow
	}
	return fallback{demand: a.cfg.Input.Read(a.cfg.Input.Low()).Demand}
}

// demandTowards returns the demand that brings the stem to an end.
func (a Actuator) demandTowards(e End) float64 {
	if (e == Extended) == (a.cfg.Action == Direct) {
		return 1
	}
	return 0
}

// beyond decodes a signal that is not between the ends of the range.
func (m *Mounted) beyond(s signal.Signal) (status signal.Status, demand float64, held bool) {
	p := m.at()
	r := p.drive.cfg.Input.Read(s)
	f := fallback{demand: r.Demand}
	switch {
	case r.Status == signal.NoSignal || r.Status == signal.WrongKind || math.IsNaN(s.Number()):
		f = p.floating
	case r.Status == signal.Failed && p.drive.cfg.belowLiveZero(s):
		f = p.tooLow
	}
	return r.Status, f.demand, f.held
}

// belowLiveZero reports whether a failed signal failed by being too low for a
// live zero.
func (c *Config) belowLiveZero(s signal.Signal) bool {
	return c.Input.LiveZero() && s.Number() < c.Input.Low().Number()
}
