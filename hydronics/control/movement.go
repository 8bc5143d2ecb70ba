package control

import "math"

// Movement is how much a valve has moved: what wears packing, gear and motor.
type Movement struct {
	Strokes   float64 // way in whole strokes
	Starts    int     // movements that began from a standstill
	Reversals int     // changes of direction, with or without a standstill between
	Duty      float64 // share of the time in motion, 0 … 1
}

// MovementOf returns the movement of a series of travels at equal steps of time. Between
// two places the valve counts as moving if they differ.
func MovementOf(travel []float64) Movement {
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
	}
	return m
}
