package wiring

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/indexrun/indexrun/internal/texttable"
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
	_, err := fmt.Fprintf(w, "Loop: %s, %s needed at %v, %s spare; cable up to %s: %s\n\n%s",
		l.Resistance().Fixed(units.Ohm, 1), volts(l.Needed(), 2), l.full, volts(l.Spare(), 2),
		l.GreatestLength().Fixed(units.Metre, 0), verdict, caution)
	return err
}

// WriteText writes the size and the caution.
func (t Transformer) WriteText(w io.Writer) error {
	_, err := fmt.Fprintf(w, "Transformer: loads %v, with spare %v, size %v, used %s\n\n%s",
		t.Load, t.WithSpare, t.Size, t.Use.Fixed(units.Percent, 0), caution)
	return err
}
