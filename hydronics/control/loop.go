package control

import (
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// LoopConfig says what a loop is made of.
type LoopConfig struct {
	Controller Controller
	Element    FinalElement
	Plant      *Plant
	// Cycle is the time from one run of the controller to the next; 0 = every
	// step. Between its runs the output stands still.
	Cycle time.Duration
}

// Loop is a closed loop in simulation:
//
//	controller → final element → plant → sensor → controller
//
// Time is the caller's; nothing in it is random. A Loop changes with each step and
// is not safe for concurrent use. Steps do not allocate if the heat curve does not.
type Loop struct {
	controller Controller
	element    FinalElement
	plant      *Plant
	cycle      time.Duration
	elapsed    time.Duration
	waited     time.Duration // since the controller last ran
	output     float64
	driven     driven // nil if the motor moves as the valve does
}

// driven is a final element that shows its motor apart from the valve.
type driven interface{ Snapshot() actuator.Snapshot }

// Conditions are what acts on a loop from outside, constant during a step.
type Conditions struct {
	SetPoint units.Temperature
	// Base is the temperature that the plant would take without heat: the load.
	Base units.Temperature
	// SensorError is added to the temperature before the controller sees it: an
	// offset, or noise out of the caller's own seeded source.
	SensorError units.TemperatureDifference
}

// Moment is a loop at the end of a step.
type Moment struct {
	Output      float64                     // of the controller, 0 … 1
	Travel      float64                     // relative travel of the valve
	Drive       float64                     // of its motor, which also moves within the play
	Temperature units.Temperature           // true, without the sensor's error
	Deviation   units.TemperatureDifference // Temperature − SetPoint
}

// NewLoop returns a loop of parts in whatever state they are in. The final element
// and the plant remain the caller's to look at; a step changes them.
func NewLoop(cfg LoopConfig) (*Loop, error) {
	l := check.List{Package: packageName}
	l.Require(cfg.Controller.gain != 0, "Controller", "zero", "a controller made by NewController")
	cfg.checkParts(&l)
	if err := l.Err(); err != nil {
		return nil, err
	}
	return &Loop{
		controller: cfg.Controller, element: cfg.Element, plant: cfg.Plant, cycle: cfg.Cycle,
		output: cfg.Controller.Output(), waited: cfg.Cycle, driven: cfg.driven(),
	}, nil
}

// checkParts checks all but the controller.
func (c *LoopConfig) checkParts(l *check.List) {
	l.Require(c.Element != nil, "Element", "nil", "a final element")
	l.Require(c.Plant != nil && c.Plant.heat.curve != nil, "Plant", "none", "a plant made by NewPlant")
	checkTime(l, "Cycle", c.Cycle)
}

func (c *LoopConfig) driven() driven {
	d, _ := c.Element.(driven)
	return d
}

// Step lets time pass: the controller reads the sensor if its cycle is over, the
// final element moves, and the plant answers to the travel at the end of that
// move. A duration of zero or less changes nothing.
func (l *Loop) Step(dt time.Duration, c Conditions) Moment {
	if dt > 0 {
		l.control(dt, c)
		travel := l.element.Step(dt, l.output)
		l.plant.Step(dt, travel, c.Base)
		l.elapsed += dt
		return l.moment(travel, c)
	}
	return l.moment(l.element.Step(0, l.output), c)
}

// control runs the controller when it is due.
func (l *Loop) control(dt time.Duration, c Conditions) {
	if l.waited >= l.cycle {
		span := l.waited
		if l.cycle == 0 {
			span = dt
		}
		l.output = l.controller.Step(span, c.SetPoint, l.plant.Temperature().Add(c.SensorError))
		l.waited = 0
	}
	l.waited += dt
}

func (l *Loop) moment(travel float64, c Conditions) Moment {
	t := l.plant.Temperature()
	drive := travel
	if l.driven != nil {
		drive = l.driven.Snapshot().Travel
	}
	return Moment{Output: l.output, Travel: travel, Drive: drive, Temperature: t, Deviation: t.Sub(c.SetPoint)}
}

// Elapsed returns the time since the start.
func (l *Loop) Elapsed() time.Duration { return l.elapsed }

// Preset puts the controller where it gives that output, as [Controller.Preset]
// does, under the conditions given and the temperature as it is.
func (l *Loop) Preset(output float64, c Conditions) {
	l.controller.Preset(output, c.SetPoint, l.plant.Temperature().Add(c.SensorError))
	l.output = l.controller.Output()
}

// Run makes as many steps as the series is long, each of its Step, and writes them
// there. conditions tells what acts during the step that begins at a time since the
// start of the loop; it must not allocate if the run is not to.
func (l *Loop) Run(conditions func(at time.Duration) Conditions, into *Series) {
	for i := range into.Len() {
		into.store(i, l.Step(into.Step, conditions(l.elapsed)))
	}
}
