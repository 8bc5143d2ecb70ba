package wiring_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func TestZeroTransferAltersNothing(t *testing.T) {
	var line wiring.Transfer
	assert.Equal(t, signal.Volts(6.2), line.At(signal.Volts(6.2)))
	assert.Equal(t, signal.Volts(6.2), line.Inverse(signal.Volts(6.2)))
	assert.InDelta(t, 1, line.Gain(), 0)
	assert.Zero(t, line.Offset())
}

// What is not a voltage passes, NaN stays NaN.
func TestTransferOfOtherSignals(t *testing.T) {
	line := transfer(t, mustChain(t, threeDrives()), 2)
	assert.False(t, line.Equal(wiring.Transfer{}))
	for _, s := range []signal.Signal{{}, signal.Milliamps(12)} {
		assert.Equal(t, s, line.At(s))
		assert.Equal(t, s, line.Inverse(s))
	}
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		assert.Equal(t, signal.Failed, signal.Range0To10V().Read(line.At(signal.Volts(x))).Status)
	}
	assert.True(t, math.IsNaN(line.At(signal.Volts(math.NaN())).Number()))
	assert.True(t, math.IsNaN(line.Inverse(signal.Volts(math.NaN())).Number()))
}

// 0.5 V too little takes a live zero of 2 V below 1.8 V, where it reads as a broken wire.
func TestLimitsOfALiveZero(t *testing.T) {
	line := transfer(t, mustChain(t, one(100, wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent})), 0)
	got := line.Limits(signal.Range2To10V(), true)
	assert.Equal(t, signal.Failed, got.WhenClosed)
	assert.Equal(t, signal.InRange, got.WhenOpen)
	assert.Zero(t, got.Closed)
	assert.InDelta(t, 7.5/8, got.Open, 1e-12)

	// On 10–2 V the demand falls as the signal rises: 10 V stands for 0 and is seen as 9.5 V.
	got = line.Limits(signal.Range2To10V().Inverse(), true)
	assert.Equal(t, signal.Failed, got.WhenOpen)
	assert.InDelta(t, 0.5/8, got.Closed, 1e-12)
	assert.InDelta(t, 1, got.Open, 0)
	got = line.Limits(signal.Range2To10V(), false)
	assert.Equal(t, signal.Failed, got.WhenOpen)
	assert.InDelta(t, 0.5/8, got.Closed, 1e-12)
}

// By hand: 1 kΩ on 100 kΩ leaves 100/101, on four of them 25/26; 50 Ω of line are as good
// as 50 Ω of output.
func TestDivider(t *testing.T) {
	for _, tt := range []struct {
		cfg  wiring.DividerConfig
		gain float64
	}{
		{wiring.DividerConfig{Output: 1 * units.Kilohm, Input: 100 * units.Kilohm}, 100.0 / 101},
		{wiring.DividerConfig{Output: 1 * units.Kilohm, Input: 100 * units.Kilohm, Inputs: 4}, 25.0 / 26},
		{wiring.DividerConfig{Output: 50 * units.Ohm, Line: 50 * units.Ohm, Input: 900 * units.Ohm}, 0.9},
		{wiring.DividerConfig{Output: 1 * units.Kilohm}, 1},
		{wiring.DividerConfig{Output: 1 * units.Kilohm, Input: units.Resistance(math.Inf(1))}, 1},
	} {
		line, err := wiring.NewDivider(tt.cfg)
		require.NoError(t, err)
		assert.InEpsilon(t, tt.gain, line.Gain(), 1e-15)
		assert.Zero(t, line.Offset())
		assert.InDelta(t, 10*tt.gain, line.At(signal.Volts(10)).Number(), 1e-14)
	}
	_, err := wiring.NewDivider(wiring.DividerConfig{Output: -1, Line: units.Resistance(math.NaN()), Input: 0.1, Inputs: -1})
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{"Output", "Line", "Input:", "Inputs"} {
		assert.ErrorContains(t, err, field)
	}
}

// The divider is the chain of one device at no distance.
func TestDividerIsAChainWithoutLength(t *testing.T) {
	cfg := one(0, wiring.Load{})
	cfg.Output, cfg.Devices[0].Input = 680*units.Ohm, 47*units.Kilohm
	divider, err := wiring.NewDivider(wiring.DividerConfig{Output: 680 * units.Ohm, Input: 47 * units.Kilohm})
	require.NoError(t, err)
	assert.InDelta(t, divider.Gain(), transfer(t, mustChain(t, cfg), 0).Gain(), 1e-15)
}

func TestTransferDoesNotAllocate(t *testing.T) {
	c := mustChain(t, threeDrives())
	loop := loopOf(t, nil)
	var sum float64
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		line, _ := c.Transfer(2)
		d, _ := c.At(1)
		sum += line.At(d.Sent).Number() + line.Inverse(signal.Volts(3)).Number() + line.Limits(signal.Range0To10V(), true).Open +
			loop.At(signal.Milliamps(20)).Number() + float64(loop.Spare()+c.Total().Current.Through(1))
	}))
	assert.NotZero(t, sum)
}
