package control

import (
	"math"
	"time"
)

// Movement is how much a valve or its motor has moved: what wears packing, gear and
// motor.
type Movement struct {
	Strokes   float64       // way in whole strokes
	Starts    int           // movements that began from a standstill
	Reversals int           // changes of direction, with or without a standstill between
	Duty      float64       // share of the time in motion, 0 … 1
	Time      time.Duration // from the first place to the last
}

// MovementOf returns the movement of a series of travels at equal steps of time. Between
// two places it counts as moving if they differ. Series.Travel tells what packing and
// plug have to bear, Series.Drive what the motor does: the same, and its way within
// the play.
func MovementOf(travel []float64, step time.Duration) Movement {
	var m Movement
	moving, way, steps := false, 0.0, 0
	for i := 1; i < len(travel); i++ {
		d := travel[i] - travel[i-1]
		if !(math.Abs(d) > 0) {
			moving = false
			continue
		}
		if !moving {
			m.Starts++
		}
		if d*way < 0 {
			m.Reversals++
		}
		moving, way = true, math.Copysign(1, d)
		m.Strokes += math.Abs(d)
		steps++
	}
	if n := len(travel) - 1; n > 0 {
		m.Duty = float64(steps) / float64(n)
		m.Time = time.Duration(n) * max(0, step)
	}
	return m
}

// Hourly returns strokes, starts and reversals for each hour; 0 if no time has
// passed.
func (m Movement) Hourly() (strokes, starts, reversals float64) {
	if m.Time == 0 {
		return 0, 0, 0
	}
	h := m.Time.Hours()
	return m.Strokes / h, float64(m.Starts) / h, float64(m.Reversals) / h
}
