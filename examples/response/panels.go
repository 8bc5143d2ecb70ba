package main

import (
	"fmt"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// axis is one side of a plot.
type axis struct {
	label     string
	max, tick float64 // it begins at 0
}

func percent(label string) axis { return axis{label + " (%)", 100, 20} }

var volts = axis{"Control signal (V)", 10, 2}

// panel is one plot: a curve for each case, over x from 0 to the end of its axis.
type panel struct {
	file, title string
	x, y        axis
	name        func(f *fitted) string // in the legend
	shared      bool                   // the curve is that of all cases
	from        func(f *fitted) float64
	curve       func(f *fitted, x float64) float64
	ideal       func(x float64) float64 // what is wanted, nil if nothing is
	marks       bool                    // the least load of each case
}

// panels are in the order from signal to heat.
func (u *unit) panels() []panel {
	full, authority := u.cases[0].chain.FullHeat().In(units.Kilowatt), u.cases[0].authority.Open
	return []panel{
		{file: "shaping", title: "Actuator: shaping", x: percent("Opening demand"), y: percent("Stem, from the closed end"),
			name: shaping, curve: func(f *fitted, x float64) float64 { return 100 * f.Shaping.At(x/100) }},
		{file: "inherent", title: "Valve: inherent characteristic", x: percent("Relative travel"), y: percent("Flow coefficient Kv/Kvs"),
			name: curve, curve: func(f *fitted, x float64) float64 { return 100 * f.valve.RelativeCoefficient(x/100) }},
		{file: "installed", title: fmt.Sprintf("Valve installed: authority %.2f", authority),
			x: percent("Relative travel"), y: percent("Flow, share of the full"),
			name: curve, curve: func(f *fitted, x float64) float64 { return 100 * f.installed.At(x/100) }},
		{file: "terminal", title: "Coil: heat against flow", x: percent("Flow, share of design"), y: percent("Heat, share of design"),
			shared: true, name: func(*fitted) string { return "80/60 °C, air from 16 °C" },
			curve: func(_ *fitted, x float64) float64 { return 100 * u.coil.HeatShare(x/100) }},
		{file: "heat", title: "Whole unit: heat, least loads marked", x: volts, y: axis{"Heat (kW)", 14, 2}, marks: true,
			name: both, curve: func(f *fitted, x float64) float64 { return f.chain.Heat(f.chain.SignalAt(x / 10)).In(units.Kilowatt) },
			ideal: func(x float64) float64 { return full * x / 10 }},
		{file: "gain", title: "Whole unit: gain, closing region left out", x: volts, y: axis{"Gain (% of heat per % of signal)", 6, 1},
			name: both, from: func(f *fitted) float64 { return 10*f.closing.Opening + 0.002 }, // off the kink
			curve: func(f *fitted, x float64) float64 { return f.chain.Gain(x / 10) },
			ideal: func(float64) float64 { return 1 }},
	}
}

// Names for the legends.
func shaping(f *fitted) string { return words(f.Shaping) }
func curve(f *fitted) string   { return words(f.Curve) }

// both leaves out what the panel of the shapings says.
func both(f *fitted) string {
	return strings.Replace(shaping(f), "zero-based equal percentage", "zero-based", 1) + " actuator, " + curve(f) + " valve"
}

func words(law fmt.Stringer) string {
	return strings.NewReplacer("zero-based-equal-percentage", "zero-based equal percentage", "equal-percentage", "equal percentage").Replace(law.String())
}
