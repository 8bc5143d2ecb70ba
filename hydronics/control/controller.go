package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/units"
)

// Controller is a PI(D) controller in discrete time. It has no clock of its own:
// the caller says how much time has passed, steps may differ in length, and the
// same steps always give the same output.
//
// With e the error r − y of set point and measurement (y − r if the controller is
// direct-acting), K = 1/Band and h the length of the step, a step does
//
//	P = K·e
//	I = I + K·h/Ti·e                             backward difference
//	D = Td/(Td + N·h)·(D − K·N·(y − y_before))   backward difference, exact at rest
//	u = P + I + D, limited
//
// (Åström & Wittenmark, "Computer-Controlled Systems", 3rd ed., 1997; the sign
// of D follows the action.)
// A change of the set point takes the share SetPointReduction of its proportional kick
// back out of I, which is the same as a set-point weight.
//
// Anti-windup is conditional integration: where the output is at a limit, the
// integral stops moving further beyond it, and a step that would carry the
// output past a limit integrates only as far as the limit. The integral is free
// to return at any time.
//
// A Controller changes with each step and is not safe for concurrent use; copies
// are independent. The zero Controller's output is 0.
type Controller struct {
	gain      float64 // signed by the action, per kelvin
	ti, td, n float64 // seconds, and the filter's N
	reduction float64
	low, high float64

	started     bool
	setPoint    units.Temperature // of the last step
	measurement units.Temperature
	integral    float64 // I
	derivative  float64 // D
	output      float64
}

// NewController checks the configuration and returns a controller at rest. The
// error joins every fault, each a *units.FieldError that unwraps to
// units.ErrInvalid.
func NewController(cfg Config) (Controller, error) {
	if err := cfg.validate(); err != nil {
		return Controller{}, err
	}
	low, high := cfg.limits()
	c := Controller{
		gain: 1 / float64(cfg.Tuning.Band), ti: cfg.Tuning.IntegralTime.Seconds(),
		td: cfg.Tuning.DerivativeTime.Seconds(), n: cfg.Tuning.filter(),
		reduction: cfg.SetPointReduction, low: low, high: high,
		integral: cfg.Bias, output: clamp(cfg.Bias, low, high),
	}
	if cfg.Action == DirectActing {
		c.gain = -c.gain
	}
	return c, nil
}

// Step lets time pass since the step before and returns the output, 0 … 1,
// within the limits. A duration below zero counts as zero.
//
// If the set point or the measurement is not a number, or beyond a million kelvin as some
// interfaces have it for a broken wire, the result is NaN and the
// controller keeps its state, so that a sensor that comes back finds it as it
// was. What the plant does meanwhile is for the caller to decide.
func (c *Controller) Step(dt time.Duration, setPoint, measurement units.Temperature) float64 {
	if !usable(setPoint) || !usable(measurement) {
		return math.NaN()
	}
	e := float64(setPoint.Sub(measurement))
	h := max(0, dt.Seconds())
	if c.started {
		c.integral -= float64(c.gain * c.reduction * float64(setPoint.Sub(c.setPoint)))
		c.differentiate(h, float64(measurement.Sub(c.measurement)))
	}
	c.started, c.setPoint, c.measurement = true, setPoint, measurement
	rest := float64(c.gain*e) + c.derivative
	c.integrate(h, e, rest)
	c.output = clamp(rest+c.integral, c.low, c.high)
	return c.output
}

// usable reports whether a temperature is one: what is far beyond any overflows in the sums
// and would leave a NaN in the state.
func usable(t units.Temperature) bool {
	const most = 1e6 // K
	return math.Abs(t.Kelvin()) <= most
}

// differentiate updates D for a rise of the measurement.
func (c *Controller) differentiate(h, rise float64) {
	if c.td > 0 {
		c.derivative = c.td / (c.td + float64(c.n*h)) * (c.derivative - float64(c.gain*c.n*rise))
	}
}

// integrate updates I, given the other parts of the output.
func (c *Controller) integrate(h, e, rest float64) {
	if !(c.ti > 0) {
		return
	}
	next := c.integral + float64(c.gain*h/c.ti*e)
	if next > c.integral {
		c.integral = math.Min(next, math.Max(c.integral, c.high-rest))
	} else {
		c.integral = math.Max(next, math.Min(c.integral, c.low-rest))
	}
}

// excess is above zero where an output that leads to an error in the end is more than what
// the controller would rest at.
func (c *Controller) excess(output, e float64) float64 {
	if c.ti > 0 {
		return -c.gain * e
	}
	return output - clamp(float64(c.gain*e)+c.integral, c.low, c.high)
}

// Output returns the output of the last step, at first the Bias within the limits.
func (c *Controller) Output() float64 { return c.output }

// Preset puts the controller where a step without time, at that set point and
// measurement, gives that output: the bumpless change from hand to automatic. The
// output is limited first. Without an integral only the derivative is cleared. A
// NaN, or a temperature that Step does not take, changes nothing.
func (c *Controller) Preset(output float64, setPoint, measurement units.Temperature) {
	if math.IsNaN(output) || !usable(setPoint) || !usable(measurement) {
		return
	}
	e := float64(setPoint.Sub(measurement))
	c.started, c.setPoint, c.measurement, c.derivative = true, setPoint, measurement, 0
	if c.ti > 0 {
		c.integral = clamp(output, c.low, c.high) - float64(c.gain*e)
	}
	c.output = clamp(float64(c.gain*e)+c.integral, c.low, c.high)
}
