package control

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

const packageName = "control"

// Config describes a PI(D) controller. It is plain data; [NewController] makes
// the controller. In JSON times are text such as "5m0s".
type Config struct {
	// Action says which way the output moves: reverse-acting for heating.
	Action Action
	Tuning Tuning
	// SetPointReduction is 1 − b, where b is the set-point weight (Åström &
	// Hägglund 2006): the share of a change of the set point that the
	// proportional part leaves to the integral, 0 … 1. 0 is the textbook form; 1
	// gives the gentlest answer to a new set point. It needs an integral.
	SetPointReduction float64
	// Bias is the output at zero error of a controller without integral, and the
	// start of the integral of one that has it; 0 … 1.
	Bias float64
	// Least and Greatest limit the output, 0 ≤ Least < Greatest ≤ 1. Both 0 means
	// 0 … 1.
	Least, Greatest float64
}

func (c *Config) validate() error {
	l := check.List{Package: packageName}
	check.Enum(&l, "Action", c.Action, DirectActing)
	c.Tuning.check(&l)
	if check.Within(&l, "SetPointReduction", c.SetPointReduction, 0, 1) && c.Tuning.IntegralTime == 0 {
		l.Require(c.SetPointReduction == 0, "SetPointReduction", c.SetPointReduction,
			"0 without an integral, which would never make up for the reduction")
	}
	check.Within(&l, "Bias", c.Bias, 0, 1)
	low, high := c.limits()
	check.Within(&l, "Least", low, 0, 1)
	check.Within(&l, "Greatest", high, 0, 1)
	l.Require(!(low >= high), "Greatest", high, "more than Least")
	return l.Err()
}

// limits returns the limits of the output.
func (c *Config) limits() (low, high float64) {
	if c.Least == 0 && c.Greatest == 0 {
		return 0, 1
	}
	return c.Least, c.Greatest
}

// clamp keeps x within limits; NaN stays NaN.
func clamp(x, low, high float64) float64 { return math.Max(low, math.Min(x, high)) }
