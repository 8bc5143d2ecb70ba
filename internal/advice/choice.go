package main

import (
	"fmt"
	"math"
	"strings"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/valve"
)

// The school curves that everything is compared with; both are among the usual
// pairings.
var (
	linear = hydronics.Pairing{Shaping: actuator.Linear(), Curve: valve.Linear(50)}
	equal  = hydronics.Pairing{Shaping: actuator.Linear(), Curve: valve.EqualPercentage(50)}
)

// choice is what the ranking says of a terminal at an authority.
type choice struct {
	authority           float64
	linear, equal, best hydronics.RankedPairing
}

func choose(cfg hydronics.PairingConfig) (choice, error) {
	ranking, err := hydronics.RankPairings(cfg)
	if err != nil {
		return choice{}, err
	}
	c := choice{best: ranking[0]}
	for _, r := range ranking {
		switch r.Pairing.String() {
		case linear.String():
			c.linear = r
		case equal.String():
			c.equal = r
		}
	}
	return c, nil
}

// chooseAll does it at all authorities.
func chooseAll(at func(authority float64) (hydronics.PairingConfig, error)) ([]choice, error) {
	var all []choice
	for _, authority := range authorities {
		cfg, err := at(authority)
		if err != nil {
			return nil, err
		}
		c, err := choose(cfg)
		if err != nil {
			return nil, err
		}
		c.authority = authority
		all = append(all, c)
	}
	return all, nil
}

// Beyond these even the best is marked: no curve helps, more authority would (limits
// of this page, no published source).
const (
	mostDeviation = 0.1
	mostLeast     = 0.2
)

func (c choice) poor() bool {
	return !(c.best.Deviation <= mostDeviation && c.best.LeastLoad.Share <= mostLeast)
}

// cell is the recommendation in a few letters.
func (c choice) cell() string {
	if c.poor() {
		return short(c.best.Pairing) + " !"
	}
	return short(c.best.Pairing)
}

// short names a pairing: linear, E50 for a valve of equal percentage, Z50 for a
// zero-based actuator on a linear valve.
func short(p hydronics.Pairing) string {
	shaping, ratio, bent := strings.Cut(p.Shaping.String(), " ")
	curve, theoretical, _ := strings.Cut(p.Curve.String(), " ")
	switch {
	case p.Double():
		return p.String()
	case bent && shaping == "zero-based-equal-percentage":
		return "Z" + ratio
	case curve == "equal-percentage":
		return "E" + theoretical
	}
	return curve
}

// figures are gain ratio, deviation and least load.
func figures(r hydronics.RankedPairing) string {
	return fmt.Sprintf("%.1f, %.0f %%, %.0f %%", r.GainRatio(), 100*r.Deviation, 100*r.LeastLoad.Share)
}

func deviation(r hydronics.RankedPairing) float64 { return r.Deviation }
func gainRatio(r hydronics.RankedPairing) float64 { return r.GainRatio() }

// breakEven is the authority below which equal percentage has less of a fault than
// linear, by bisection.
func breakEven(t terminal.Terminal, fault func(hydronics.RankedPairing) float64) (string, error) {
	school := hydronics.PairingConfig{
		Terminal: t, Shapings: []actuator.Shaping{linear.Shaping}, Curves: []valve.Characteristic{linear.Curve, equal.Curve},
	}
	better := func(authority float64) (bool, error) {
		school.Authority = authority
		c, err := choose(school)
		return fault(c.equal) < fault(c.linear), err
	}
	low, high := 0.02, 1.0
	if always, err := better(high); always || err != nil {
		return "any", err
	}
	if ever, err := better(low); !ever || err != nil {
		return "none", err
	}
	for high-low > 1e-4 {
		mid := math.Sqrt(low * high)
		is, err := better(mid)
		if err != nil {
			return "", err
		}
		if is {
			low = mid
		} else {
			high = mid
		}
	}
	return fmt.Sprintf("%.2f", low), nil
}
