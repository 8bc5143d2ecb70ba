package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// signalSide is the controller's end of a response: how opening demands and
// signals correspond.
type signalSide struct {
	input   signal.Range
	falling bool // a rising signal closes
}

func signalSideOf(drive *actuator.Mounted) signalSide {
	act := drive.Actuator()
	return signalSide{act.Config().Input, !act.RisingOpens()}
}

// signalAt is the signal for an opening demand.
func (s *signalSide) signalAt(opening float64) signal.Signal {
	return s.input.Encode(s.turned(opening))
}

// openingOf is the opening demand of a signal.
func (s *signalSide) openingOf(sig signal.Signal) float64 {
	return s.turned(s.input.Read(sig).Demand)
}

// shareAt is the share of the full heat at an opening demand.
func (s *signalSide) shareAt(opening float64, heat func(signal.Signal) units.Power, full units.Power) float64 {
	if math.IsNaN(opening) {
		return opening
	}
	return float64(heat(s.signalAt(opening)) / full)
}

// openingFor is the inverse of shareAt: 0 for what leaks and less, NaN above 1.
func (s *signalSide) openingFor(share float64, signalFor func(units.Power) (signal.Signal, error), full units.Power) float64 {
	if share <= 0 {
		return 0
	}
	sig, err := signalFor(units.Power(share) * full)
	if err != nil {
		return math.NaN()
	}
	return s.openingOf(sig)
}

// turned makes a demand of an opening demand, and the reverse.
func (s *signalSide) turned(opening float64) float64 {
	if s.falling {
		return 1 - opening
	}
	return opening
}
