package schedule

import (
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// driveChoice is an actuator set for a valve and a row.
type driveChoice struct {
	actuator *ActuatorModel // nil if none fits
	pair     *pair
	valve    *ValveModel
	config   actuator.Config
	shunt    bool
	turned   bool // the input range is the controller's turned over
	found    findings
}

// shuntResistance turns 4–20 mA into 2–10 V and 0–20 mA into 0–10 V.
const shuntResistance = 500 * units.Ohm

// bestDrive finds the actuator that suits a valve best and sets it.
func (p *picker) bestDrive(n *need, c *candidate) error {
	pairs, err := p.pairsOf(c)
	if err != nil {
		return err
	}
	best := math.MaxInt
	for i, a := range p.stock.actuators {
		if !pairs[i].allowed {
			continue
		}
		d := &p.trial
		d.actuator, d.pair, d.valve, d.shunt, d.turned = a, &pairs[i], c.valve.model, false, false
		d.found.reset()
		d.set(n, &d.found, p.outcomes)
		if d.found.weight < best {
			best = d.found.weight
			c.drive, p.trial = p.trial, c.drive // the lists change places too
		}
	}
	if c.drive.actuator == nil {
		c.drive.found.add(NoActuator, Value{}, textOf(word(c.valve.model.ID)))
	}
	return nil
}

// pairsOf is what each actuator can make of the valve at its setting.
func (p *picker) pairsOf(c *candidate) ([]pair, error) {
	if c.fit.lift == 1 {
		return c.valve.pairs, nil
	}
	at := liftedAt{c.valve, max(1, int(math.Round(c.fit.lift*liftSteps)))}
	if known, ok := p.lifted[at]; ok {
		return known.pairs, nil
	}
	v, err := p.stock.lifted(at.valve, float64(at.step)/liftSteps)
	p.lifted[at] = v
	return v.pairs, err
}

// liftedAt names a valve at a setting that stops its stem.
type liftedAt struct {
	valve *stockValve
	step  int
}

// set chooses every setting of the actuator and finds what is wrong with it.
func (d *driveChoice) set(n *need, found *findings, outcomes outcomeCache) {
	d.config = d.actuator.config(d.setRange(n, found), d.pair.travel)
	d.config.ClosingEnd = d.pair.end
	d.setAction(n.row.OutputAction, found)
	d.setShaping(n.row.Response, found)
	d.setFeedback()
	d.setFailures(n.row, found, outcomes)
	if !d.pair.endFit {
		found.add(StemMismatch, textOf(first(d.actuator.ClosingEnds)), textOf(d.pair.end))
	}
	if !d.pair.travelFit {
		found.add(StrokeMismatch, textOf(d.pair.travel.text()), textOf(d.pair.usable.text()))
	}
	if d.pair.closeOff < n.against {
		kind := WeakCloseOff
		if d.pair.end == actuator.Retracted {
			kind = WeakSpring
		}
		found.add(kind, pressureOf(d.pair.closeOff), pressureOf(n.against))
	}
}

// setRange picks the controller's range, the same turned over, or what a shunt
// makes of it.
func (d *driveChoice) setRange(n *need, found *findings) signal.Range {
	ranges := d.actuator.Ranges
	if slices.Contains(ranges, n.row.Output) {
		return n.row.Output
	}
	if turned := n.row.Output.Inverse(); slices.Contains(ranges, turned) {
		d.turned = true
		return turned
	}
	if i := slices.Index(ranges, n.shunted); i >= 0 && !n.shunted.IsZero() {
		d.shunt = true
		found.add(NeedsShunt, textOf(&ranges[i]), textOf(&n.row.Output))
		return n.shunted
	}
	i := nearestRange(ranges, n.row.Output)
	found.add(RangeNotSettable, textOf(&ranges[i]), textOf(&n.row.Output))
	return ranges[i]
}

// nearestRange is the number of the range on which the ends of an output read
// nearest to 0 and 1.
func nearestRange(ranges []signal.Range, output signal.Range) int {
	best, least := 0, math.Inf(1)
	for i, r := range ranges {
		zero, one := r.Read(output.Encode(0)), r.Read(output.Encode(1))
		miss := zero.Demand + (1 - one.Demand)
		if r.Kind() == output.Kind() && miss < least {
			best, least = i, miss
		}
	}
	return best
}

func idealShunt() (signal.Shunt, error) {
	return signal.NewShunt(signal.ShuntConfig{Resistor: shuntResistance})
}

// shuntedRange is what a shunt makes of a range in milliamps, the zero Range for
// any other.
func shuntedRange(output signal.Range) signal.Range {
	if output.Kind() != signal.KindCurrent {
		return signal.Range{}
	}
	shunt, err := idealShunt()
	if err != nil {
		return signal.Range{}
	}
	shunted, err := shunt.ConvertRange(output)
	if err != nil {
		return signal.Range{}
	}
	return shunted
}

// setAction picks the action with which a rising output does what it should.
func (d *driveChoice) setAction(want OutputAction, found *findings) {
	action := actuator.Direct
	if ((want == RisingOpens) != d.turned) == (d.pair.end == actuator.Extended) {
		action = actuator.Reverse
	}
	d.config.Action = action
	if !slices.Contains(d.actuator.Actions, action) {
		d.config.Action = first(d.actuator.Actions)
		found.add(ActionNotSettable, textOf(d.config.Action), textOf(action))
	}
}

func (d *driveChoice) setShaping(want Response, found *findings) {
	choice := &d.pair.shaping[want]
	d.config.Shaping = choice.shaping
	if choice.miss > shapingMiss {
		found.add(ShapingNotSettable, textOf(&choice.shaping), textOf(want))
	}
}

// setFeedback takes feedback in the range of the input where it can be had.
func (d *driveChoice) setFeedback() {
	d.config.Feedback = first(d.actuator.Feedback)
	if slices.Contains(d.actuator.Feedback, d.config.Input) {
		d.config.Feedback = d.config.Input
	}
}

// text is the stroke, or the angle.
func (t *travel) text() fmt.Stringer {
	if t.angle > 0 {
		return &t.angle
	}
	return &t.stroke
}

// choice is the drive as the plan reports it.
func (d *driveChoice) choice(n *need) ActuatorChoice {
	if d.actuator == nil {
		return ActuatorChoice{}
	}
	c := ActuatorChoice{Model: d.actuator, Config: d.config, CloseOff: d.pair.closeOff, FullTime: d.fullTime(), Reason: d.reason(n)}
	if d.shunt {
		c.Shunt = shuntResistance
	}
	return c
}

// fullTime is the time for the valve's usable stroke at the actuator's speed.
func (d *driveChoice) fullTime() time.Duration {
	usable := &d.pair.usable
	if usable.angle > 0 {
		return time.Duration(float64(d.config.RunningTime) * float64(usable.angle/d.config.Angle))
	}
	return time.Duration(float64(d.config.RunningTime) * min(1, float64(usable.stroke/d.config.Stroke)))
}

func (d *driveChoice) reason(n *need) Reason {
	pattern := "{0}, because a rising output must open and the valve closes with the stem {1}; {2} on the valve's {3} comes nearest to {4}"
	if n.row.OutputAction == RisingCloses {
		pattern = "{0}, because a rising output must close and the valve closes with the stem {1}; {2} on the valve's {3} comes nearest to {4}"
	}
	return Reason{pattern, [5]Value{textOf(d.config.Action), textOf(d.pair.end), textOf(&d.pair.shaping[n.row.Response].shaping), textOf(&d.valve.Characteristic), textOf(n.row.Response)}}
}

// expectedAt are the controller outputs of the expectations.
var expectedAt = [...]float64{0, 0.25, 0.5, 0.75, 1}

// expectations runs the chain at five outputs of the controller.
func expectations(n *need, d *driveChoice, chain *hydronics.Chain) []Expectation {
	low, high := n.row.limits()
	drive := chain.Drive()
	list := make([]Expectation, len(expectedAt))
	for i, x := range expectedAt {
		sent := n.row.Output.Encode(low.demand + x*(high.demand-low.demand))
		response := chain.Respond(d.received(sent), n.total)
		if list[i] = (Expectation{Output: x, Signal: sent, Held: response.Held}); response.Held {
			continue
		}
		e := &list[i]
		e.Feedback, _ = drive.FeedbackFor(response.Travel)
		e.Travel, e.Flow = response.Travel, response.Flow
		e.Stem, e.Turn = drive.Stem(response.Position), drive.Turn(response.Position)
	}
	return list
}

// received is what a signal becomes at the actuator's input.
func (d *driveChoice) received(sent signal.Signal) signal.Signal {
	if !d.shunt {
		return sent
	}
	shunt, err := idealShunt()
	if err != nil {
		return sent
	}
	return shunt.Convert(sent)
}
