package hydronics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// With a common pipe without resistance the valve is alone in its branch: the
// injected flow is its installed characteristic, at an authority of 10 of 20 kPa.
func TestThrottledInjectionIsTheInstalledCharacteristic(t *testing.T) {
	val := circuitValve(t, valve.EqualPercentage(50), valve.Linear(50)).Control()
	cfg := throttledConfig()
	cfg.Common = 0
	c, err := hydronics.NewThrottledInjectionCircuit(val, cfg)
	require.NoError(t, err)
	for h := 0.05; h <= 1; h += 0.05 {
		f := c.Flows(h)
		assert.InEpsilon(t, valve.InstalledFlow(val.RelativeCoefficient(h), 0.5), float64(f.Control/circuitFlow), 1e-12)
		assert.InEpsilon(t, 1, float64(f.Consumer/circuitFlow), 1e-12)
	}
	a := c.Authority(circuitFlow)
	assert.InDelta(t, 0.5, a.Open, 1e-14)
	assert.InDelta(t, 0.5, a.Design, 1e-8)
}

func TestThrottledInjectionObeysKirchhoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		val, h := anyThreeWay(t).Control(), anyTravel(t)
		cfg := anyThrottled(t)
		f := must(hydronics.NewThrottledInjectionCircuit(val, cfg)).Flows(h)
		assert.InDelta(t, float64(f.Control), float64(f.Primary), 0)
		assert.Zero(t, f.Bypass)
		injectionLoops(t, cfg, f)
		assert.InDelta(t, float64(val.Pressure(h, f.Control)), float64(f.ValvePressure), 1e-9)
	})
}

func anyThrottled(t *rapid.T) hydronics.ThrottledInjectionConfig {
	cfg := hydronics.ThrottledInjectionConfig{
		Header: anyDrive(t, "header"), Pump: anyDrive(t, "pump"),
		Primary: anyResistance(t, "primary"), Consumer: anyResistance(t, "consumer"), Common: anyResistance(t, "common"),
	}
	if rapid.Bool().Draw(t, "nothing in common") {
		cfg.Common = 0
	}
	if rapid.Bool().Draw(t, "nothing in series") {
		cfg.Primary = 0
	}
	return cfg
}

func injectionLoops(t *rapid.T, cfg hydronics.ThrottledInjectionConfig, f hydronics.CircuitFlows) {
	assert.InEpsilon(t, float64(f.Consumer), float64(f.Control+f.Recirculated), 1e-12)
	assert.Positive(t, f.Control)
	common := cfg.Common.Pressure(f.Recirculated)
	closed(t, cfg.Pump, cfg.Consumer.Pressure(f.Consumer), common)
	closed(t, cfg.Header, cfg.Primary.Pressure(f.Control), f.ValvePressure, -common)
}

// A pressure-independent valve obeys its own law at the pressure that the circuit
// leaves to it, starved, regulated or above its limit.
func TestRegulatedInjectionObeysKirchhoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		val := must(valve.NewPressureIndependent(valve.PressureIndependentConfig{
			Settings: []valve.Setting{{
				Mark: 1, Flow: circuitFlow * units.Flow(rapid.Float64Range(0.2, 3).Draw(t, "flow")),
				MinPressure: units.Pressure(rapid.Float64Range(5, 40).Draw(t, "least")) * units.Kilopascal,
			}},
			ProportionalBand: units.Ratio(rapid.SampledFrom([]float64{0, 0.05, 0.2}).Draw(t, "band")),
			Stroke:           5 * units.Millimetre, Curve: valve.EqualPercentage(50), MaxPressure: 60 * units.Kilopascal,
		}))
		h, cfg := anyTravel(t), anyThrottled(t)
		f := must(hydronics.NewThrottledInjectionCircuit(val, cfg)).Flows(h)
		injectionLoops(t, cfg, f)
		assert.InEpsilon(t, float64(val.Flow(h, f.ValvePressure)), float64(f.Control), 1e-9)
	})
}

// Twice the header pressure does not change what a pressure-independent valve
// injects, and it has no authority.
func TestRegulatedInjection(t *testing.T) {
	c := circuits(t)["regulated"]
	cfg := throttledConfig()
	cfg.Header *= 2
	val := must(valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Settings: []valve.Setting{{Mark: 1, Flow: circuitFlow, MinPressure: 8 * units.Kilopascal}},
		Stroke:   5 * units.Millimetre, Curve: valve.EqualPercentage(50), MaxPressure: 400 * units.Kilopascal,
	}))
	higher := must(hydronics.NewThrottledInjectionCircuit(val, cfg))
	for _, h := range []float64{0.2, 0.5, 1} {
		assert.InEpsilon(t, float64(c.Flows(h).Control), float64(higher.Flows(h).Control), 1e-3)
	}
	assert.True(t, math.IsNaN(c.Authority(circuitFlow).Open))
	assert.True(t, math.IsNaN(c.Authority(circuitFlow).Design))
	assert.InDelta(t, 1, float64(c.Authority(circuitFlow).OpenFlow/circuitFlow), 1e-3)
}

func TestThrottledInjectionRefuses(t *testing.T) {
	val := circuitValve(t, valve.Linear(50), valve.Linear(50)).Control()
	for field, change := range map[string]func(*hydronics.ThrottledInjectionConfig){
		"Header":       func(c *hydronics.ThrottledInjectionConfig) { c.Header = -1 },
		"Pump":         func(c *hydronics.ThrottledInjectionConfig) { c.Pump = 0 },
		"Primary":      func(c *hydronics.ThrottledInjectionConfig) { c.Primary = -1 },
		"Consumer":     func(c *hydronics.ThrottledInjectionConfig) { c.Consumer = 0 },
		"Common":       func(c *hydronics.ThrottledInjectionConfig) { c.Common = -1 },
		"SpecificHeat": func(c *hydronics.ThrottledInjectionConfig) { c.SpecificHeat = -1 },
	} {
		cfg := throttledConfig()
		change(&cfg)
		c, err := hydronics.NewThrottledInjectionCircuit(val, cfg)
		assert.Equal(t, []string{field}, faultyFields(err))
		assert.True(t, c.Equal(hydronics.Circuit{}))
	}
	for name, bad := range map[string]valve.Valve{"none": nil, "zero": valve.TwoWay{}, "zero regulator": valve.PressureIndependent{}} {
		_, err := hydronics.NewThrottledInjectionCircuit(bad, throttledConfig())
		assert.Contains(t, faultyFields(err), "Valve", name)
		require.ErrorIs(t, err, units.ErrInvalid)
	}
}
