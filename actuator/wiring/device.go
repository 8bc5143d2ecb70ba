package wiring

import (
	"fmt"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Device is an actuator on the cable, or something else that loads its supply.
type Device struct {
	// Name is for reports; it may be empty.
	Name string `json:",omitempty"`
	// Length is that of the cable from the device before, or from the near end.
	Length units.Length
	// Load is what the device draws.
	Load Load
	// Input is the resistance of the signal input; 0 = so large that it does not matter.
	Input units.Resistance `json:",omitzero"`
	// Feed says where the signal comes from; the zero value is the shared conductor.
	Feed Feed
	// Signal is what the controller sends if Feed is OwnSignal: a voltage.
	Signal signal.Signal `json:",omitzero"`
}

func (d Device) check(l *check.List, field string) {
	checkLength(l, field+".Length", d.Length)
	d.Load.check(l, field+".Load")
	checkInput(l, field+".Input", d.Input)
	check.Enum(l, field+".Feed", d.Feed, NoSignal)
	if d.Feed == OwnSignal {
		checkSignal(l, field+".Signal", d.Signal)
		return
	}
	l.Require(d.Signal.IsZero(), field+".Signal", d.Signal, "none, since Feed is "+d.Feed.String())
}

// conductance returns that of the input in 1/Ω.
func (d Device) conductance() float64 {
	if d.Input == 0 || d.Feed == NoSignal {
		return 0
	}
	return 1 / float64(d.Input)
}

func (d Device) title(i int) string {
	if d.Name == "" {
		return fmt.Sprintf("#%d", i+1)
	}
	return d.Name
}
