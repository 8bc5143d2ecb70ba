package control

import (
	"math"
	"time"
)

// SIMC returns the PI tuning of Skogestad (Journal of Process Control 13, 2003,
// 291–309):
//
//	K = τ/(Gain·(τc + θ)),  Ti = min(τ, 4·(τc + θ))
//
// closedLoop is τc, the time constant wanted of the closed loop; 0 or less means
// τc = θ, the rule's choice for fast control with good margins: Ms is 1.59 where
// Ti = τ and rises to 1.70 where the lag is long. A longer one is gentler on the
// actuator.
func SIMC(p Process, closedLoop time.Duration) Tuning {
	gain, lag, dead := p.numbers()
	wanted := closedLoop.Seconds()
	if wanted <= 0 {
		wanted = dead
	}
	return tuning(lag/(gain*(wanted+dead)), math.Min(lag, 4*(wanted+dead)), 0)
}
