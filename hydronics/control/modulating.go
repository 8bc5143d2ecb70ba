package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
)

// ModulatingConfig says how a modulating actuator follows its signal, beyond what
// its own model does. The figures are shares of the signal span or of the
// stroke; 0 means none. Data sheets give some, the rest must be measured.
type ModulatingConfig struct {
	// Output is the signal range of the controller's output. The zero Range is that of
	// the actuator's input; one that differs is a fault worth simulating.
	Output signal.Range `json:",omitzero"`
	// Resolution is the smallest change of signal that the electronics tell apart, 0 …
	// 0.2 of the span: 1/255 for eight bits. The signals for 0 and 1 get through as they are.
	Resolution float64
	// DeadBand is the change of signal that the actuator ignores to spare its motor,
	// 0 … 0.2 of the span; often 0.01 to 0.02 (common practice, no published source).
	DeadBand float64
	// Hysteresis is the play between drive and closing element, 0 … 0.2 of the
	// stroke: how far the drive must reverse before the valve moves.
	Hysteresis float64
	// Unpowered starts the drive without supply, so that its first steps are a
	// calibration. Otherwise it starts calibrated and tracking.
	Unpowered bool
}

// Modulating is a modulating actuator on its valve as the final element of a loop:
//
//	output → resolution → dead band → signal → drive with its speed → play → travel
//
// An actuator that closes on a rising signal is closed at an output of 1: the controller's
// action must suit. The drive, with action, shaping, stroke, speed and failures, is [actuator.Drive].
// The play is the operator of that name (Visintin, "Differential Models of
// Hysteresis", 1994): the valve stands still until the drive has taken up the width of
// the play. The drive's calibrated way is taken to include the play, so that a drive set to the
// valve's stroke, or self-adapting, reaches both ends. One that is set to a shorter stroke and
// takes the valve to a travel g ([actuator.Mounted.GreatestTravel]) without play leaves it
// at g − Hysteresis·(1 − g).
//
// Modulating changes with each step and is not safe for concurrent use; copies are
// independent. The zero Modulating stays closed.
type Modulating struct {
	cfg    ModulatingConfig
	on     actuator.Mounted
	drive  actuator.Drive
	dark   bool    // no supply
	passed float64 // the output that last got through the dead band
	travel float64
}

// NewModulating returns the final element with the valve at a relative travel of 0 …
// 1. The actuator's running time must be stated.
func NewModulating(cfg ModulatingConfig, m actuator.Mounted, travel float64) (Modulating, error) {
	l := check.List{Package: packageName}
	const most = 0.2
	check.Within(&l, "Resolution", cfg.Resolution, 0, most)
	check.Within(&l, "DeadBand", cfg.DeadBand, 0, most)
	check.Within(&l, "Hysteresis", cfg.Hysteresis, 0, most)
	check.Within(&l, "Travel", travel, 0, 1)
	if cfg.Output.IsZero() {
		a := m.Actuator()
		cfg.Output = a.Config().Input
	}
	s, _ := m.SignalFor(travel)
	drive, err := actuator.NewDrive(m, m.Respond(s).Extension)
	l.Add(err)
	if err := l.Err(); err != nil {
		return Modulating{}, err
	}
	if !cfg.Unpowered {
		drive.Step(longest, true, s)
	}
	r := Modulating{cfg: cfg, on: m, drive: drive, travel: drive.Snapshot().Travel}
	r.passed = cfg.Output.Read(s).Demand
	return r, nil
}

// SetPower switches the supply of the actuator off and on. It is on at first.
func (m *Modulating) SetPower(on bool) { m.dark = !on }

// Snapshot returns what the drive shows. Its travel is without the play.
func (m *Modulating) Snapshot() actuator.Snapshot { return m.drive.Snapshot() }

// Step lets time pass. The output goes out as a signal of the controller's range;
// NaN goes out as it is, and the actuator does what it does on a failed signal.
func (m *Modulating) Step(dt time.Duration, output float64) (travel float64) {
	m.pass(output)
	shown := m.drive.Step(dt, !m.dark, m.cfg.Output.Encode(m.passed))
	m.travel = m.play(shown.Travel)
	return m.travel
}

// Settle puts the actuator, if it has its supply, calibrated and at rest where the
// output sends it, in the middle of the play. A NaN changes nothing.
func (m *Modulating) Settle(output float64) (travel float64) {
	if !math.IsNaN(output) {
		m.passed = output
		m.travel = m.drive.Step(longest, !m.dark, m.cfg.Output.Encode(output)).Travel
	}
	return m.travel
}

// Delay returns half the time that the drive takes from one output to another, the play
// aside.
func (m *Modulating) Delay(from, to float64) time.Duration {
	low, _ := m.on.Travel(m.cfg.Output.Encode(from))
	high, _ := m.on.Travel(m.cfg.Output.Encode(to))
	way, _ := m.on.RunningTime(low, high)
	return way / 2
}

// pass rounds the output and lets it through if it differs enough. The ends pass
// always and as they are, so that neither a dead band nor a resolution that is no whole part of
// the span keeps a valve from closing.
func (m *Modulating) pass(output float64) {
	x, between := clamp(output, 0, 1), output > 0 && output < 1
	if r := m.cfg.Resolution; r > 0 && between {
		x = math.Min(math.Round(output/r)*r, 1)
	}
	if between && math.Abs(x-m.passed) <= m.cfg.DeadBand {
		return
	}
	m.passed = x
}

// play moves the valve as far as the drive pushes or pulls it.
func (m *Modulating) play(drive float64) float64 {
	p := m.cfg.Hysteresis
	if p == 0 {
		return drive
	}
	pulled := float64(drive*(1+p)) - p // the near and the far side of the play
	return clamp(clamp(m.travel, pulled, pulled+p), 0, 1)
}
