package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Tuning holds the parameters of a PI(D) controller in the standard form (also
// called ISA or ideal form; Åström & Hägglund, "Advanced PID Control", ISA 2006):
//
//	u = K·( e + 1/Ti·∫e dt − Td·dy_f/dt ),  K = 1/Band
//
// One gain multiplies all three parts. In the parallel form each part has a gain
// of its own, K, K/Ti and K·Td; the series form of pneumatic controllers with K',
// Ti', Td' is K = K'·f, Ti = Ti'·f, Td = Td'/f with f = 1 + Td'/Ti'. The derivative
// acts on the measurement, not on the error, through a first-order filter of
// time constant Td/N.
type Tuning struct {
	// Band is the proportional band: the error that moves the output over its
	// whole range 0 … 1. The gain is its reciprocal.
	Band units.TemperatureDifference
	// IntegralTime is Ti, in which the integral repeats what the proportional part
	// does (reset time); 0 = no integral.
	IntegralTime time.Duration
	// DerivativeTime is Td; 0 = no derivative.
	DerivativeTime time.Duration
	// DerivativeFilter is N of the filter Td/N, 1 … 100; 0 = [DefaultDerivativeFilter].
	DerivativeFilter float64
}

// DefaultDerivativeFilter is N = 10, of the range 2 … 20 that is usual (Åström &
// Hägglund 2006).
const DefaultDerivativeFilter = 10

// leastBand keeps the sums of a controller from overflowing.
const leastBand = 1e-12 * units.Kelvin

func (t *Tuning) check(l *check.List) {
	if check.Positive(l, "Tuning.Band", t.Band) {
		l.Require(t.Band >= leastBand, "Tuning.Band", t.Band, "a picokelvin or more, which is on/off control already")
	}
	checkTime(l, "Tuning.IntegralTime", t.IntegralTime)
	checkTime(l, "Tuning.DerivativeTime", t.DerivativeTime)
	if t.DerivativeFilter != 0 {
		check.Within(l, "Tuning.DerivativeFilter", t.DerivativeFilter, 1, 100)
	}
}

// usable reports whether check would find nothing, without allocating.
func (t *Tuning) usable() bool {
	n := t.filter()
	return t.Band > 0 && !math.IsInf(float64(t.Band), 1) && n >= 1 && n <= 100 &&
		t.IntegralTime >= 0 && t.IntegralTime <= longest && t.DerivativeTime >= 0 && t.DerivativeTime <= longest
}

// filter returns N.
func (t *Tuning) filter() float64 {
	if t.DerivativeFilter == 0 {
		return DefaultDerivativeFilter
	}
	return t.DerivativeFilter
}

// tuning makes a tuning of a gain per kelvin and times in seconds.
func tuning(gain, ti, td float64) Tuning {
	return Tuning{Band: units.TemperatureDifference(1 / gain), IntegralTime: duration(ti), DerivativeTime: duration(td)}
}
