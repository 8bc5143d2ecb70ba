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

// By hand, with a common pipe without resistance, which parts the pumps: 15 + 5 +
// 10 = 30 kPa drive the design flow through either port, 25 kPa through the
// consumer. Half way through ideal linear ports, 30 = (15 + 45/4)·(q/qd)².
func TestInjectionCircuitByHand(t *testing.T) {
	cfg := injectionConfig()
	cfg.Common = 0
	c, err := hydronics.NewInjectionCircuit(circuitValve(t, idealLinear(), idealLinear()), cfg)
	require.NoError(t, err)
	atHalf := math.Sqrt(30 / (15 + 45.0/4))
	for _, point := range []struct{ h, control, primary float64 }{{0, 0, 1}, {1, 1, 1}, {0.5, atHalf / 2, atHalf}} {
		f := c.Flows(point.h)
		assert.InDelta(t, point.control, float64(f.Control/circuitFlow), 1e-8)
		assert.InDelta(t, point.primary, float64(f.Primary/circuitFlow), 1e-8)
		assert.InDelta(t, 1, float64(f.Consumer/circuitFlow), 1e-12)
		assert.InDelta(t, 1-point.control, float64(f.Recirculated/circuitFlow), 1e-8)
	}
	// 60 °C injected into 40 °C, half of each, are 50 °C: from 20.94 kW at
	// 0.25 l/s and 20 K.
	s := c.WithHeat(0.5, units.Celsius(60), units.Power(referenceCapacity*float64(c.Flows(0.5).Control)*20))
	assert.InDelta(t, 40, s.ConsumerReturn.Celsius(), 1e-9)
	assert.InDelta(t, 40+20*atHalf/2, s.ConsumerSupply.Celsius(), 1e-8)
	a := c.Authority(circuitFlow)
	assert.InDelta(t, 10.0/15, a.Open, 1e-14, "10 kPa of the valve, 5 kPa of the injection pipes")
	assert.InDelta(t, 10.0/15, a.Design, 1e-8)
}

// A common pipe with resistance couples the pumps. Common practice is to keep
// it short: at 500 Pa the consumer's flow stays within 2 % (from 25 and 25.5 kPa
// by hand, since the pipe carries no more than the design flow).
func TestCommonPipeCouplesThePumps(t *testing.T) {
	c, err := hydronics.NewInjectionCircuit(circuitValve(t, valve.EqualPercentage(50), valve.Linear(50)), injectionConfig())
	require.NoError(t, err)
	r := c.ConsumerRange()
	assert.InDelta(t, math.Sqrt(25/25.5), float64(r.Least/circuitFlow), 1e-6, "all of it recirculates")
	assert.Zero(t, r.LeastAt)
	assert.InDelta(t, 1, r.Ratio(), 0.02)
}

func TestInjectionCircuitObeysKirchhoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		val, h := anyThreeWay(t), anyTravel(t)
		cfg := hydronics.InjectionConfig{
			Header: anyDrive(t, "header"), Pump: anyDrive(t, "pump"),
			Primary: anyResistance(t, "primary"), Injection: anyResistance(t, "injection"), Bypass: anyResistance(t, "bypass"),
			Consumer: anyResistance(t, "consumer"), Common: anyResistance(t, "common"),
		}
		if rapid.Bool().Draw(t, "nothing in common") {
			cfg.Common = 0
		}
		if rapid.Bool().Draw(t, "nothing in series") {
			cfg.Primary = 0
		}
		f := must(hydronics.NewInjectionCircuit(val, cfg)).Flows(h)
		assert.InEpsilon(t, float64(f.Primary), float64(f.Control+f.Bypass), 1e-12)
		assert.InEpsilon(t, float64(f.Consumer), float64(f.Control+f.Recirculated), 1e-12)
		assert.Positive(t, f.Control)
		common, primary := cfg.Common.Pressure(f.Recirculated), cfg.Primary.Pressure(f.Primary)
		closed(t, cfg.Pump, cfg.Consumer.Pressure(f.Consumer), common)
		closed(t, cfg.Header, primary, cfg.Bypass.Pressure(f.Bypass), val.Bypass().Pressure(1-h, f.Bypass))
		closed(t, cfg.Header, primary, cfg.Injection.Pressure(f.Control), val.Control().Pressure(h, f.Control), -common)
	})
}

func TestInjectionCircuitRefuses(t *testing.T) {
	val := circuitValve(t, valve.Linear(50), valve.Linear(50))
	for field, change := range map[string]func(*hydronics.InjectionConfig){
		"Header":       func(c *hydronics.InjectionConfig) { c.Header = 0 },
		"Pump":         func(c *hydronics.InjectionConfig) { c.Pump = units.Pressure(math.Inf(1)) },
		"Primary":      func(c *hydronics.InjectionConfig) { c.Primary = -1 },
		"Injection":    func(c *hydronics.InjectionConfig) { c.Injection = -1 },
		"Bypass":       func(c *hydronics.InjectionConfig) { c.Bypass = -1 },
		"Consumer":     func(c *hydronics.InjectionConfig) { c.Consumer = 0 },
		"Common":       func(c *hydronics.InjectionConfig) { c.Common = hydronics.Resistance(math.NaN()) },
		"SpecificHeat": func(c *hydronics.InjectionConfig) { c.SpecificHeat = -1 },
	} {
		cfg := injectionConfig()
		change(&cfg)
		c, err := hydronics.NewInjectionCircuit(val, cfg)
		assert.Equal(t, []string{field}, faultyFields(err))
		assert.True(t, c.Equal(hydronics.Circuit{}))
	}
	_, err := hydronics.NewInjectionCircuit(valve.ThreeWay{}, hydronics.InjectionConfig{})
	assert.Equal(t, []string{"Valve", "Header", "Pump", "Consumer"}, faultyFields(err))
}
