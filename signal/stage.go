package signal

// StageConfig describes one stage of a sequence: a valve, a damper, a fan.
type StageConfig struct {
	// Name tells the stages apart, such as "heating".
	Name string
	// From and To are the controller's demands, 0…1, at which the stage is at 0 and
	// at 1. From above To is a falling stage: From 0.45 and To 0 open the heating
	// valve as the controller goes down.
	From, To float64
}

// Stage is one stage of a [Sequence]. Stages are immutable and comparable; the
// zero Stage stays at 0.
type Stage struct {
	name      string
	from, to  float64
	perDemand float64
}

func newStage(cfg StageConfig) Stage {
	return Stage{cfg.Name, cfg.From, cfg.To, reciprocal(cfg.To - cfg.From)}
}

// Name returns the name of the stage.
func (s Stage) Name() string { return s.name }

// From returns the controller's demand at which the stage begins to rise from 0.
func (s Stage) From() float64 { return s.from }

// To returns the controller's demand at which the stage reaches 1.
func (s Stage) To() float64 { return s.to }

// IsFalling reports whether the stage rises as the controller's demand falls.
func (s Stage) IsFalling() bool { return s.to < s.from }

// Equal reports whether s and t are the same stage.
func (s Stage) Equal(t Stage) bool { return s == t }

// At returns the demand of the stage at a demand of the controller:
// (x − From)/(To − From), clamped to 0…1 and exact at both ends. NaN gives NaN.
func (s Stage) At(demand float64) float64 {
	return min(max(float64((demand-s.from)*s.perDemand), 0), 1)
}

// Inverse returns the demand of the controller at which the stage has a demand:
// From + y·(To − From), with y clamped to 0…1 and the ends exact. NaN gives NaN.
func (s Stage) Inverse(stageDemand float64) float64 {
	switch {
	case stageDemand <= 0:
		return s.from
	case stageDemand >= 1:
		return s.to
	}
	return s.from + float64(stageDemand*(s.to-s.from))
}

// Range returns the input range to set on the stage's actuator when the
// controller sends wide: heating from 0.45 to 0 on 0–10 V is 4.5–0 V of 0–10 V. It
// fails if the ends come too close together for [NewRange].
func (s Stage) Range(wide Range) (Range, error) {
	window, err := NewRange(wide.Encode(s.from), wide.Encode(s.to))
	if err != nil {
		return Range{}, err
	}
	return window.Within(wide)
}
