package schedule

import (
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
)

// driveChoice is an actuator set for a valve and a row.
type driveChoice struct {
	actuator *ActuatorModel // nil if none fits
	pair     *pair
	valve    *ValveModel
	config   actuator.Config
	input    input
	found    findings
}

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
		d.actuator, d.pair, d.valve = a, &pairs[i], c.valve.model
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
	d.setInput(n, found)
	d.config = d.actuator.config(d.input.set, d.pair.travel)
	d.config.ClosingEnd = d.pair.end
	d.setAction(n.row.OutputAction, found)
	d.setShaping(n.row.Response, found)
	d.setFeedback()
	d.setFailures(n.row, found, outcomes)
	if !d.pair.endFit {
		d.config.ClosingEnd = first(d.actuator.ClosingEnds)
		found.add(StemMismatch, textOf(d.config.ClosingEnd), textOf(d.pair.end))
	}
	if !d.pair.travelFit {
		found.add(StrokeMismatch, textOf(d.pair.travel.text()), textOf(d.pair.usable.text()))
	}
	d.judgeForce(n, found)
	d.judgeLimits(n.row, found)
}

// judgeForce finds an actuator that cannot move the valve, or cannot close it.
func (d *driveChoice) judgeForce(n *need, found *findings) {
	switch {
	case d.pair.weak && d.pair.usable.angle > 0:
		found.add(TooWeak, textOf(&d.actuator.Torque), textOf(&d.valve.Torque))
	case d.pair.weak:
		found.add(TooWeak, textOf(&d.actuator.Force), textOf(&d.pair.resists))
	case d.pair.closeOff < n.against && d.pair.end == actuator.Retracted:
		found.add(WeakSpring, pressureOf(d.pair.closeOff), pressureOf(n.against))
	case d.pair.closeOff < n.against:
		found.add(WeakCloseOff, pressureOf(d.pair.closeOff), pressureOf(n.against))
	}
}

// judgeLimits finds limits of the output at which the valve is not fully open.
func (d *driveChoice) judgeLimits(r *Row, found *findings) {
	low, high := r.limits()
	if d.input.limited {
		low.demand = 0
	}
	if opened := high.demand; r.OutputAction == RisingOpens && opened < 1-limitTolerance {
		found.add(LimitedSignal, shareOf(opened), shareOf(1))
	} else if opened := low.demand; r.OutputAction == RisingCloses && opened > limitTolerance {
		found.add(LimitedSignal, shareOf(opened), shareOf(0))
	}
}

// setAction picks the action with which a rising output does what it should.
func (d *driveChoice) setAction(want OutputAction, found *findings) {
	action := actuator.Direct
	if ((want == RisingOpens) != d.input.turned) == (d.pair.end == actuator.Extended) {
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
	return ActuatorChoice{
		Model: d.actuator, Config: d.config, Shunt: d.input.shunt, CloseOff: d.pair.closeOff, FullTime: d.fullTime(), Reason: d.reason(n),
	}
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
		response := chain.Respond(d.input.received(sent), n.total)
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
