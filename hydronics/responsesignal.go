package hydronics

import (
	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
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

// turned makes a demand of an opening demand, and the reverse.
func (s *signalSide) turned(opening float64) float64 {
	if s.falling {
		return 1 - opening
	}
	return opening
}
