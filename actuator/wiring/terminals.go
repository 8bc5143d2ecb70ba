package wiring

import (
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Terminals is what a device of a chain has at its terminals.
type Terminals struct {
	// Name of the device, or "#3" for the third if it has none.
	Name string
	// Distance is that from the near end.
	Distance units.Length

	// Supply is the voltage between supply and common: direct, or on an alternating
	// supply the effective value of the sine that the voltage follows while every load
	// draws. Beside half-wave loads a meter shows a little more, since it averages over
	// the half waves in which they do not.
	Supply units.Voltage
	// Margin is how far Supply is within the tolerance of the load; negative outside.
	Margin units.Voltage
	// Current is what the load draws, effective on an alternating supply.
	Current units.Current

	// Sent is the signal at the controller, Seen the one between the signal terminal and
	// the common of the device, as direct voltages. None if the device has no signal.
	Sent, Seen signal.Signal
	// Offset is Seen − Sent.
	Offset units.Voltage
	// Shift is how far the direct currents of the loads lift the common of the device above
	// that of the controller, negative if they lower it. What else there is to Offset is
	// the load of the inputs.
	Shift units.Voltage
	// Ripple is the alternating part of that shift from peak to peak, at the frequency of
	// the supply, as it stands on the signal before the input filters it. 0 on a direct
	// supply.
	Ripple units.Voltage
}
