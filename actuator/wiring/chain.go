package wiring

import (
	"math"
	"reflect"
	"slices"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Chain is a solved cable with its devices. Make it with [New]; Chains are immutable and
// safe for concurrent use. The zero Chain has no devices.
type Chain struct {
	cfg       Config
	terminals []Terminals
	transfers []Transfer
	total     Total
}

// Total is what the supply of a chain gives.
type Total struct {
	// Nameplate is the sum of the apparent powers of the loads, for the transformer.
	Nameplate ApparentPower
	// Current is effective on an alternating supply; all loads count as in phase.
	Current units.Current
	// Direct is the mean of the current. On an alternating supply it magnetises the
	// transformer.
	Direct units.Current
	// Power is Current times the voltage of the supply without load: loads and losses.
	Power ApparentPower
}

// New checks the configuration and solves the network. The error joins every fault, each
// a *units.FieldError that unwraps to units.ErrInvalid; or it is [ErrOverload].
func New(cfg Config) (Chain, error) {
	if err := cfg.validate(); err != nil {
		return Chain{}, err
	}
	c := Chain{cfg: cfg.clone()}
	a := newLadder(c.cfg)
	s, err := a.solve(c.cfg)
	if err != nil {
		return Chain{}, err
	}
	var x units.Length
	for i, d := range c.cfg.Devices {
		x += d.Length
		t := Terminals{
			Name: d.title(i), Distance: x,
			Supply: units.Voltage(s.supply[i]), Margin: d.Load.margin(units.Voltage(s.supply[i])),
			Current: units.Current(s.current[i]),
		}
		if d.Feed != NoSignal {
			t.Sent, t.Seen = c.cfg.sent(d), signal.Volts(s.seen.AtVec(i))
			t.Offset = units.Voltage(s.seen.AtVec(i) - t.Sent.Number())
			t.Shift = units.Voltage(s.shift.AtVec(i))
			t.Ripple = c.ripple(a, s, i)
		}
		c.terminals = append(c.terminals, t)
		c.transfers = append(c.transfers, c.transfer(s, i, t))
	}
	c.total = c.sum(s)
	return c, nil
}

// transfer lets the output vary that feeds a device, and holds the others.
func (c Chain) transfer(s solution, i int, t Terminals) Transfer {
	if t.Sent.IsZero() {
		return Transfer{}
	}
	gain := 0.0
	for k, d := range c.cfg.Devices {
		if k == i || c.cfg.Devices[i].Feed == SharedSignal && d.Feed == SharedSignal {
			gain += s.gain.At(i, k)
		}
	}
	loss := 1 - gain
	return Transfer{loss: loss, offset: float64(t.Offset) + float64(loss*t.Sent.Number())}
}

// ripple is the shift at the crest of one half wave less that of the other.
func (c Chain) ripple(a *ladder, s solution, i int) units.Voltage {
	if c.cfg.Supply.Kind == Direct {
		return 0
	}
	var sum float64
	for k, d := range c.cfg.Devices {
		w := d.Load.Rectification.wave(Alternating)
		sum += float64(a.shift.At(i, k) * s.current[k] * (w.rising + w.falling))
	}
	return units.Voltage(math.Sqrt2 * math.Abs(sum))
}

func (c Chain) sum(s solution) Total {
	var t Total
	var rising, falling float64
	for k, d := range c.cfg.Devices {
		w := d.Load.Rectification.wave(c.cfg.Supply.Kind)
		t.Nameplate += d.Load.Power
		t.Direct += units.Current(w.mean * s.current[k])
		rising += float64(w.rising * s.current[k])
		falling += float64(w.falling * s.current[k])
	}
	t.Current = units.Current(math.Hypot(rising, falling) / math.Sqrt2)
	t.Power = ApparentPower(float64(c.cfg.Supply.Voltage) * float64(t.Current))
	return t
}

// Config returns the configuration that the chain was made from.
func (c Chain) Config() Config { return c.cfg.clone() }

// Equal reports whether two chains are alike.
func (c Chain) Equal(d Chain) bool { return reflect.DeepEqual(c.cfg, d.cfg) }

// Len returns the number of devices.
func (c Chain) Len() int { return len(c.terminals) }

// At returns what device i has at its terminals, counted from 0; false if there is none.
func (c Chain) At(i int) (Terminals, bool) {
	if i < 0 || i >= len(c.terminals) {
		return Terminals{}, false
	}
	return c.terminals[i], true
}

// All returns what all devices have at their terminals, from the near end.
func (c Chain) All() []Terminals { return slices.Clone(c.terminals) }

// Total returns what the supply gives.
func (c Chain) Total() Total { return c.total }

// Transfer returns the law from the signal that is sent to device i to the one it sees,
// with the loads as they are and the other outputs of the controller held at theirs. On
// the shared conductor the signal varies for all its devices. False if there is no such
// device or it has no signal.
func (c Chain) Transfer(i int) (Transfer, bool) {
	if t, ok := c.At(i); !ok || t.Sent.IsZero() {
		return Transfer{}, false
	}
	return c.transfers[i], true
}
