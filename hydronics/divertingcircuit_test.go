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

// By hand, for ideal linear ports: 5 + 25 + 10 = 40 kPa at either end; half way
// each port drops 4·10 kPa at the design flow and has 25 kPa in series, both
// beside each other a quarter of 65 kPa: 40 = (5 + 65/4)·(q/qd)².
func TestDivertingCircuitByHand(t *testing.T) {
	c, err := hydronics.NewDivertingCircuit(circuitValve(t, idealLinear(), idealLinear()), divertingConfig())
	require.NoError(t, err)
	atHalf := math.Sqrt(40 / (5 + 65.0/4))
	for _, point := range []struct{ h, consumer, primary float64 }{{0, 0, 1}, {1, 1, 1}, {0.5, atHalf / 2, atHalf}} {
		f := c.Flows(point.h)
		assert.InDelta(t, point.consumer, float64(f.Consumer/circuitFlow), 1e-8)
		assert.InDelta(t, point.primary, float64(f.Primary/circuitFlow), 1e-8)
	}
	assert.InDelta(t, atHalf, float64(c.PrimaryRange().Greatest/circuitFlow), 1e-9)
	a := c.Authority(circuitFlow)
	assert.InDelta(t, 10.0/35, a.Open, 1e-14, "10 kPa of the valve, 25 kPa of the consumer")
	assert.InDelta(t, 10.0/35, a.Design, 1e-8, "35 kPa over the open bypass")

	s := c.WithHeat(0.5, units.Celsius(6), -12*units.Kilowatt)
	assert.InDelta(t, 6, s.ConsumerSupply.Celsius(), 1e-12, "the supply temperature stays")
	assert.Greater(t, s.ConsumerReturn.Celsius(), s.PrimaryReturn.Celsius())
}

// Without a common pipe in the primary circuit the two ways do not know each
// other: each port has the installed characteristic of its own authority, and the
// total is that of valve.InstalledTotal.
func TestDivertingCircuitIsTheInstalledTotal(t *testing.T) {
	val := circuitValve(t, valve.EqualPercentage(50), valve.Linear(50))
	cfg := divertingConfig()
	cfg.Primary, cfg.Bypass = 0, dropAt(15*units.Kilopascal)
	c, err := hydronics.NewDivertingCircuit(val, cfg)
	require.NoError(t, err)
	total, err := val.InstalledTotal(10.0/35, 10.0/25)
	require.NoError(t, err)
	open := circuitFlow * units.Flow(math.Sqrt(40.0/35))
	for h := 0.05; h < 1; h += 0.05 {
		assert.InEpsilon(t, total.At(h)*float64(open), float64(c.Flows(h).Primary), 1e-12)
	}
}

func TestDivertingCircuitObeysKirchhoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		val, h := anyThreeWay(t), anyTravel(t)
		cfg := hydronics.DivertingConfig{
			Header:  anyDrive(t, "header"),
			Primary: anyResistance(t, "primary"), Bypass: anyResistance(t, "bypass"), Consumer: anyResistance(t, "consumer"),
		}
		f := must(hydronics.NewDivertingCircuit(val, cfg)).Flows(h)
		assert.InEpsilon(t, float64(f.Primary), float64(f.Control+f.Bypass), 1e-12)
		assert.InDelta(t, float64(f.Control), float64(f.Consumer), 0)
		assert.Zero(t, f.Recirculated)
		assert.Positive(t, f.Control)
		assert.Positive(t, f.Bypass)
		primary := cfg.Primary.Pressure(f.Primary)
		closed(t, cfg.Header, primary, cfg.Consumer.Pressure(f.Control), val.Control().Pressure(h, f.Control))
		closed(t, cfg.Header, primary, cfg.Bypass.Pressure(f.Bypass), val.Bypass().Pressure(1-h, f.Bypass))
	})
}

func TestDivertingCircuitRefuses(t *testing.T) {
	val := circuitValve(t, valve.Linear(50), valve.Linear(50))
	for field, change := range map[string]func(*hydronics.DivertingConfig){
		"Header":       func(c *hydronics.DivertingConfig) { c.Header = 0 },
		"Primary":      func(c *hydronics.DivertingConfig) { c.Primary = -1 },
		"Consumer":     func(c *hydronics.DivertingConfig) { c.Consumer = hydronics.Resistance(math.Inf(1)) },
		"Bypass":       func(c *hydronics.DivertingConfig) { c.Bypass = hydronics.Resistance(math.NaN()) },
		"SpecificHeat": func(c *hydronics.DivertingConfig) { c.SpecificHeat = units.SpecificHeat(math.NaN()) },
	} {
		cfg := divertingConfig()
		change(&cfg)
		c, err := hydronics.NewDivertingCircuit(val, cfg)
		assert.Equal(t, []string{field}, faultyFields(err))
		assert.True(t, c.Equal(hydronics.Circuit{}))
	}
	_, err := hydronics.NewDivertingCircuit(valve.ThreeWay{}, hydronics.DivertingConfig{})
	assert.Equal(t, []string{"Valve", "Header"}, faultyFields(err))
}
