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
	build  func(terminal.Temperatures) (terminal.Terminal, error)
	beside string // a value from outside the project, of the same
}

// typical units, the steepest first; invented, but for their temperatures, which are
// usual. Sizes do not matter: everything in the tables is relative.
var typical = []unit{
	{"radiator", at(93.3, 82.2, 21.1), radiator, "90 % of the heat at 50 % flow, 50 % at 10 % (1)"},
	{"radiator", at(75, 65, 20), radiator, "88.9 % at 50 % flow (2)"},
	{"chilled ceiling", at(16, 18, 26), ceiling, ""},
	{"fan coil, heat pump", at(45, 40, 20), coil(35, 0.25), ""},
	{"floor", at(40, 35, 20), floor, ""},
	{"cooling coil, wet", at(6, 12, 27), wetCoil, ""},
	{"radiator", at(90, 70, 20), radiator, "32.4 % at 10 % flow (2)"},
	{"cooling coil, dry", at(6, 12, 26), coil(15, 0.25), ""},
	{"heating coil, constant UA", at(80, 60, 16), coil(35, 0), "80 … 90 % at 50 % flow (3)"},
	{"heating coil", at(80, 60, 16), coil(35, 0.2), ""},
	{"heating coil", at(70, 50, 16), coil(35, 0.2), ""},
	{"cooling coil, dry", at(6, 16, 26), coil(15, 0.25), ""},
	{"radiator", at(70, 40, 20), radiator, ""},
	{"heating coil", at(70, 30, 5), coil(25, 0.2), ""},
	{"radiator", at(70, 30, 20), radiator, ""},
}

func at(supply, back, air float64) terminal.Temperatures {
	return terminal.Temperatures{Supply: units.Celsius(supply), Return: units.Celsius(back), Air: units.Celsius(air)}
}

const heat = 5 * units.Kilowatt

func radiator(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: heat, Design: design})
}

func ceiling(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: heat, Rated: design})
}

func floor(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewFloor(terminal.FloorConfig{Conductance: 300 * units.WattPerKelvin, Area: 60 * units.SquareMetre, Design: design})
}

// coil is in counterflow; leaving is the temperature of the air behind it at design,
// in °C, water the share of the water side in the thermal resistance.
func coil(leaving float64, water units.Ratio) func(terminal.Temperatures) (terminal.Terminal, error) {
	return func(design terminal.Temperatures) (terminal.Terminal, error) {
		return terminal.NewCoil(terminal.CoilConfig{Heat: heat, Design: design, LeavingAir: units.Celsius(leaving), WaterShare: water})
	}
}

// wetCoil has air of 50 % humidity.
func wetCoil(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat: heat, Design: design, Humidity: 0.5, AirFlow: 0.28 * units.CubicMetrePerSecond, WaterShare: 0.25,
	})
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
