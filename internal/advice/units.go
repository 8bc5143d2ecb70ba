package main

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// unit is a typical terminal.
type unit struct {
	name   string
	design terminal.Temperatures
	model  model
	facts  []fact
	pumped bool // commonly in a circuit with a pump of its own
}

// typical units, the steepest first; invented, but for their temperatures, which are
// usual.
var typical = []unit{
	{"radiator", at(93.3, 82.2, 21.1), radiator{1.3}, []fact{value(0.5, 0.9, 1), value(0.1, 0.5, 1)}, false},
	{"radiator", at(75, 65, 20), radiator{1.3}, []fact{value(0.5, 0.8892, 2)}, true},
	{"chilled ceiling", at(16, 18, 26), ceiling{1.1}, []fact{value(0.5, 0.8926, 2)}, false},
	{"fan coil, heat pump", at(45, 40, 20), coil{35, 0.25}, []fact{constantUA(0.5, 0.9235)}, false},
	{"passive beam", at(15, 17, 24), passiveBeam{1.3}, []fact{value(0.5, 0.8664, 2)}, false},
	{"floor", at(40, 35, 20), floor{300 * units.WattPerKelvin, 60 * units.SquareMetre}, []fact{value(0.5, 0.875, 2)}, true},
	{"cooling coil, wet", at(6, 12, 27), wetCoil{0.5, 0.28 * units.CubicMetrePerSecond, 0.25}, nil, false},
	{"radiator", at(90, 70, 20), radiator{1.3}, []fact{value(0.5, 0.8318, 2), value(0.1, 0.3238, 2)}, false},
	{"active beam", at(14, 17, 24), activeBeam{1}, []fact{value(0.5, 0.85, 2)}, false},
	{"cooling coil, dry", at(6, 12, 26), coil{15, 0.25}, []fact{constantUA(0.5, 0.8763)}, true},
	{"heating coil, constant UA", at(80, 60, 16), coil{35, 0}, []fact{constantUA(0.5, 0.8554), {0.5, 0.8, 0.9, false, 3}}, false},
	{"heating coil", at(80, 60, 16), coil{35, 0.2}, []fact{constantUA(0.5, 0.8554), value(0.5, 0.8, 3), value(0.2, 0.5, 3)}, true},
	{"heating coil", at(70, 50, 16), coil{35, 0.2}, []fact{constantUA(0.5, 0.83)}, true},
	{"cooling coil, dry", at(6, 16, 26), coil{15, 0.25}, []fact{constantUA(0.5, 0.7785)}, false},
	{"radiator", at(70, 40, 20), radiator{1.3}, []fact{value(0.5, 0.6772, 2)}, true},
	{"heating coil", at(70, 30, 5), coil{25, 0.2}, []fact{constantUA(0.5, 0.7033)}, true},
	{"radiator", at(70, 30, 20), radiator{1.3}, []fact{value(0.5, 0.5888, 2)}, false},
}

func at(supply, back, air float64) terminal.Temperatures {
	return terminal.Temperatures{Supply: units.Celsius(supply), Return: units.Celsius(back), Air: units.Celsius(air)}
}

// String names the unit with its temperatures in whole degrees, as the trade does,
// or with a decimal where there is one.
func (u unit) String() string {
	return fmt.Sprintf("%s %.3g/%.3g/%.3g", u.name, u.design.Supply.Celsius(), u.design.Return.Celsius(), u.design.Air.Celsius())
}

// steepness is the design drop of the water over its distance from the air, which
// decides more than anything else how curved the heat is in the flow: small is steep.
func (u unit) steepness() float64 {
	return math.Abs(float64(u.design.Supply.Sub(u.design.Return) / u.design.Supply.Sub(u.design.Air)))
}
