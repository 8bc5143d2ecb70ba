package wiring

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/indexrun/indexrun/internal/texttable"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// WriteText writes what every device has at its terminals, with the cautions that
// belong to it.
func (c Chain) WriteText(w io.Writer) error {
	if c.Len() == 0 {
		_, err := io.WriteString(w, "no devices\n"+caution)
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Supply %v %v at the %s, controller at the %s, %v common, %v of %v\n\n",
		c.cfg.Supply.Voltage, c.cfg.Supply.Kind, spaced(c.cfg.SupplyEnd), spaced(c.cfg.ControllerEnd), c.cfg.Common,
		c.cfg.length(), c.cfg.Cable.Conductor)
	t := texttable.New("device", ">at", ">supply", ">margin", ">current", ">sent", ">seen", ">offset", ">ripple p-p")
	for _, d := range c.terminals {
		t.Row(d.cells()...)
	}
	_, _ = t.WriteTo(&b) // a Builder takes everything
	fmt.Fprintf(&b, "\nFrom the supply: %s, %s direct, %v; nameplates %v\n\n%s", milliamps(c.total.Current),
		milliamps(c.total.Direct), c.total.Power, c.total.Nameplate, c.cautions())
	_, err := io.WriteString(w, b.String())
	return err
}

func (t Terminals) cells() []string {
	cells := []string{t.Name, t.Distance.Fixed(units.Metre, 1), volts(t.Supply, 2), volts(t.Margin, 2), milliamps(t.Current)}
	if t.Sent.IsZero() {
		return append(cells, "–", "–", "–", "–")
	}
	sent, _ := t.Sent.Voltage()
	seen, _ := t.Seen.Voltage()
	return append(cells, volts(sent, 3), volts(seen, 3), volts(t.Offset, 3), volts(t.Ripple, 3))
}

func spaced(e End) string { return strings.ReplaceAll(e.String(), "-", " ") }

func volts(v units.Voltage, decimals int) string { return v.Fixed(units.Volt, decimals) }

func milliamps(i units.Current) string { return i.Fixed(units.Milliampere, 0) }

// cautions returns those that apply to the chain.
func (c Chain) cautions() string {
	text := caution
	if slices.ContainsFunc(c.terminals, func(t Terminals) bool { return t.Margin < 0 }) {
		text += cautionTolerance
	}
	if c.cfg.Supply.Kind == Direct {
		return text
	}
	half, full := c.draws(HalfWave, NoSignal), c.draws(FullWave, OwnSignal) && c.cfg.Common == SharedCommon
	if half {
		text += cautionHalfWave
	}
	switch {
	case full && half:
		text += cautionMixed
	case full:
		text += cautionFullWave
	}
	return text
}

// draws reports whether there is such a load among the devices with a feed up to last:
// NoSignal for all, OwnSignal for those with a signal.
func (c Chain) draws(r Rectification, last Feed) bool {
	return slices.ContainsFunc(c.cfg.Devices, func(d Device) bool {
		return d.Load.Power > 0 && d.Load.Rectification == r && d.Feed <= last
	})
}

// WriteText writes the figures of the loop and the caution.
func (l Loop) WriteText(w io.Writer) error {
	verdict := "in order"
	if l.Spare() < 0 {
		verdict = "too much resistance: full current is not reached"
	}
	return writeResult(w, "Loop: %s, %s needed at %v, %s spare; cable up to %s: %s",
		l.Resistance().Fixed(units.Ohm, 1), volts(l.Needed(), 2), l.full, volts(l.Spare(), 2),
		l.GreatestLength().Fixed(units.Metre, 0), verdict)
}

// WriteText writes the size and the caution.
func (t Transformer) WriteText(w io.Writer) error {
	return writeResult(w, "Transformer: loads %v, with spare %v, size %v, used %s", t.Load, t.WithSpare, t.Size, t.Use.Fixed(units.Percent, 0))
}

// WriteText writes the length, what ends it, and the caution.
func (l Longest) WriteText(w io.Writer) error {
	if l.By == Unbound {
		return writeResult(w, "Cable: no limit is reached within %s", (farthest*units.Metre).Fixed(units.Kilometre, 0))
	}
	return writeResult(w, "Cable: up to %s, then %v at device %d", l.Length.Fixed(units.Metre, 1), l.By, l.Device+1)
}

// WriteText writes the conductor with its resistance at 20 °C, and the caution.
func (c Conductor) WriteText(w io.Writer) error {
	r := c.Resistance(units.Kilometre, units.Temperature{})
	return writeResult(w, "Conductor: %v, %s for 1 km at 20 °C", c, r.Fixed(units.Ohm, 2))
}

// WriteText writes gain, offset and what becomes of 10 V, and the caution.
func (t Transfer) WriteText(w io.Writer) error {
	return writeResult(w, "Signal: gain %.4f, offset %s; 10 V is seen as %.3f V", t.Gain(), volts(t.Offset(), 3), t.At(signal.Volts(10)).Number())
}

// WriteText writes how far the valve closes and opens, and the caution.
func (m Limits) WriteText(w io.Writer) error {
	verdict := ""
	if m.Closed >= shows {
		verdict += "; never closes fully"
	}
	if m.Open <= 1-shows {
		verdict += "; never opens fully"
	}
	return writeResult(w, "Opening demand: %.1f %% (the drive reads %v) … %.1f %% (%v)%s", 100*m.Closed, m.WhenClosed, 100*m.Open, m.WhenOpen, verdict)
}

// shows is the least share that shows in a figure with one decimal of a per cent.
const shows = 0.0005

// writeResult writes one line and the caution.
func writeResult(w io.Writer, format string, args ...any) error {
	_, err := fmt.Fprintf(w, format+"\n\n%s", append(args, caution)...)
	return err
}
