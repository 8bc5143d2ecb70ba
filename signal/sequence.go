package signal

import (
	"fmt"
	"math"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
)

// SequenceConfig describes stages that share one controller signal (a split
// range).
type SequenceConfig struct {
	Stages []StageConfig
}

// Sequence is a set of stages on one controller demand, such as heating over the
// lower part, nothing over a dead zone and cooling over the upper part. Make it with
// [NewSequence]; it is immutable. The zero Sequence has no stages.
type Sequence struct{ stages []Stage }

// leastStage is the least share of the controller's demand that a stage spans.
const leastStage = 0.01

// NewSequence checks the configuration. Each stage needs a name of its own and
// spans at least 1 % of the controller's demand. Stages that go the same way may
// overlap; a falling stage must be back at 0 where a rising one begins, for
// otherwise the two would work against each other.
func NewSequence(cfg SequenceConfig) (Sequence, error) {
	l := check.List{Package: packageName}
	l.Require(len(cfg.Stages) > 0, "Stages", len(cfg.Stages), "at least one stage")
	s := Sequence{make([]Stage, len(cfg.Stages))}
	for i, stage := range cfg.Stages {
		s.checkStage(&l, i, stage)
		s.stages[i] = newStage(stage)
	}
	if l.Err() == nil {
		low, high := s.DeadZone()
		l.Require(low <= high, "Stages", fmt.Sprintf("falling from %g and rising from %g", low, high),
			"every falling stage to begin at or below every rising one")
	}
	if err := l.Err(); err != nil {
		return Sequence{}, err
	}
	return s, nil
}

func (s Sequence) checkStage(l *check.List, i int, cfg StageConfig) {
	field := func(name string) string { return fmt.Sprintf("Stages[%d].%s", i, name) }
	l.Require(cfg.Name != "", field("Name"), `""`, "a name")
	_, taken := Sequence{s.stages[:i]}.Stage(cfg.Name)
	l.Require(!taken, field("Name"), cfg.Name, "a name that no other stage has")
	from := check.Within(l, field("From"), cfg.From, 0, 1)
	to := check.Within(l, field("To"), cfg.To, 0, 1)
	if from && to {
		l.Require(math.Abs(cfg.To-cfg.From) >= leastStage, field("To"), cfg.To,
			fmt.Sprintf("at least %g away from From, %g", leastStage, cfg.From))
	}
}

// Stages returns the stages in the order of the configuration.
func (s Sequence) Stages() []Stage { return slices.Clone(s.stages) }

// Stage returns the stage of that name; false if there is none.
func (s Sequence) Stage(name string) (Stage, bool) {
	i := slices.IndexFunc(s.stages, func(stage Stage) bool { return stage.name == name })
	if i < 0 {
		return Stage{}, false
	}
	return s.stages[i], true
}

// AppendDemands appends the demand of each stage, in the order of the
// configuration, at a demand of the controller. It does not allocate if dst has room.
func (s Sequence) AppendDemands(dst []float64, demand float64) []float64 {
	for _, stage := range s.stages {
		dst = append(dst, stage.At(demand))
	}
	return dst
}

// DeadZone returns the controller's demands between which every stage is at 0:
// from the highest beginning of a falling stage (0 if none falls) to the lowest
// beginning of a rising one (1 if none rises). The two are equal if there is no dead
// zone.
func (s Sequence) DeadZone() (low, high float64) {
	low, high = 0, 1
	for _, stage := range s.stages {
		if stage.IsFalling() {
			low = max(low, stage.from)
		} else {
			high = min(high, stage.from)
		}
	}
	return low, high
}

// Equal reports whether s and t have the same stages in the same order.
func (s Sequence) Equal(t Sequence) bool { return slices.Equal(s.stages, t.stages) }
