package main

import (
	"fmt"
	"strings"

	"github.com/indexrun/indexrun/hydronics/terminal"
)

// fact is what a handbook or a standard says of the heat at a part of the flow, or what
// follows from its law; note is where the page tells the source.
type fact struct {
	flow        float64
	least, most float64 // shares of heat
	constant    bool    // of the same coil, if its UA did not change with the flow
	note        int
}

// value is a fact of a single number.
func value(flow, share float64, note int) fact { return fact{flow, share, share, false, note} }

// constantUA is the same for a coil whose UA stays.
func constantUA(flow, share float64) fact { return fact{flow, share, share, true, 4} }

func (f fact) String() string {
	text := fmt.Sprintf("%.3g %%", 100*f.least)
	if f.least != f.most {
		text = fmt.Sprintf("%.3g … %.3g %%", 100*f.least, 100*f.most)
	}
	text += fmt.Sprintf(" at %.0f %% flow", 100*f.flow)
	if f.constant {
		text += ", UA constant"
	}
	return fmt.Sprintf("%s (%d)", text, f.note)
}

// beside is the cell of the facts of a unit.
func (u *unit) beside() string {
	if len(u.facts) == 0 {
		return "none known"
	}
	var cell []string
	for _, f := range u.facts {
		cell = append(cell, f.String())
	}
	return strings.Join(cell, "; ")
}

// factTerminal is the terminal that a fact is about.
func (u *unit) factTerminal(f fact) (terminal.Terminal, error) {
	if c, ok := u.model.(coil); ok && f.constant {
		return coil{c.leaving, 0}.build(u.design)
	}
	return u.model.build(u.design)
}

// schoolHeat is the school's heat of a coil at a flow, 1/(1 + a·(1/x − 1)) with a = 0.6
// times the drop over the distance (taught for air heaters; from memory, no published
// source). ok is false for what it is not meant for.
func (u *unit) schoolHeat(flow float64) (share float64, ok bool) {
	_, ok = u.model.(coil)
	return 1 / (1 + 0.6*u.steepness()*(1/flow-1)), ok
}
