package wiring

import (
	"fmt"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Cable describes the conductors of a cable. Those that are zero are like Conductor.
type Cable struct {
	// Conductor is each conductor without a statement of its own.
	Conductor Conductor
	// Common is the return of the supply, such as two cores in parallel.
	Common Conductor `json:",omitzero"`
	// Signal is each conductor of a signal.
	Signal Conductor `json:",omitzero"`
	// SignalCommon is the return of the signals if it is a SeparateCommon.
	SignalCommon Conductor `json:",omitzero"`
}

func (c Cable) check(l *check.List) {
	c.Conductor.check(l, "Cable.Conductor")
	for _, own := range []struct {
		field string
		Conductor
	}{{"Cable.Common", c.Common}, {"Cable.Signal", c.Signal}, {"Cable.SignalCommon", c.SignalCommon}} {
		if !own.IsZero() {
			own.check(l, own.field)
		}
	}
}

func (c Cable) common() Conductor       { return c.orElse(c.Common) }
func (c Cable) signal() Conductor       { return c.orElse(c.Signal) }
func (c Cable) signalCommon() Conductor { return c.orElse(c.SignalCommon) }

func (c Cable) orElse(own Conductor) Conductor {
	if own.IsZero() {
		return c.Conductor
	}
	return own
}

// Config describes devices along one cable. It is plain data; [New] makes the model.
type Config struct {
	// Supply feeds the cable at SupplyEnd.
	Supply    Supply
	SupplyEnd End
	// ControllerEnd is the end at which the controller sends the signals. Its common sits
	// there on the common of the signals.
	ControllerEnd End
	// Common says through which conductor the signals return.
	Common Common
	// Cable holds the conductors, Temperature is that of the copper (zero = 20 °C).
	Cable       Cable
	Temperature units.Temperature `json:",omitzero"`
	// Signal is what the controller sends on the shared conductor: a voltage.
	Signal signal.Signal `json:",omitzero"`
	// Output is the resistance of each output of the controller, the shared one and the
	// single ones; 0 = stiff.
	Output units.Resistance `json:",omitzero"`
	// Devices in the order of the cable from the near end, 1 … 100.
	Devices []Device
	// Tail is the length of cable from the last device to the far end.
	Tail units.Length `json:",omitzero"`
}

const mostDevices = 100

// validate reports every fault of the configuration, joined.
func (c Config) validate() error {
	l := check.List{Package: packageName}
	c.Supply.check(&l)
	check.Enum(&l, "SupplyEnd", c.SupplyEnd, FarEnd)
	check.Enum(&l, "ControllerEnd", c.ControllerEnd, FarEnd)
	check.Enum(&l, "Common", c.Common, SeparateCommon)
	c.Cable.check(&l)
	checkTemperature(&l, "Temperature", c.Temperature)
	checkResistance(&l, "Output", c.Output)
	checkLength(&l, "Tail", c.Tail)
	l.Require(len(c.Devices) >= 1 && len(c.Devices) <= mostDevices, "Devices", len(c.Devices), "1 … 100 devices")
	for i, d := range c.Devices {
		d.check(&l, fmt.Sprintf("Devices[%d]", i))
	}
	if c.sharesSignal() {
		checkSignal(&l, "Signal", c.Signal)
	} else {
		l.Require(c.Signal.IsZero(), "Signal", c.Signal, "none, since no device has the shared signal")
	}
	return l.Err()
}

func (c Config) sharesSignal() bool {
	return slices.ContainsFunc(c.Devices, func(d Device) bool { return d.Feed == SharedSignal })
}

// sent returns the signal that the controller sends to a device.
func (c Config) sent(d Device) signal.Signal {
	if d.Feed == SharedSignal {
		return c.Signal
	}
	return d.Signal
}

// length is that of the whole cable.
func (c Config) length() units.Length {
	sum := c.Tail
	for _, d := range c.Devices {
		sum += d.Length
	}
	return sum
}

// clone returns a copy that shares no memory.
func (c Config) clone() Config {
	c.Devices = slices.Clone(c.Devices)
	return c
}

// scaled returns the same with every length multiplied.
func (c Config) scaled(factor float64) Config {
	c = c.clone()
	c.Tail *= units.Length(factor)
	for i := range c.Devices {
		c.Devices[i].Length *= units.Length(factor)
	}
	return c
}
