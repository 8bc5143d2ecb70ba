package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
)

// ThreePointConfig describes a motor that two contacts open and close (three-point or
// floating control) and the controller output that pulses it.
type ThreePointConfig struct {
	// OpeningTime is what the motor takes for the whole stroke, above zero.
	OpeningTime time.Duration
	// ClosingTime is the same the other way; 0 = OpeningTime.
	ClosingTime time.Duration
	// AssumedTime is the running time that the controller is set to, for both ways;
	// 0 = OpeningTime. A wrong figure makes the reckoned position drift.
	AssumedTime time.Duration
	// DeadZone is the difference between output and reckoned position that the
	// controller leaves alone, 0 … 0.5. It spares contacts and motor; often 0.01 to
	// 0.03 (common practice, no published source).
	DeadZone float64
}

// ThreePoint is a three-point (floating) actuator as the final element of a loop. The
// controller does not know the position; it reckons it from its own pulses:
//
//   - it starts a pulse when output and reckoned position differ by more than the
//     dead zone, and ends it when they agree;
//   - at an output of 0 or 1 it keeps the contact closed, so that the stem meets its
//     stop and the reckoning agrees with it again.
//
// The motor runs at constant speed and stays where it is without a pulse; end
// switches stop it. All this is common practice, no published source. On site the two
// contacts must be interlocked: power on both at once can destroy the motor.
//
// A ThreePoint changes with each step and is not safe for concurrent use; copies are
// independent. With the output held, the result does not depend on how the time is
// split into steps. The zero ThreePoint stays closed.
type ThreePoint struct {
	opening, closing, assumed float64 // s
	zone                      float64
	travel, reckoned          float64
	pulse                     float64 // +1 opening, −1 closing, 0 none
}

// NewThreePoint returns the final element with the valve at a relative travel of 0 …
// 1, of which the controller knows.
func NewThreePoint(cfg ThreePointConfig, travel float64) (ThreePoint, error) {
	l := check.List{Package: packageName}
	checkSpan(&l, "OpeningTime", cfg.OpeningTime)
	checkTime(&l, "ClosingTime", cfg.ClosingTime)
	checkTime(&l, "AssumedTime", cfg.AssumedTime)
	check.Within(&l, "DeadZone", cfg.DeadZone, 0, 0.5)
	check.Within(&l, "Travel", travel, 0, 1)
	if err := l.Err(); err != nil {
		return ThreePoint{}, err
	}
	or := func(t time.Duration) float64 {
		if t == 0 {
			t = cfg.OpeningTime
		}
		return t.Seconds()
	}
	return ThreePoint{
		opening: or(0), closing: or(cfg.ClosingTime), assumed: or(cfg.AssumedTime),
		zone: cfg.DeadZone, travel: travel, reckoned: travel,
	}, nil
}

// Step lets time pass. A NaN output ends the pulse: the motor stops where it is.
func (t *ThreePoint) Step(dt time.Duration, output float64) (travel float64) {
	left := dt.Seconds()
	switch {
	case !(left > 0) || !(t.assumed > 0):
	case math.IsNaN(output):
		t.pulse = 0
	case output <= 0:
		t.run(-left)
		t.pulse = 0
	case output >= 1:
		t.run(left)
		t.pulse = 0
	default:
		t.approach(output, left)
	}
	return t.travel
}

// approach starts, continues or ends a pulse towards an output between the ends.
func (t *ThreePoint) approach(output, left float64) {
	miss := output - t.reckoned
	way := math.Copysign(1, miss)
	if !(math.Abs(miss) > t.zone) && t.pulse != way {
		t.pulse = 0
		return
	}
	need := math.Abs(miss) * t.assumed
	if need > left {
		t.pulse = way
		t.run(way * left)
		return
	}
	t.pulse = 0
	t.run(way * need)
	t.reckoned = output
}

// Settle puts motor and reckoning where the output is, without a pulse. A NaN changes
// nothing.
func (t *ThreePoint) Settle(output float64) (travel float64) {
	if !math.IsNaN(output) {
		t.travel, t.pulse = clamp(output, 0, 1), 0
		t.reckoned = t.travel
	}
	return t.travel
}

// Delay returns half the time that the motor takes from one output to another.
func (t *ThreePoint) Delay(from, to float64) time.Duration {
	full := t.opening
	if to < from {
		full = t.closing
	}
	return duration(math.Abs(clamp(to, 0, 1)-clamp(from, 0, 1)) * full / 2)
}

// Reckoned returns where the controller believes the valve to be.
func (t *ThreePoint) Reckoned() float64 { return t.reckoned }

// run moves motor and reckoning for some seconds, closing if below zero.
func (t *ThreePoint) run(seconds float64) {
	full := t.opening
	if seconds < 0 {
		full = t.closing
	}
	t.travel = clamp(t.travel+seconds/full, 0, 1)
	t.reckoned = clamp(t.reckoned+seconds/t.assumed, 0, 1)
}
