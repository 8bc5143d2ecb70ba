package wiring_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
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
	assert.ErrorContains(t, wiring.Transformer{}.WriteText(brokenWriter{}), "disk full")
}
