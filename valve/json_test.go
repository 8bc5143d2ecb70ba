package valve_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Descriptions go through JSON without loss.
func TestConfigsInJSON(t *testing.T) {
	two := twoWayConfig(ballCurve())
	two.Stem, two.Stroke, two.Angle = valve.Rotary, 0, 90*units.Degree
	two.Leakage, two.Rangeability, two.Density = 1e-4, 30, 1033.3
	checkJSON(t, two)
	indep := fanCoilConfig()
	indep.SettingKind, indep.Stem, indep.MinPressureShare = valve.LiftLimiting, valve.PushToOpen, 0.95
	checkJSON(t, indep)
}

func checkJSON[C any](t *testing.T, cfg C) {
	t.Helper()
	data, err := json.Marshal(cfg)
	require.NoError(t, err)
	var back C
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Empty(t, cmp.Diff(cfg, back))
}
