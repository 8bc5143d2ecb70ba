package wiring

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// DividerConfig describes a source of voltage on inputs in parallel.
type DividerConfig struct {
	// Output is the resistance of the source.
	Output units.Resistance
	// Line is the resistance of both conductors together.
	Line units.Resistance
	// Input is the resistance of each input; 0 = so large that it does not matter.
	Input units.Resistance
	// Inputs is the number of inputs at the end of the line; 0 = 1.
	Inputs int
}

// NewDivider returns what the divider makes of a signal. Its gain is Ri/(Ri + Ro + Rl) with
// the inputs in parallel as Ri (Kirchhoff), and it has no offset. For inputs along a
// cable use [New].
func NewDivider(cfg DividerConfig) (Transfer, error) {
	l := check.List{Package: packageName}
	checkResistance(&l, "Output", cfg.Output)
	checkResistance(&l, "Line", cfg.Line)
	checkInput(&l, "Input", cfg.Input)
	l.Require(cfg.Inputs >= 0 && cfg.Inputs <= mostParallel, "Inputs", cfg.Inputs, "1 … 1000, or zero for one")
	if err := l.Err(); err != nil || cfg.Input == 0 {
		return Transfer{}, err
	}
	inputs := cfg.Input / units.Resistance(max(cfg.Inputs, 1))
	series := cfg.Output + cfg.Line
	return Transfer{loss: float64(series / (series + inputs))}, nil
}
