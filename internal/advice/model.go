package main

import (
	"fmt"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// model is what a typical terminal is built from besides its temperatures.
type model interface {
	build(terminal.Temperatures) (terminal.Terminal, error)
	inputs() string // for the legend, all of them
}

// heat is that of every terminal but floors; sizes do not matter, everything in the
// tables is relative.
const heat = 5 * units.Kilowatt

// Emitters, by their exponents.
type (
	radiator    struct{ exponent float64 }
	ceiling     struct{ exponent float64 }
	passiveBeam struct{ exponent float64 }
	activeBeam  struct{ exponent float64 }
)

func (r radiator) build(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: heat, Rated: design, Exponent: r.exponent})
}

func (c ceiling) build(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: heat, Rated: design, Exponent: c.exponent})
}

func (b passiveBeam) build(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewPassiveBeam(terminal.PassiveBeamConfig{RatedHeat: heat, Rated: design, Exponent: b.exponent})
}

// Of the primary air only its presence matters: a valve does not move its part.
const primaryFlow = 0.2 * units.CubicMetrePerSecond

func primaryAir() units.Temperature { return units.Celsius(18) }

func (b activeBeam) build(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewActiveBeam(terminal.ActiveBeamConfig{
		RatedHeat: heat, Rated: design, Exponent: b.exponent, PrimaryFlow: primaryFlow, PrimaryAir: primaryAir(),
	})
}

const noWaterShare = "coefficient not changed by the flow"

func (r radiator) inputs() string { return fmt.Sprintf("exponent %g (EN 442)", r.exponent) }
func (c ceiling) inputs() string {
	return fmt.Sprintf("exponent %g, %s (EN 14240)", c.exponent, noWaterShare)
}
func (b passiveBeam) inputs() string {
	return fmt.Sprintf("exponent %g, %s (EN 14518)", b.exponent, noWaterShare)
}
func (b activeBeam) inputs() string {
	return fmt.Sprintf("exponent %g, %s (EN 15116); primary air %v at %v, whose part is not in the heat", b.exponent, noWaterShare, primaryFlow, primaryAir())
}

// floor has a conductance and an area.
type floor struct {
	conductance units.ThermalConductance
	area        units.Area
}

func (f floor) build(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewFloor(terminal.FloorConfig{Conductance: f.conductance, Area: f.area, Design: design})
}

func (f floor) inputs() string {
	return fmt.Sprintf("K_H·A %v, area %v, %s (EN 1264)", f.conductance, f.area, noWaterShare)
}

// coil is in counterflow; leaving is the temperature of the air behind it at design, in
// °C, water the share of the water side in the thermal resistance.
type coil struct {
	leaving float64
	water   units.Ratio
}

func (c coil) build(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewCoil(terminal.CoilConfig{Heat: heat, Design: design, LeavingAir: units.Celsius(c.leaving), WaterShare: c.water})
}

func (c coil) inputs() string {
	return fmt.Sprintf("counterflow, air leaving at %g °C, %s", c.leaving, waterShare(c.water))
}

// wetCoil has air of a relative humidity before it.
type wetCoil struct {
	humidity units.Ratio
	air      units.Flow
	water    units.Ratio
}

func (c wetCoil) build(design terminal.Temperatures) (terminal.Terminal, error) {
	return terminal.NewWetCoil(terminal.WetCoilConfig{Heat: heat, Design: design, Humidity: c.humidity, AirFlow: c.air, WaterShare: c.water})
}

func (c wetCoil) inputs() string {
	return fmt.Sprintf("counterflow, air of %v relative humidity, %v of it, %s", c.humidity, c.air, waterShare(c.water))
}

func waterShare(share units.Ratio) string {
	if share == 0 {
		return "UA not changed by the flow"
	}
	return fmt.Sprintf("%v of the resistance on the water side", share)
}
