package control

import "math"

// loopTransfer is the frequency response of controller and process in series, in
// kelvin-free gain and seconds.
type loopTransfer struct{ gain, ti, td, n, lag, dead float64 }

// point is the loop at one frequency. The phase runs on below −π; it is exact
// since the controller's part never leaves ±π/2.
type point struct{ w, size, phase float64 }

func (l *loopTransfer) at(w float64) point {
	re, im := 1.0, 0.0
	if l.td > 0 {
		x := w * l.td
		y := x / l.n
		re += float64(x*y) / (1 + float64(y*y))
		im += x / (1 + float64(y*y))
	}
	if l.ti > 0 {
		im -= 1 / (w * l.ti)
	}
	x := w * l.lag
	return point{
		w:     w,
		size:  l.gain * math.Hypot(re, im) / math.Hypot(1, x),
		phase: math.Atan2(im, re) - math.Atan(x) - float64(w*l.dead),
	}
}

// sensitivity is |1/(1 + L)|.
func (p point) sensitivity() float64 {
	sin, cos := math.Sincos(p.phase)
	return 1 / math.Hypot(1+float64(p.size*cos), p.size*sin)
}

// turns counts how often the phase has passed −π, −3π, −5π and so on.
func (p point) turns() int { return int(math.Floor((math.Pi - p.phase) / (2 * math.Pi))) }

// ceiling is a bound of the size at this and all higher frequencies.
func (l *loopTransfer) ceiling(w float64) float64 {
	roll := math.Hypot(1, w*l.lag)
	steady := 1.0
	if l.ti > 0 {
		steady += 1 / (w * l.ti)
	}
	return l.gain * (float64(steady/roll) + math.Min(l.td/l.lag, l.n/roll))
}

// lowest is a frequency far below all that shape the loop.
func (l *loopTransfer) lowest() float64 {
	slowest := math.Max(math.Max(l.lag, l.dead), math.Max(l.ti, l.td))
	if l.ti > 0 {
		slowest = math.Max(slowest, l.ti/l.gain) // where the integral alone crosses 1
	}
	return 1e-3 / slowest
}

// onlyFalls reports whether the phase falls from this frequency on: the integral's
// lag has gone, Ti/(1 + ω²Ti²) < θ/2, and the derivative is past its greatest lead.
func (l *loopTransfer) onlyFalls(w float64) bool {
	return (l.ti == 0 || w*w*l.ti*l.dead >= 2) && (l.td == 0 || w*l.td >= l.n)
}
