package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Process returns the process that the controller of the loop sees under some
// conditions, linearised as a step test in hand control about the output o that holds the
// set point there: from o − width/2 to o + width/2. Its gain is that of final element, valve
// and terminal. Of a plant made by [NewRoom] gain and time constant are those of room and
// terminal together, which the heat that falls as the room gets warmer makes smaller: both by
// 1 − heat′/Conductance. The dead time is
//
//	θ = plant's dead time + Element.Delay over the step + Cycle/2
//
// (the area method for the drive: Åström & Hägglund 2006; half the sampling time:
// Åström & Wittenmark 1997). The configuration's Controller is not used, so that it can be
// tuned from the result.
//
// A width of 0.1 is usual, well above dead band and resolution. The step is cut to 0 … 1,
// and the gain is then that of the middle of what is left: about an output of 0.02 a
// step of 0.1 covers 0 … 0.07. Where the curve bends, choose less than twice the
// distance to the nearer end.
//
// It is an error where no output holds the set point, where the step changes
// nothing, and without a dead time. Process moves Element: it stands settled at o
// afterwards, and so should not be that of a loop at work.
func (c LoopConfig) Process(at Conditions, width float64) (Process, error) {
	l := check.List{Package: packageName}
	c.checkParts(&l)
	l.Require(width > 0 && width <= 1, "Width", width, "above 0, 1 at most")
	if err := l.Err(); err != nil {
		return Process{}, err
	}
	end := func(output float64) units.Temperature {
		return units.AbsoluteKelvin(c.Plant.settled(c.Element.Settle(output), at.Base))
	}
	shut, open := end(0), end(1)
	const slack = 1e-9 // K
	goal := at.SetPoint.Add(-at.SensorError)
	reached := float64(goal.Sub(shut))*float64(goal.Sub(open)) <= slack
	l.Require(reached, "SetPoint", at.SetPoint, "between "+shut.String()+" and "+open.String()+", which the final element can hold")
	if err := l.Err(); err != nil {
		return Process{}, err
	}
	way := math.Copysign(1, float64(open.Sub(shut)))
	o := rest(0, 1, func(output float64) float64 { return way * float64(end(output).Sub(goal)) })
	low, high := math.Max(0, o-width/2), math.Min(1, o+width/2)
	rise := math.Abs(float64(end(high).Sub(end(low))))
	_, slope := c.Plant.drift(c.Element.Settle(o), at.Base, goal.Kelvin())
	plant := &c.Plant.cfg
	return NewProcess(ProcessConfig{
		Gain:         units.TemperatureDifference(rise / (high - low)),
		TimeConstant: time.Duration(math.Round(float64(plant.TimeConstant) / -slope)),
		DeadTime:     plant.DeadTime + c.Element.Delay(low, high) + c.Cycle/2,
	})
}

// Settle puts the whole loop at rest under the conditions: controller, final element and
// plant stand where they hold the set point, or at the end nearest to that if
// the load is beyond reach, or with the offset that a controller without integral
// leaves. Dead band, resolution and play are left out: the element stands where it would
// without them. If a condition is not a finite number the moment has a NaN output and nothing changes.
func (l *Loop) Settle(c Conditions) Moment {
	if x := float64(c.SetPoint.Sub(c.Base)) + float64(c.SensorError); math.IsNaN(x) || math.IsInf(x, 0) {
		m := l.Step(0, c)
		m.Output = math.NaN()
		return m
	}
	k := &l.controller
	output := rest(k.low, k.high, func(output float64) float64 {
		t := units.AbsoluteKelvin(l.plant.settled(l.element.Settle(output), c.Base))
		return k.excess(output, float64(c.SetPoint.Sub(t.Add(c.SensorError))))
	})
	l.plant.Settle(l.element.Settle(output), c.Base)
	l.Preset(output, c)
	l.waited = l.cycle
	return l.Step(0, c)
}

// rest returns where a rising function passes zero, by bisection, or the end
// nearest to that.
func rest(low, high float64, f func(float64) float64) float64 {
	switch {
	case f(low) >= 0:
		return low
	case f(high) <= 0:
		return high
	}
	for range 60 {
		if middle := low + (high-low)/2; f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}
