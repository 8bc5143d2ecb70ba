package schedule

import (
	"fmt"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
)

// outcomeKey is all that the outcome of a failure depends on.
type outcomeKey struct {
	input         signal.Range
	action        actuator.Action
	end           actuator.End
	powerLoss     actuator.PowerLoss
	openWire      actuator.OpenWire
	belowLiveZero actuator.BelowLiveZero
	failure       actuator.Failure
}

// outcomeCache keeps outcomes that were worked out by running the model.
type outcomeCache map[outcomeKey]actuator.Outcome

func (c outcomeCache) of(cfg *actuator.Config, f actuator.Failure) actuator.Outcome {
	key := outcomeKey{cfg.Input, cfg.Action, cfg.ClosingEnd, cfg.PowerLoss, cfg.OpenWire, cfg.BelowLiveZero, f}
	outcome, known := c[key]
	if !known {
		outcome = workOut(cfg, f)
		c[key] = outcome
	}
	return outcome
}

// workOut runs the model of a failure; its speed does not matter to where it
// ends.
func workOut(cfg *actuator.Config, f actuator.Failure) actuator.Outcome {
	plain := *cfg
	plain.RunningTime = time.Minute
	act, err := actuator.New(plain)
	if err != nil {
		return actuator.NotApplicable
	}
	return act.Outcome(f)
}

// setFailures picks the behaviours that meet the wishes of the row where the
// actuator offers them, and finds the wishes that stay open.
func (d *driveChoice) setFailures(r *Row, found *findings, outcomes outcomeCache) {
	if r.AtPowerLoss != AnyPosition {
		d.choosePowerLoss(r.AtPowerLoss, outcomes)
	}
	if r.AtOpenWire != AnyPosition {
		d.chooseOpenWire(r.AtOpenWire, outcomes)
	}
	d.judgeFailure(actuator.OnZeroSignal, r.AtZeroSignal, WrongAtZeroSignal, found, outcomes)
	d.judgeFailure(actuator.OnOpenWire, r.AtOpenWire, WrongAtOpenWire, found, outcomes)
	d.judgeFailure(actuator.OnPowerLoss, r.AtPowerLoss, WrongAtPowerLoss, found, outcomes)
}

func (d *driveChoice) judgeFailure(f actuator.Failure, wish Wish, kind FindingKind, found *findings, outcomes outcomeCache) {
	if wish == AnyPosition {
		return
	}
	if got := d.ending(f, outcomes); got != wish {
		found.add(kind, textOf(positionOf(got)), textOf(wish))
	}
}

// ending is where a failure leaves the valve. With a shunt across its input the wire
// to the controller may be open, but the input does not float: it sees 0 V.
func (d *driveChoice) ending(f actuator.Failure, outcomes outcomeCache) Wish {
	if f == actuator.OnOpenWire && d.input.shunt > 0 {
		seen := d.config
		seen.OpenWire = actuator.AsZeroSignal
		return wishOf(outcomes.of(&seen, f))
	}
	return wishOf(outcomes.of(&d.config, f))
}

// positionOf says where a valve ends.
func positionOf(w Wish) fmt.Stringer {
	if w == WantHold {
		return word("where it stands")
	}
	return w
}

func wishOf(o actuator.Outcome) Wish {
	switch o {
	case actuator.Open:
		return WantOpen
	case actuator.Closed:
		return WantClosed
	case actuator.Holds:
		return WantHold
	}
	return AnyPosition
}

// choosePowerLoss sets the first behaviour that meets the wish, or the first of
// all.
func (d *driveChoice) choosePowerLoss(wish Wish, outcomes outcomeCache) {
	for _, choice := range d.actuator.PowerLoss {
		d.actuator.setPowerLoss(&d.config, choice, d.pair.travel)
		if d.ending(actuator.OnPowerLoss, outcomes) == wish {
			return
		}
	}
	d.actuator.setPowerLoss(&d.config, first(d.actuator.PowerLoss), d.pair.travel)
}

// chooseOpenWire does the same for what the input makes of an open wire, which on
// a live-zero range depends on two settings.
func (d *driveChoice) chooseOpenWire(wish Wish, outcomes outcomeCache) {
	for i := range max(1, len(d.actuator.OpenWire)) {
		for j := range max(1, len(d.actuator.BelowLiveZero)) {
			d.config.OpenWire, d.config.BelowLiveZero = choiceAt(d.actuator.OpenWire, i), choiceAt(d.actuator.BelowLiveZero, j)
			if d.ending(actuator.OnOpenWire, outcomes) == wish {
				return
			}
		}
	}
	d.config.OpenWire, d.config.BelowLiveZero = first(d.actuator.OpenWire), first(d.actuator.BelowLiveZero)
}

// choiceAt is the choice of that number, or the zero value where none is listed.
func choiceAt[T any](choices []T, i int) T {
	if len(choices) == 0 {
		var none T
		return none
	}
	return choices[i]
}
