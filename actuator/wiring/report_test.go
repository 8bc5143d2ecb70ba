package wiring_test

import (
	"errors"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func TestReportsCarryTheCautionsThatApply(t *testing.T) {
	const (
		always, half, mixed = "lock off the supply", "magnetises", "short half the bridge"
		full, tolerance     = "isolated from their bridge", "out of tolerance"
	)
	fullWave := wiring.Load{Power: 5 * wiring.VoltAmpere, Rectification: wiring.FullWave}
	for name, tt := range map[string]struct {
		change func(*wiring.Config)
		want   []string
	}{
		"half-wave": {func(*wiring.Config) {}, []string{always, half}},
		"mixed":     {func(c *wiring.Config) { c.Devices[1].Load = fullWave }, []string{always, half, mixed}},
		"full-wave": {func(c *wiring.Config) {
			for i := range c.Devices {
				c.Devices[i].Load = fullWave
			}
		}, []string{always, full}},
		"heater beside half-wave": {func(c *wiring.Config) {
			c.Devices[1] = wiring.Device{Load: fullWave, Feed: wiring.NoSignal}
		}, []string{always, half}},
		"separate common": {func(c *wiring.Config) {
			c.Devices[1].Load, c.Common = fullWave, wiring.SeparateCommon
		}, []string{always, half}},
		"direct":  {func(c *wiring.Config) { c.Supply.Kind = wiring.Direct }, []string{always}},
		"too low": {func(c *wiring.Config) { c.Supply.Voltage = 19 * units.Volt }, []string{always, half, tolerance}},
	} {
		t.Run(name, func(t *testing.T) {
			cfg := threeDrives()
			tt.change(&cfg)
			var b strings.Builder
			require.NoError(t, mustChain(t, cfg).WriteText(&b))
			text := strings.ReplaceAll(b.String(), "\n", " ")
			for _, caution := range []string{always, half, mixed, full, tolerance} {
				assert.Equal(t, slices.Contains(tt.want, caution), strings.Contains(text, caution), caution)
			}
		})
	}
	var b strings.Builder
	require.NoError(t, wiring.Chain{}.WriteText(&b))
	assert.Contains(t, b.String(), always)
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestReportsPassOnErrors(t *testing.T) {
	assert.ErrorContains(t, mustChain(t, threeDrives()).WriteText(brokenWriter{}), "disk full")
	assert.ErrorContains(t, loopOf(t, nil).WriteText(brokenWriter{}), "disk full")
	for _, result := range []interface{ WriteText(io.Writer) error }{
		wiring.Transformer{}, wiring.Longest{}, wiring.Conductor{}, wiring.Transfer{}, wiring.Limits{},
	} {
		assert.ErrorContains(t, result.WriteText(brokenWriter{}), "disk full")
	}
}

// One line with the figures, then the caution.
func TestResultsCarryTheCaution(t *testing.T) {
	line := transfer(t, mustChain(t, one(100, wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent})), 0)
	for want, result := range map[string]interface{ WriteText(io.Writer) error }{
		"Cable: up to 40.3 m, then signal-error at device 3":                                           wiring.Longest{Length: 40.31 * units.Metre, Device: 2, By: wiring.BySignalError},
		"Cable: no limit is reached within 1000 km":                                                    wiring.Longest{Length: units.Length(math.Inf(1)), Scale: math.Inf(1)},
		"Conductor: 1.5 mm², 12.10 Ω for 1 km at 20 °C":                                                mm2(1.5),
		"Signal: gain 1.0000, offset -0.500 V; 10 V is seen as 9.500 V":                                line,
		"Opening demand: 0.0 % (the drive reads under-range) … 95.0 % (in-range); never opens fully":   line.Limits(signal.Range0To10V(), true),
		"Opening demand: 5.0 % (the drive reads in-range) … 100.0 % (under-range); never closes fully": line.Limits(signal.Range0To10V(), false),
		"Opening demand: 0.0 % (the drive reads failed) … 93.8 % (in-range); never opens fully":        line.Limits(signal.Range2To10V(), true),
		"Opening demand: 0.0 % (the drive reads in-range) … 100.0 % (in-range)":                        wiring.Transfer{}.Limits(signal.Range0To10V(), true),
	} {
		var b strings.Builder
		require.NoError(t, result.WriteText(&b))
		first, rest, _ := strings.Cut(b.String(), "\n\n")
		assert.Equal(t, want, first)
		assert.True(t, strings.HasPrefix(rest, "Caution: isolate and lock off"), rest)
	}
}
