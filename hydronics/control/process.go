package control

import (
	"time"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// ProcessConfig describes a process as a tuning rule sees it: what the measured
// temperature does when the controller's output makes a small step. Find the three
// by a step test on the loop in hand control, near the load at which it is
// liveliest.
type ProcessConfig struct {
	// Gain is the steady change of temperature for a change of output from 0 to 1, at
	// the slope of the working point; an amount, above zero, for cooling too.
	Gain units.TemperatureDifference
	// TimeConstant is τ, from the end of the dead time to 63.2 % of the change.
	TimeConstant time.Duration
	// DeadTime is θ, from the step until the temperature moves: transport, sensor,
	// sampling. Half the sampling time and the actuator's own delay count too:
	// [LoopConfig.Process] adds them.
	DeadTime time.Duration
}

// Process is a first-order lag with dead time,
//
//	G(s) = Gain·e^(−θs)/(τs + 1)
//
// the model that the tuning rules and margins work on. It is an immutable value;
// for the same law in time see [Plant]. The zero Process has NaN margins.
type Process struct{ cfg ProcessConfig }

// NewProcess checks the configuration and returns the process. The gain, the time
// constant and the dead time are above zero; τ/θ is 0.001 … 1e6.
func NewProcess(cfg ProcessConfig) (Process, error) {
	const least, greatest = 1e-3, 1e6
	l := check.List{Package: packageName}
	check.Positive(&l, "Gain", cfg.Gain)
	checkSpan(&l, "TimeConstant", cfg.TimeConstant)
	checkSpan(&l, "DeadTime", cfg.DeadTime)
	if ratio := float64(cfg.TimeConstant) / float64(cfg.DeadTime); cfg.TimeConstant > 0 && cfg.DeadTime > 0 {
		l.Require(ratio >= least && ratio <= greatest, "TimeConstant", cfg.TimeConstant, "0.001 to 1e6 times the dead time")
	}
	if err := l.Err(); err != nil {
		return Process{}, err
	}
	return Process{cfg}, nil
}

// Config returns the configuration that the process was made from.
func (p Process) Config() ProcessConfig { return p.cfg }

// Equal reports whether two processes are the same.
func (p Process) Equal(q Process) bool { return p.cfg == q.cfg }

// numbers returns gain, τ and θ in kelvin and seconds.
func (p *Process) numbers() (gain, lag, dead float64) {
	return float64(p.cfg.Gain), p.cfg.TimeConstant.Seconds(), p.cfg.DeadTime.Seconds()
}
