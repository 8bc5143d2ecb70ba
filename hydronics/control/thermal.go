package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
)

// ThermalConfig describes a thermal actuator, a heated wax element that moves the stem,
// switched on and off by pulse-width modulation.
type ThermalConfig struct {
	// Cycle is the period of the modulation, a second at least. In each the actuator
	// gets power for a share equal to the output.
	Cycle time.Duration
	// OpeningDelay is the time under power from cold until the stem moves.
	OpeningDelay time.Duration
	// OpeningTime is the time under power from cold until the end of the stroke, more
	// than the delay.
	OpeningTime time.Duration
	// TimeConstant is that of the wax element, warming and cooling; above zero.
	TimeConstant time.Duration
	// OpenWithoutPower marks an actuator that power closes.
	OpenWithoutPower bool
}

// Thermal is an on/off thermal actuator under pulse-width modulation as the final
// element of a loop. The wax is a first-order lag between cold (0) and the warmth w = 1
// that lasting power leads to; the stem moves in proportion between the warmth at
// the end of the delay and that at the end of the opening time,
//
//	h = (w − w₁)/(w₂ − w₁),  w₁ = 1 − e^(−OpeningDelay/τ),  w₂ = 1 − e^(−OpeningTime/τ)
//
// limited to 0 … 1. It is this package's own model, no published source: real elements
// also have some hysteresis, and ambient temperature and supply voltage shift their
// times. Because the wax cools below w₁ in a pause, small outputs may not open the valve
// at all, which is true of real ones.
//
// The output is read at the start of each cycle. A Thermal changes with each step and
// is not safe for concurrent use; copies are independent. The zero Thermal stays
// closed.
type Thermal struct {
	cycle     time.Duration
	wax       lag
	from, to  float64 // warmth at the ends of the stroke
	inverted  bool
	sinceEdge time.Duration // into the cycle
	on        time.Duration // how long the power is on in this cycle
	warmth    float64
}

// NewThermal returns the final element after a long time without power.
func NewThermal(cfg ThermalConfig) (Thermal, error) {
	l := check.List{Package: packageName}
	l.Require(cfg.Cycle >= time.Second && cfg.Cycle <= longest, "Cycle", cfg.Cycle, "1s to "+longest.String())
	checkTime(&l, "OpeningDelay", cfg.OpeningDelay)
	checkSpan(&l, "TimeConstant", cfg.TimeConstant)
	const most = 20 // time constants: warmth is 1 but for 2e-9
	l.Require(cfg.OpeningTime > cfg.OpeningDelay && cfg.OpeningTime <= most*cfg.TimeConstant, "OpeningTime", cfg.OpeningTime,
		"more than the delay and up to 20 time constants")
	if err := l.Err(); err != nil {
		return Thermal{}, err
	}
	wax := lag{constant: cfg.TimeConstant}
	return Thermal{
		cycle: cfg.Cycle, wax: wax, inverted: cfg.OpenWithoutPower,
		from: wax.after(0, 1, cfg.OpeningDelay), to: wax.after(0, 1, cfg.OpeningTime),
	}, nil
}

// Step lets time pass. On a NaN output at the start of a cycle there is no power in
// that cycle.
func (t *Thermal) Step(dt time.Duration, output float64) (travel float64) {
	for dt > 0 && t.cycle > 0 {
		if t.sinceEdge == 0 {
			t.on = t.powerTime(output)
		}
		edge, goal := t.cycle, 0.0
		if t.sinceEdge < t.on {
			edge, goal = t.on, 1
		}
		span := min(dt, edge-t.sinceEdge)
		t.warmth = t.wax.after(t.warmth, goal, span)
		dt -= span
		if t.sinceEdge += span; t.sinceEdge == t.cycle {
			t.sinceEdge = 0
		}
	}
	return t.Travel()
}

// powerTime returns how long the power is on in a cycle.
func (t *Thermal) powerTime(output float64) time.Duration {
	share := clamp(output, 0, 1)
	if t.inverted {
		share = 1 - share
	}
	if math.IsNaN(share) {
		return 0
	}
	return time.Duration(math.Round(share * float64(t.cycle)))
}

// Settle puts the wax where it is at the start of a cycle once cycles of that output
// repeat, with p the share of the cycle c under power,
//
//	w = e^(−(1−p)·c/τ)·(1 − e^(−p·c/τ))/(1 − e^(−c/τ))
//
// (a first-order lag between two levels). It returns the travel at the mean warmth, which
// is p. A NaN changes nothing.
func (t *Thermal) Settle(output float64) (travel float64) {
	if math.IsNaN(output) || t.cycle == 0 {
		return t.Travel()
	}
	on := t.powerTime(output)
	t.sinceEdge, t.on = 0, on
	t.warmth = t.wax.after(t.wax.after(0, 1, on), 0, t.cycle-on) / t.wax.after(0, 1, t.cycle)
	return t.travelAt(float64(on) / float64(t.cycle))
}

// Delay returns half the cycle, since the output is read at its start, and the time
// constant of the wax. To count a lag as dead time is on the safe side.
func (t *Thermal) Delay(_, _ float64) time.Duration { return t.cycle/2 + t.wax.constant }

// Travel returns the relative travel of the valve as it is.
func (t *Thermal) Travel() float64 { return t.travelAt(t.warmth) }

func (t *Thermal) travelAt(warmth float64) float64 {
	if !(t.to > t.from) {
		return 0
	}
	h := clamp((warmth-t.from)/(t.to-t.from), 0, 1)
	if t.inverted {
		return 1 - h
	}
	return h
}
