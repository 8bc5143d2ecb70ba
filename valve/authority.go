package valve

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Branch is the circuit in which a two-way control valve works.
type Branch struct {
	// Flow is the design flow.
	Flow units.Flow
	// Drop is the pressure difference, at the design flow, of all that is in
	// series with the control valve: coil, pipes, fittings, and balancing
	// valves as they are set.
	Drop units.Pressure
	// Available is the pressure difference across the whole branch, control
	// valve included, held constant; 0 if the branch is given just what it
	// needs at the design flow.
	Available units.Pressure
}

// Authority is how much of the pressure in its branch a control valve commands:
// the pressure difference of the open valve over that of the shut one, on which
// the whole of Available comes to lie. Practice has two values, and they are
// equal if the branch is balanced to its design flow (common practice, no
// published source).
type Authority struct {
	// Open is taken at the flow of the fully open valve, OpenFlow; it is the N
	// of the installed characteristic and depends on resistances alone.
	Open float64
	// Design is taken at the design flow: Δp of the open valve at that flow
	// over Available. It exceeds Open if OpenFlow falls short of the design
	// flow.
	Design float64
	// OpenFlow is what passes with the valve fully open.
	OpenFlow units.Flow
}

// Authority returns both authorities of the valve in a branch.
func (v TwoWay) Authority(b Branch) (Authority, error) {
	if err := b.check(); err != nil {
		return Authority{}, err
	}
	own := v.Pressure(1, b.Flow)
	return authority(own, b), nil
}

// authority works from the drop of the open valve at the design flow.
func authority(own units.Pressure, b Branch) Authority {
	needed := own + b.Drop
	available := b.Available
	if available == 0 {
		available = needed
	}
	return Authority{
		Open:     float64(own / needed),
		Design:   float64(own / available),
		OpenFlow: b.Flow * units.Flow(math.Sqrt(float64(available/needed))),
	}
}

func (b Branch) check() error {
	l := check.List{Package: packageName}
	check.Positive(&l, "Branch.Flow", b.Flow)
	check.NotNegative(&l, "Branch.Drop", b.Drop)
	check.NotNegative(&l, "Branch.Available", b.Available)
	return l.Err()
}
