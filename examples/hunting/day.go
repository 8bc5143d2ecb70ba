package main

import (
	"cmp"
	"math"
	"slices"
	"time"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

const (
	step      = time.Second
	length    = 24 * time.Hour
	shower    = 12 * time.Hour
	stretch   = 3 * time.Hour // judged as one
	tolerance = 0.3 * units.Kelvin
)

// entering is the air before the heater, behind the heat recovery: a cold night, a mild
// afternoon that begins with a shower, and gusts all day.
func entering(at time.Duration) units.Temperature {
	h := at.Hours()
	celsius := 2 + 14.5*(rise((h-5)/7)-rise((h-17)/7))
	celsius += 0.12*math.Sin(2*math.Pi*at.Minutes()/7) + 0.08*math.Sin(2*math.Pi*at.Minutes()/19)
	if at >= shower && at < shower+5*time.Minute {
		celsius -= 2
	}
	return units.Celsius(celsius)
}

// rise goes smoothly from 0 at 0 to 1 at 1.
func rise(x float64) float64 {
	x = min(max(x, 0), 1)
	return x * x * (3 - 2*x)
}

// day is a unit, its tuning, what it did, and what to think of that.
type day struct {
	*unit
	tuning control.Tuning
	tuned  float64 // gain margin where it was tuned
	series control.Series
	judged []judgement
}

// simulate tunes the controller of a unit at half load and runs it for a day.
func simulate(u *unit, rule func(control.Process) control.Tuning) (*day, error) {
	process, err := u.process(halfLoad)
	if err != nil {
		return nil, err
	}
	d := &day{unit: u, tuning: rule(process), series: control.NewSeries(step, length)}
	d.tuned = process.Margins(d.tuning).Gain
	loop, err := newLoop(u, d.tuning)
	if err != nil {
		return nil, err
	}
	loop.Settle(conditions(0))
	loop.Run(conditions, &d.series)
	for from := time.Duration(0); from < length; from += stretch {
		j, err := d.judge(from, from+stretch)
		if err != nil {
			return nil, err
		}
		d.judged = append(d.judged, j)
	}
	return d, nil
}

// newLoop is the loop of a unit under a controller.
func newLoop(u *unit, t control.Tuning) (*control.Loop, error) {
	cfg, err := u.loop()
	if err != nil {
		return nil, err
	}
	cfg.Controller, err = control.NewController(control.Config{Action: control.ReverseActing, Tuning: t})
	if err != nil {
		return nil, err
	}
	return control.NewLoop(cfg)
}

func conditions(at time.Duration) control.Conditions {
	return control.Conditions{SetPoint: setPoint, Base: entering(at)}
}

// judgement is what a stretch of the day looks like, and what theory says of it.
type judgement struct {
	from, to time.Duration
	air      units.Temperature // in its middle
	travel   float64           // mean
	swing    control.Swing[units.TemperatureDifference]
	moved    control.Movement // of the motor
	margin   float64          // by which the gain may still rise, from the process at that air
}

func (d *day) judge(from, to time.Duration) (judgement, error) {
	j := judgement{from: from, to: to, air: entering((from + to) / 2)}
	process, err := d.process(j.air)
	if err != nil {
		return j, err
	}
	j.margin = process.Margins(d.tuning).Gain
	part := d.series.Between(from, to)
	j.swing = control.DetectHunting(part.Deviation, step, tolerance)
	j.moved = control.MovementOf(part.Drive, step)
	for _, t := range part.Travel {
		j.travel += t / float64(len(part.Travel))
	}
	return j, nil
}

// worst is the stretch with the least gain margin.
func (d *day) worst() judgement {
	return slices.MinFunc(d.judged, func(a, b judgement) int { return cmp.Compare(a.margin, b.margin) })
}

// cycles reports whether the loop hunts where its gain allows it to be at rest: dead band
// and play let the integral part carry it to and fro.
func (d *day) cycles() bool {
	return slices.ContainsFunc(d.judged, func(j judgement) bool {
		return j.swing.Verdict == control.Hunting && j.margin >= nearly
	})
}
