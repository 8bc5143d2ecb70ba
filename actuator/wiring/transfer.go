package wiring

import (
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Transfer is what a line makes of a voltage signal,
//
//	seen = gain·sent + offset
//
// with a gain of more than 0 and up to 1. Get it from [Chain.Transfer] or [NewDivider];
// [Transfer.WriteText] prints it with the caution.
// Transfers are immutable, comparable values; the zero Transfer alters nothing.
type Transfer struct{ loss, offset float64 }

// Gain returns the share of a change at the controller that arrives.
func (t Transfer) Gain() float64 { return 1 - t.loss }

// Offset returns what is seen when 0 V is sent.
func (t Transfer) Offset() units.Voltage { return units.Voltage(t.offset) * units.Volt }

// Equal reports whether t and u are the same.
func (t Transfer) Equal(u Transfer) bool { return t == u }

// At returns the signal seen for a signal sent. What is not a voltage passes unchanged:
// an open wire stays open, and a common that is lifted does not alter a current.
func (t Transfer) At(sent signal.Signal) signal.Signal {
	if sent.Kind() != signal.KindVoltage {
		return sent
	}
	v := sent.Number()
	return signal.Volts(v - float64(t.loss*v) + t.offset)
}

// Inverse returns the signal to send so that this one is seen. A controller may not be
// able to send it: it may be beyond 10 V, or below 0 V.
func (t Transfer) Inverse(seen signal.Signal) signal.Signal {
	if seen.Kind() != signal.KindVoltage {
		return seen
	}
	return signal.Volts((seen.Number() - t.offset) / (1 - t.loss))
}

// Limits returns how far a drive with this input range closes and opens its valve when
// the controller sends the two ends of the range and no more. risingOpens says whether
// a rising demand opens the valve, as actuator.Actuator.RisingOpens does.
func (t Transfer) Limits(r signal.Range, risingOpens bool) Limits {
	low, high := r.Read(t.At(r.Encode(0))), r.Read(t.At(r.Encode(1)))
	if risingOpens {
		return Limits{Closed: low.Demand, Open: high.Demand, WhenClosed: low.Status, WhenOpen: high.Status}
	}
	return Limits{Closed: 1 - high.Demand, Open: 1 - low.Demand, WhenClosed: high.Status, WhenOpen: low.Status}
}

// Limits is the range of opening demand that a controller can reach over a line;
// [Limits.WriteText] prints it with the caution.
type Limits struct {
	// Closed is the least opening demand: above 0 the valve never closes fully.
	Closed float64
	// Open is the greatest opening demand: below 1 the valve never opens fully.
	Open float64
	// WhenClosed and WhenOpen say how the drive reads those signals. A live zero that is
	// shifted down may read as failed.
	WhenClosed, WhenOpen signal.Status
}
