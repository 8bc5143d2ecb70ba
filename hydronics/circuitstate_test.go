package hydronics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// A small terminal in a large flow changes its water by hundredths of a kelvin: the
// circuit's heat is still that of the terminal at the supply that the circuit tells.
func TestCircuitHeatIsTheTerminals(t *testing.T) {
	for name, unit := range map[string]terminal.Terminal{
		"radiator": must(terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 100 * units.Watt})),
		"coil":     must(terminal.NewCoil(terminal.CoilConfig{Heat: 100 * units.Watt, Design: degrees(80, 60, 16), LeavingAir: units.Celsius(35)})),
		"wet coil": must(terminal.NewWetCoil(terminal.WetCoilConfig{
			Heat: 100 * units.Watt, Design: degrees(6, 12, 27), Humidity: 0.5, AirFlow: 0.0056 * units.CubicMetrePerSecond, WaterShare: 0.25,
		})),
	} {
		design := unit.Design()
		for kind, c := range circuitsOf(t, design.Density, design.SpecificHeat) {
			for i := range 501 {
				h := float64(i) / 500
				s := c.WithTerminal(h, unit, terminal.Conditions{})
				want := unit.Output(s.Consumer, terminal.Conditions{Supply: s.ConsumerSupply}).Heat
				off := math.Abs(float64(s.Heat)) - math.Abs(float64(want))
				capacity := float64(design.Density) * float64(design.SpecificHeat) * float64(s.Consumer)
				require.InDelta(t, 0, off/capacity, 1e-12, "%s, %s at %v, in kelvin", name, kind, h)
			}
		}
	}
}
