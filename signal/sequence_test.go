package signal_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

type stages = []signal.StageConfig

func mustSequence(list ...signal.StageConfig) signal.Sequence {
	return must(signal.NewSequence(signal.SequenceConfig{Stages: list}))
}

func heatingCooling() signal.Sequence {
	return mustSequence(
		signal.StageConfig{Name: "heating", From: 0.45, To: 0},
		signal.StageConfig{Name: "cooling", From: 0.55, To: 1},
	)
}

func TestSequenceDemands(t *testing.T) {
	s := heatingCooling()
	for _, tt := range []struct{ demand, heating, cooling float64 }{
		{-1, 1, 0}, {0, 1, 0}, {0.09, 0.8, 0}, {0.225, 0.5, 0}, {0.45, 0, 0}, {0.5, 0, 0},
		{0.55, 0, 0}, {0.64, 0, 0.2}, {0.775, 0, 0.5}, {1, 0, 1}, {2, 0, 1},
	} {
		got := s.AppendDemands(nil, tt.demand)
		require.Len(t, got, 2)
		assert.InDelta(t, tt.heating, got[0], 1e-12, tt.demand)
		assert.InDelta(t, tt.cooling, got[1], 1e-12, tt.demand)
	}
	low, high := s.DeadZone()
	assert.InDelta(t, 0.45, low, 0)
	assert.InDelta(t, 0.55, high, 0)
}

func TestDeadZone(t *testing.T) {
	for _, tt := range []struct {
		list      stages
		low, high float64
	}{
		{nil, 0, 1},
		{stages{{Name: "a", From: 0.3, To: 1}}, 0, 0.3},
		{stages{{Name: "a", From: 0.3, To: 0}}, 0.3, 1},
		{stages{{Name: "a", From: 0.5, To: 0}, {Name: "b", From: 0.5, To: 1}}, 0.5, 0.5},
		{stages{{Name: "free cooling", From: 0.4, To: 0.8}, {Name: "cooling", From: 0.6, To: 1}, {Name: "heating", From: 0.2, To: 0}}, 0.2, 0.4},
	} {
		var s signal.Sequence
		if tt.list != nil {
			s = mustSequence(tt.list...)
		}
		low, high := s.DeadZone()
		assert.InDelta(t, tt.low, low, 0)
		assert.InDelta(t, tt.high, high, 0)
	}
}

func TestSequenceRefuses(t *testing.T) {
	for name, list := range map[string]stages{
		"no stage":       nil,
		"no name":        {{From: 0, To: 1}},
		"same name":      {{Name: "a", From: 0, To: 1}, {Name: "a", From: 0, To: 1}},
		"below 0":        {{Name: "a", From: -0.1, To: 1}},
		"above 1":        {{Name: "a", From: 0, To: 1.1}},
		"NaN":            {{Name: "a", From: math.NaN(), To: 1}},
		"no width":       {{Name: "a", From: 0.5, To: 0.5}},
		"overlap":        {{Name: "heating", From: 0.6, To: 0}, {Name: "cooling", From: 0.4, To: 1}},
		"both always on": {{Name: "heating", From: 1, To: 0.6}, {Name: "cooling", From: 0, To: 0.4}},
	} {
		_, err := signal.NewSequence(signal.SequenceConfig{Stages: list})
		assert.ErrorIs(t, err, units.ErrInvalid, name)
	}
	_, err := signal.NewSequence(signal.SequenceConfig{Stages: stages{{Name: "a", From: 2, To: 0}, {From: 0, To: 1}}})
	assert.ErrorContains(t, err, "Stages[0].From: got 2")
	assert.ErrorContains(t, err, "Stages[1].Name", "all faults are reported")
}

func TestSequenceCopiesItsConfig(t *testing.T) {
	list := stages{{Name: "heating", From: 0.45, To: 0}}
	s := mustSequence(list...)
	list[0].Name = "changed"
	s.Stages()[0] = signal.Stage{}
	stage, ok := s.Stage("heating")
	require.True(t, ok)
	assert.Equal(t, "heating", stage.Name())
	assert.InDelta(t, 0.45, stage.From(), 0)
	assert.InDelta(t, 0.0, stage.To(), 0)
	assert.True(t, stage.IsFalling())
	_, ok = s.Stage("cooling")
	assert.False(t, ok)
}

func TestStageInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.Float64Range(0, 1).Draw(t, "from")
		to := rapid.Float64Range(0, 1).Filter(func(to float64) bool { return math.Abs(to-from) >= 0.01 }).Draw(t, "to")
		stage := mustSequence(signal.StageConfig{Name: "a", From: from, To: to}).Stages()[0]
		y := rapid.Float64Range(0, 1).Draw(t, "y")
		require.InDelta(t, y, stage.At(stage.Inverse(y)), 1e-12)
		for _, end := range []float64{0, 1} {
			require.InDelta(t, end, stage.At(stage.Inverse(end)), 0)
		}
	})
}

func TestStageOfNaNAndOfNothing(t *testing.T) {
	stage := heatingCooling().Stages()[0]
	assert.True(t, math.IsNaN(stage.At(math.NaN())))
	assert.True(t, math.IsNaN(stage.Inverse(math.NaN())))
	assert.Zero(t, signal.Stage{}.At(1))
	assert.Zero(t, signal.Stage{}.Inverse(1))
}

// The range to set on the actuator reads the controller's signal as the stage
// reads the controller's demand.
func TestStageRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide := rapid.SampledFrom(named).Draw(t, "wide").r
		demand := rapid.Float64Range(0, 1).Draw(t, "demand")
		for _, stage := range heatingCooling().Stages() {
			input, err := stage.Range(wide)
			require.NoError(t, err)
			reading := input.Read(wide.Encode(demand))
			require.Equal(t, signal.InRange, reading.Status)
			require.InDelta(t, stage.At(demand), reading.Demand, 1e-12)
		}
	})
}

func TestStageRangeRefuses(t *testing.T) {
	narrow := mustSequence(signal.StageConfig{Name: "a", From: 0.5, To: 0.51}).Stages()[0]
	_, err := narrow.Range(signal.Range1To5V())
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = narrow.Range(signal.Range{})
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestSequenceEqualServesCmp(t *testing.T) {
	assert.Empty(t, cmp.Diff(heatingCooling(), heatingCooling()))
	assert.NotEmpty(t, cmp.Diff(heatingCooling(), signal.Sequence{}))
	assert.Empty(t, cmp.Diff(heatingCooling().Stages(), heatingCooling().Stages()))
}

func TestAppendDemandsDoesNotAllocate(t *testing.T) {
	s, dst := heatingCooling(), make([]float64, 0, 2)
	assert.Zero(t, testing.AllocsPerRun(100, func() { dst = s.AppendDemands(dst[:0], 0.7) }))
}
