package control

import (
	"math"
	"time"
)

// lag is a first-order lag, exact for an input that is constant over a step of any
// length: x moves towards v by the share 1 − e^(−h/τ).
type lag struct {
	constant time.Duration
	step     time.Duration // for which share was worked out
	share    float64
}

// after returns x when the input has been v for a time.
func (l *lag) after(x, v float64, dt time.Duration) float64 {
	if dt != l.step {
		l.step, l.share = dt, -math.Expm1(-float64(dt)/float64(l.constant))
	}
	return x + float64(l.share*(v-x))
}
