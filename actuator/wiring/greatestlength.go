package wiring

import (
	"errors"
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Longest is the answer of [GreatestLength]; [Longest.WriteText] prints it with the
// caution.
type Longest struct {
	// Length is that of the whole cable, from the near to the far end.
	Length units.Length
	// Scale is what every length of the configuration is multiplied by to get there.
	Scale float64
	// Device is the number of the device, counted from 0, at which the limit is met, and By
	// the limit.
	Device int
	By     Bound
}

const (
	shortest  = 1e-3 // metres, where the search starts
	farthest  = 1e6  // metres, where it gives up
	tightness = 1e-12
)

// GreatestLength returns how long the cable may be with the spacing of the devices kept
// in proportion. It doubles the length from a millimetre until a limit is broken and then
// halves the interval; every limit is met at the answer, and one is broken just beyond it.
// A signal whose two errors cancel over some stretch is not chased: what counts is the
// first length found that breaks a limit. Without a limit within
// 1000 km the length is infinite and By is Unbound. The error unwraps to [ErrUnreachable]
// if a limit is broken already without any cable: by the output resistance of the
// controller, or a supply too low or too high. A cable that takes the excess of a supply
// away does so only while the loads draw, and is no remedy.
func GreatestLength(cfg Config, limit Limit) (Longest, error) {
	if err := errors.Join(cfg.validate(), limit.validate()); err != nil {
		return Longest{}, err
	}
	if err := limit.bare(cfg); err != nil {
		return Longest{}, err
	}
	whole := float64(cfg.length())
	if whole == 0 {
		return Longest{}, &units.FieldError{
			Package: packageName, Field: "Length", Value: cfg.length().String(), Want: "a cable of some length, to scale",
		}
	}
	good, bad := 0.0, shortest/whole
	broken, err := limit.strain(cfg.scaled(bad))
	for ; err == nil && broken.used <= 1; broken, err = limit.strain(cfg.scaled(bad)) {
		good, bad = bad, 2*bad
		if bad*whole > farthest {
			return Longest{Length: units.Length(math.Inf(1)), Scale: math.Inf(1)}, nil
		}
	}
	for err == nil && bad-good > tightness*bad {
		middle := good + (bad-good)/2
		var s strain
		if s, err = limit.strain(cfg.scaled(middle)); s.used <= 1 {
			good = middle
		} else {
			bad, broken = middle, s
		}
	}
	return Longest{Length: units.Length(good * whole), Scale: good, Device: broken.device, By: broken.by}, err
}

// ChooseConductor returns the thinnest of the conductors that keeps the limits as
// Cable.Conductor; conductors of the cable with a statement of their own stay. If none
// does, or a limit is broken already without any cable, the error unwraps to
// [ErrUnreachable]. [Conductor.WriteText] prints the choice with the caution.
func ChooseConductor(cfg Config, limit Limit, from []Conductor) (Conductor, error) {
	l := check.List{Package: packageName}
	l.Add(limit.validate())
	l.Require(len(from) > 0, "from", "none", "the conductors to choose among, such as wiring.IECSizes(wiring.Class2)")
	if err := l.Err(); err != nil {
		return Conductor{}, err
	}
	from = fromThin(from)
	cfg.Cable.Conductor = from[0]
	if err := limit.bare(cfg); err != nil {
		return Conductor{}, err
	}
	for _, c := range from {
		cfg.Cable.Conductor = c
		s, err := limit.strain(cfg)
		if err != nil {
			return Conductor{}, err
		}
		if s.used <= 1 {
			return c, nil
		}
	}
	return Conductor{}, fmt.Errorf("%w by any of %d conductors", ErrUnreachable, len(from))
}
