package actuator

import (
	"time"

	"github.com/indexrun/indexrun/signal"
)

// Outcome returns where a failure leaves a valve that this actuator fits. It is
// found by running the model: a [Drive] on such a valve tracks a signal to half
// travel, then the failure is put on it for long enough. [WriteFailureTable]
// prints the outcomes of all settings.
//
// An open wire on an input that reads it as zero is, on a range with a live zero,
// a signal below that zero.
func (a Actuator) Outcome(f Failure) Outcome {
	cfg := &a.cfg
	if f > OnEndStopNotFound || f == OnBelowLiveZero && !cfg.Input.LiveZero() {
		return NotApplicable
	}
	if cfg.RunningTime == 0 {
		cfg.RunningTime = time.Minute
	}
	d, s, err := a.rehearsal(f)
	if err != nil {
		return NotApplicable
	}
	powered := f != OnPowerLoss
	after := d.Step(longEnough*max(cfg.RunningTime, cfg.SpringTime), powered, cfg.failedSignal(f, s))
	travel := d.m.toStem.at(after.Extension)
	switch {
	case travel <= margin:
		return Closed
	case travel >= 1-margin:
		return Open
	}
	return Holds
}

const (
	half       = 0.5
	margin     = 1e-6 // of travel: the drive is at an end
	longEnough = 4    // running times: calibration takes two at most, a movement one
)

// rehearsal returns a drive that the failure can be put on, at half travel, with
// the signal that brought it there.
func (a Actuator) rehearsal(f Failure) (Drive, signal.Signal, error) {
	m, err := a.mountOnOwn()
	if err != nil {
		return Drive{}, signal.Signal{}, err
	}
	s, _ := m.SignalFor(half)
	if f == OnEndStopNotFound {
		d, err := NewDriveWithoutValve(a, half)
		return d, s, err
	}
	d, err := NewDrive(m, half)
	d.Step(longEnough*a.cfg.RunningTime, true, s)
	return d, s, err
}

// failedSignal returns what a failure leaves at the input, where there was s.
func (c *Config) failedSignal(f Failure, s signal.Signal) signal.Signal {
	switch f {
	case OnZeroSignal:
		return c.Input.Low()
	case OnOpenWire:
		return signal.Signal{}
	case OnBelowLiveZero:
		if c.Input.Kind() == signal.KindCurrent {
			return signal.Milliamps(0)
		}
		return signal.Volts(0)
	}
	return s
}
