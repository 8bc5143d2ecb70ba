package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/units"
)

// Margins say how far a closed loop is from swinging.
type Margins struct {
	// Stable reports whether the closed loop is stable at all.
	Stable bool
	// Gain is the gain margin: the factor by which the loop's gain may rise before the
	// loop swings; below 1 on an unstable loop. 2.5 and more is sound (rules aim
	// at 2.5 … 4): a valve whose gain at low load is three times that at design uses
	// up a margin of three.
	Gain float64
	// Phase is the phase margin; +Inf if the loop's gain is below 1 at every frequency.
	// 45° … 60° is sound. On an unstable loop it is below 0, by the phase where the gain falls
	// through 1 for the last time; that counts whole turns, and so may be many times −360°.
	Phase units.Angle
	// Sensitivity is Ms, the greatest of |1/(1 + L)| over all frequencies, +Inf on
	// an unstable loop: the most that feedback magnifies a disturbance. 1.4 … 1.7 is
	// sound, above 2 the loop rings. It warrants a gain margin of Ms/(Ms − 1) and a
	// phase margin of 2·asin(1/(2·Ms)).
	Sensitivity float64
	// DeadTime is the dead time that may be added before the loop swings, 0 on an
	// unstable loop, and the longest Duration if there is no such limit.
	DeadTime time.Duration
}

// Margins returns the margins of the process under a controller, from
//
//	L(s) = Gain/Band·(1 + 1/(Ti·s) + Td·s/(1 + Td·s/N))·e^(−θs)/(τs + 1)
//
// in continuous time, by Nyquist's criterion (definitions: Åström & Hägglund
// 2006). They are exact for the model, found to about 1e-9 by a scan and
// bisection. A slow sampling controller is worse: add half its cycle to the dead
// time, or take the process from [LoopConfig.Process]. A tuning that NewController would refuse
// gives NaN.
//
// The model has no dead band and no play. In them a loop that is unstable here can
// stand still, and look steady, until a disturbance moves it: test it with one.
func (p Process) Margins(t Tuning) Margins {
	gain, lag, dead := p.numbers()
	l := loopTransfer{
		gain: gain / float64(t.Band), lag: lag, dead: dead,
		ti: t.IntegralTime.Seconds(), td: t.DerivativeTime.Seconds(), n: t.filter(),
	}
	if !t.usable() || !(l.gain > 0 && dead > 0) || math.IsInf(l.gain, 0) {
		nan := math.NaN()
		return Margins{Gain: nan, Phase: units.Angle(nan), Sensitivity: nan}
	}
	s := l.scan()
	return s.margins()
}
