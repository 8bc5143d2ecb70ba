package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/units"
)

// Ultimate is the limit of stability of a loop under a proportional controller:
// there it swings for ever with constant amplitude.
type Ultimate struct {
	// Band is the proportional band at the limit, 1/Ku; a narrower one is unstable.
	Band units.TemperatureDifference
	// Period is the period Pu of the swing.
	Period time.Duration
}

// Ultimate returns the limit of stability of the process. The frequency ωu solves
// the phase condition
//
//	ωu·θ + atan(ωu·τ) = π,  then  Ku = √(1 + (ωu·τ)²)/Gain,  Pu = 2π/ωu
//
// (Nyquist's criterion; any control textbook). Newton's method from π/(2θ)
// approaches the root from below, since the left side rises and is concave.
func (p Process) Ultimate() Ultimate {
	gain, lag, dead := p.numbers()
	w := math.Pi / 2 / dead
	for range 60 {
		x := w * lag
		step := (math.Pi - float64(w*dead) - math.Atan(x)) / (dead + lag/(1+float64(x*x)))
		w += step
		if !(step > 1e-16*w) {
			break
		}
	}
	return Ultimate{units.TemperatureDifference(gain / math.Hypot(1, w*lag)), duration(2 * math.Pi / w)}
}

// UltimateFromRelay estimates the limit of stability from a relay test (Åström &
// Hägglund, Automatica 20, 1984, 645–651): the output is switched between two
// values by the sign of the error, and the temperature swings with an amplitude a
// (half the swing from peak to peak) and a period. With d half the step of the
// output, the describing function of the relay gives
//
//	Ku = 4·d/(π·a),  Pu = the period
//
// It is an approximation, since the swing is not a sine. On a first-order lag with
// dead time Ku comes out a fifth too low where the lag rules, and a quarter too high
// where the dead time does.
func UltimateFromRelay(step float64, amplitude units.TemperatureDifference, period time.Duration) Ultimate {
	return Ultimate{units.TemperatureDifference(math.Pi * float64(amplitude) / (2 * step)), period}
}
