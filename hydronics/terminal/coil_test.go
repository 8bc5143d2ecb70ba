package terminal_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// A design point worked by hand: 5 kW at 70/50/18 °C, air leaving at 35 °C.
// C_water 250 W/K, C_air 5000/17 W/K; counterflow UA = Φ/ΔT with the end
// differences 70 − 35 and 50 − 18 K.
func TestCoilDesign(t *testing.T) {
	c, err := terminal.NewCoil(terminal.CoilConfig{Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(35)})
	require.NoError(t, err)
	d := c.Design()
	assert.InEpsilon(t, 250, float64(d.Flow)*float64(d.Density)*float64(d.SpecificHeat), 1e-12)
	assert.InEpsilon(t, 5000, float64(d.Heat), 1e-12)
	o := c.Output(d.Flow, terminal.Conditions{})
	assert.InDelta(t, 50, o.Return.Celsius(), 1e-9)
	assert.InDelta(t, 35, o.Leaving.Celsius(), 1e-9)

	ua := 5000 / (3 / math.Log(35.0/32))
	unlimited := 5000.0 / 17 * 52 * -math.Expm1(-ua/(5000.0/17)) // a supply that stays as it is
	assert.InEpsilon(t, unlimited, float64(c.Heat(units.Flow(math.Inf(1)))), 1e-12)
}

// The two ways to state the air: 1.2 kg/m³ × 1006 J/(kg·K).
func TestCoilAirFlow(t *testing.T) {
	byTemperature, err := terminal.NewCoil(terminal.CoilConfig{Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(35)})
	require.NoError(t, err)
	byFlow, err := terminal.NewCoil(terminal.CoilConfig{Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18),
		AirFlow: units.Flow(5000.0/17/1.1/1006) * units.CubicMetrePerSecond, AirDensity: 1.1})
	require.NoError(t, err)
	assert.InDelta(t, byTemperature.HeatShare(0.3), byFlow.HeatShare(0.3), 1e-12)
}

// Series resistances: at a water share r and a flow share x the conductance is
// 1/(1 − r + r/x^0.8), which heat and temperatures must give back by the
// logarithmic mean of counterflow.
func TestCoilWaterShare(t *testing.T) {
	const r = 0.3
	config := terminal.CoilConfig{
		Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(35), WaterShare: r, LaminarFloor: 0.05,
	}
	c, err := terminal.NewCoil(config)
	require.NoError(t, err)
	conductance := func(x float64) float64 {
		o := c.Output(units.Flow(x)*c.Design().Flow, terminal.Conditions{})
		hot, cold := 70-o.Leaving.Celsius(), o.Return.Celsius()-18
		return float64(o.Heat) / ((hot - cold) / math.Log(hot/cold))
	}
	design := conductance(1)
	for _, x := range []float64{0.2, 0.5, 0.8, 2, 5} {
		assert.InEpsilon(t, 1/(1-r+r/math.Pow(x, 0.8)), conductance(x)/design, 1e-9, "%v", x)
	}
	config.LaminarFloor = 0.6
	c, err = terminal.NewCoil(config)
	require.NoError(t, err)
	assert.InEpsilon(t, 1/(1-r+r/0.6), conductance(0.3)/design, 1e-9, "the floor")
}

// Re 10 000 and Pr 2.5 by a pocket calculator: 0.023 × 1584.89 × 1.44270 = 52.59;
// 3.66/52.59 = 0.0696, the default rounded.
func TestLaminarFloor(t *testing.T) {
	assert.InDelta(t, 0.0696, float64(terminal.LaminarFloor(1e4, 2.5)), 5e-5)
	assert.InDelta(t, float64(terminal.DefaultLaminarFloor), float64(terminal.LaminarFloor(1e4, 2.5)), 0.0005)
	assert.Equal(t, units.Ratio(1), terminal.LaminarFloor(10, 1))
	// Powers that come out even: 100 000^0.8 = 10 000 and 32^0.4 = 4.
	assert.InEpsilon(t, 3.66/230, float64(terminal.LaminarFloor(1e5, 1)), 1e-12)
	assert.InEpsilon(t, 3.66/920, float64(terminal.LaminarFloor(1e5, 32)), 1e-12)
}

// The sensible coil is linear in the temperature difference.
func TestCoilIsLinearInDifference(t *testing.T) {
	c, err := terminal.NewCoil(terminal.CoilConfig{
		Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(35), WaterShare: 0.2,
		Arrangement: terminal.CrossFlow,
	})
	require.NoError(t, err)
	q := c.Design().Flow / 3
	full, half := c.Output(q, terminal.Conditions{}), c.Output(q, terminal.Conditions{Supply: units.Celsius(44)})
	assert.InEpsilon(t, 0.5, float64(half.Heat/full.Heat), 1e-12)
}

// A wet coil in dry air is a counterflow coil.
func TestWetCoilInDryAir(t *testing.T) {
	design := celsius(12, 17, 26)
	wet, err := terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat: 2 * units.Kilowatt, Design: design, Humidity: 0.2, AirFlow: 0.2, WaterShare: 0.3,
	})
	require.NoError(t, err)
	o := wet.Output(wet.Design().Flow, terminal.Conditions{})
	assert.Equal(t, o.Heat, o.Sensible)
	dry, err := terminal.NewCoil(terminal.CoilConfig{Heat: 2 * units.Kilowatt, Design: design, LeavingAir: o.Leaving, WaterShare: 0.3})
	require.NoError(t, err)
	for _, x := range []float64{0.05, 0.4, 1.5} {
		assert.InEpsilon(t, dry.HeatShare(x), wet.HeatShare(x), 1e-9)
	}
	humid := wet.Output(wet.Design().Flow, terminal.Conditions{Humidity: 0.7})
	assert.Greater(t, float64(humid.Heat), float64(o.Heat)*1.1)
	assert.Less(t, float64(humid.Sensible), float64(o.Heat))
}
