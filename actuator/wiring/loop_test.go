package wiring_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// loopOf is 24 V, an instrument that keeps 9 V, 250 Ω and 500 m of 25 Ω/km, changed.
func loopOf(t require.TestingT, change func(*wiring.LoopConfig)) wiring.Loop {
	cfg := wiring.LoopConfig{
		Source: 24 * units.Volt, Keeps: 9 * units.Volt, Burden: 250 * units.Ohm,
		Conductor: wiring.PerLength(25*units.Ohm, units.Kilometre), Length: 500 * units.Metre,
	}
	if change != nil {
		change(&cfg)
	}
	loop, err := wiring.NewLoop(cfg)
	require.NoError(t, err)
	return loop
}

// By hand: 250 Ω + 2·12.5 Ω = 275 Ω need 5.5 V of 15 V; 750 Ω would be carried, so 725 Ω of
// receivers, or 500 Ω of cable, 10 km.
func TestLoopByHand(t *testing.T) {
	loop := loopOf(t, nil)
	assert.InDelta(t, 275, loop.Resistance().In(units.Ohm), 1e-10)
	assert.InDelta(t, 5.5, loop.Needed().In(units.Volt), 1e-12)
	assert.InDelta(t, 9.5, loop.Spare().In(units.Volt), 1e-12)
	assert.InDelta(t, 15000.0/275, loop.GreatestCurrent().In(units.Milliampere), 1e-10)
	assert.InDelta(t, 725, loop.GreatestBurden().In(units.Ohm), 1e-9)
	assert.InDelta(t, 10000, loop.GreatestLength().In(units.Metre), 1e-8)
	assert.Equal(t, signal.Milliamps(20), loop.At(signal.Milliamps(20)))

	// At 21 mA of NAMUR NE 43 and 70 °C there is less to spare: 0.021·(250 + 25·1.1965) V.
	warm := loopOf(t, func(c *wiring.LoopConfig) {
		c.Full, c.Temperature = 21*units.Milliampere, units.Celsius(70)
	})
	assert.InDelta(t, 15-0.021*(250+25*1.1965), warm.Spare().In(units.Volt), 1e-10)
	assert.False(t, warm.Equal(loop))
}

// 900 Ω under 15 V carry 16.67 mA and no more.
func TestLoopThatIsShortOfVoltage(t *testing.T) {
	loop := loopOf(t, func(c *wiring.LoopConfig) { c.Burden = 875 * units.Ohm })
	assert.InDelta(t, -3, loop.Spare().In(units.Volt), 1e-12)
	assert.Zero(t, loop.GreatestLength())
	for sent, got := range map[float64]float64{4: 4, 16: 16, 20: 50 / 3.0, 1000: 50 / 3.0, -1: -1} {
		assert.InDelta(t, got, loop.At(signal.Milliamps(sent)).Number(), 1e-12)
	}
	assert.True(t, math.IsNaN(loop.At(signal.Milliamps(math.NaN())).Number()))
	assert.Equal(t, signal.Volts(20), loop.At(signal.Volts(20)))
	assert.Equal(t, signal.Signal{}, loop.At(signal.Signal{}))
	var text strings.Builder
	require.NoError(t, loop.WriteText(&text))
	assert.Contains(t, text.String(), "full current is not reached")
	assert.Contains(t, text.String(), "Caution")
}

func TestLoopWithoutResistance(t *testing.T) {
	loop := loopOf(t, func(c *wiring.LoopConfig) { c.Burden, c.Length = 0, 0 })
	assert.True(t, math.IsInf(float64(loop.GreatestCurrent()), 1))
	assert.Equal(t, signal.Milliamps(20), loop.At(signal.Milliamps(20)))
	assert.Equal(t, signal.Milliamps(20), wiring.Loop{}.At(signal.Milliamps(20)))
	assert.Zero(t, wiring.Loop{}.GreatestLength())
}

func TestLoopAtItsGreatestLengthHasNothingToSpare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		burden := units.Resistance(number(t, "burden", 0, 700))
		loop := loopOf(t, func(c *wiring.LoopConfig) { c.Burden = burden })
		end := loopOf(t, func(c *wiring.LoopConfig) { c.Burden, c.Length = burden, loop.GreatestLength() })
		require.InDelta(t, 0, float64(end.Spare()), 1e-12)
		full := loopOf(t, func(c *wiring.LoopConfig) { c.Burden = loop.GreatestBurden() })
		require.InDelta(t, 0, float64(full.Spare()), 1e-12)
	})
}

func TestLoopRefuses(t *testing.T) {
	_, err := wiring.NewLoop(wiring.LoopConfig{
		Source: 0, Keeps: 24 * units.Volt, Full: 4, Burden: -1, Length: -1, Temperature: units.Celsius(-100),
	})
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{"Source", "Keeps", "Full", "Burden", "Conductor", "Length", "Temperature"} {
		assert.ErrorContains(t, err, field)
	}
}
