package schedule

import (
	"math"
	"slices"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// An input is a way to bring a controller's output to an actuator.
type input struct {
	set     signal.Range     // what the actuator is set to
	shunt   units.Resistance // across its input; 0: none
	turned  bool             // its demand falls as the output rises
	limited bool             // it begins at the lower limit of the output
}

// shunts make volts of milliamps: 4–20 mA becomes 2–10 V or 1–5 V (common practice).
var shunts = [...]units.Resistance{500 * units.Ohm, 250 * units.Ohm}

// inputKey is what the ways depend on.
type inputKey struct {
	output    signal.Range
	low, high signal.Signal
}

// inputsOf lists the ways for a row's output, those to be tried first in front.
func (p *picker) inputsOf(r *Row) []input {
	key := inputKey{r.Output, r.OutputLow, r.OutputHigh}
	list, known := p.inputs[key]
	if !known {
		list = listInputs(r)
		p.inputs[key] = list
	}
	return list
}

func listInputs(r *Row) []input {
	var list []input
	add := func(in input) {
		turned := in
		turned.set, turned.turned = in.set.Inverse(), true
		list = append(list, in, turned)
	}
	if limited, ok := r.limitedRange(); ok {
		add(input{set: limited, limited: true})
	}
	add(input{set: r.Output})
	for _, resistor := range shunts {
		if set, ok := shuntedRange(r.Output, resistor); ok {
			add(input{set: set, shunt: resistor})
		}
	}
	return list
}

// limitedRange is the output from its lower limit to its end, which is how a
// controller without a live zero is made to speak to an actuator with one.
func (r *Row) limitedRange() (signal.Range, bool) {
	low, high := r.limits()
	if low.demand <= limitTolerance || high.demand < 1 {
		return signal.Range{}, false
	}
	limited, err := signal.NewRange(r.OutputLow, r.Output.Encode(1))
	return limited, err == nil
}

// shuntedRange is what a shunt makes of a range in milliamps; false for any other.
func shuntedRange(output signal.Range, resistor units.Resistance) (signal.Range, bool) {
	if output.Kind() != signal.KindCurrent {
		return signal.Range{}, false
	}
	shunt, err := signal.NewShunt(signal.ShuntConfig{Resistor: resistor})
	if err != nil {
		return signal.Range{}, false
	}
	shunted, err := shunt.ConvertRange(output)
	return shunted, err == nil
}

// setInput takes the first way for which the actuator has the range, or else the
// range that comes nearest.
func (d *driveChoice) setInput(n *need, found *findings) {
	ranges := d.actuator.Ranges
	for i := range n.inputs {
		in := &n.inputs[i]
		at := slices.Index(ranges, in.set)
		if at < 0 {
			continue
		}
		if in.shunt > 0 {
			found.add(NeedsShunt, textOf(&ranges[at]), textOf(&n.row.Output))
		}
		d.input = *in
		return
	}
	i := nearestRange(ranges, n.row.Output)
	found.add(RangeNotSettable, textOf(&ranges[i]), textOf(&n.row.Output))
	d.input = input{set: ranges[i]}
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

// received is what a signal becomes at the actuator's input.
func (in *input) received(sent signal.Signal) signal.Signal {
	if in.shunt == 0 {
		return sent
	}
	shunt, err := signal.NewShunt(signal.ShuntConfig{Resistor: in.shunt})
	if err != nil {
		return sent
	}
	return shunt.Convert(sent)
}
