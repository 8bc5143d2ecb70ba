package valve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// IEC 60534-4 (from memory).
func TestLeakageShares(t *testing.T) {
	for class, percent := range map[valve.LeakageClass]float64{valve.LeakageClassII: 0.5, valve.LeakageClassIII: 0.1, valve.LeakageClassIV: 0.01} {
		share, err := class.Share()
		require.NoError(t, err)
		assert.InDelta(t, percent, share.In(units.Percent), 1e-15)
		cfg := twoWayConfig(valve.EqualPercentage(50))
		cfg.Leakage = share
		v, err := valve.NewTwoWay(cfg)
		require.NoError(t, err)
		assert.InDelta(t, percent/100*6.3, v.Flow(0, units.Bar).In(units.CubicMetrePerHour), 1e-15)
	}
	for class, why := range map[valve.LeakageClass]string{
		valve.LeakageClassI: "by agreement", valve.LeakageClassV: "seat diameter", valve.LeakageClassVI: "gas", 77: "no class unknown 77",
	} {
		_, err := class.Share()
		require.ErrorIs(t, err, units.ErrInvalid)
		assert.ErrorContains(t, err, why)
	}
}
