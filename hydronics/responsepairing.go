package hydronics

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// A Pairing is what bends the response of a unit on purpose: the shaping of its
// actuator and the characteristic of its valve.
type Pairing struct {
	Shaping actuator.Shaping
	Curve   valve.Characteristic
}

// Double reports whether both bend; practice bends in one of the two, see
// [actuator.Shaping].
func (p Pairing) Double() bool { return !straight(p.Shaping) && !straight(p.Curve) }

// straight samples a curve, so that a table may be straight too.
func straight(c interface{ At(float64) float64 }) bool {
	for _, x := range []float64{0.25, 0.5, 0.75} {
		if math.Abs(c.At(x)-float64(c.At(0)*(1-x))-x) > 1e-9 {
			return false
		}
	}
	return true
}

// String names both, such as "linear on equal-percentage 50".
func (p Pairing) String() string { return fmt.Sprintf("%v on %v", p.Shaping, p.Curve) }

// UsualShapings are the shapings that [RankPairings] tries unless told others:
// linear, and zero-based equal percentage of ratios from 3 to 100 (common
// practice, no published source).
func UsualShapings() []actuator.Shaping {
	shapings := []actuator.Shaping{actuator.Linear()}
	for _, ratio := range []float64{3, 5, 10, 20, 30, 50, 100} {
		shapings = append(shapings, actuator.ZeroBasedEqualPercentage(ratio))
	}
	return shapings
}

// UsualCurves are the characteristics that [RankPairings] tries unless told
// others: linear of theoretical ratio 50, equal percentage of 25, 50 and 100
// (common practice, no published source).
func UsualCurves() []valve.Characteristic {
	return []valve.Characteristic{valve.Linear(50), valve.EqualPercentage(25), valve.EqualPercentage(50), valve.EqualPercentage(100)}
}

// A PairingConfig is the unit that [RankPairings] looks for the best pairing of.
type PairingConfig struct {
	Terminal   terminal.Terminal   // required
	Conditions terminal.Conditions // zero is the terminal's design
	// Authority is that of the valve by its fully open flow, which is taken to be the
	// design flow: [valve.LeastAuthority] … 1; required. A pressure-independent valve
	// counts as 1.
	Authority float64
	// Rangeability is the inherent rangeability Kvs/Kvr of the valves to choose from,
	// or their theoretical ratio if that is less; 0 leaves
	// [valve.DefaultClosingTravel] to each.
	Rangeability float64
	Leakage      units.Ratio // of the valves, as in [valve.TwoWayConfig]
	Resolution   Resolution  // for the least load

	Shapings []actuator.Shaping     // to try; none for UsualShapings
	Curves   []valve.Characteristic // to try; none for UsualCurves
	// AllowDouble also tries pairings of which both parts bend, see [Pairing.Double].
	AllowDouble bool
	Range       HeatRange // for the gains; zero is 10 … 90 %
	By          Criterion
}

func (c *PairingConfig) check(l *check.List) {
	checkTerminal(l, c.Terminal)
	check.Within(l, "Authority", c.Authority, valve.LeastAuthority, 1)
	l.Require(c.Rangeability == 0 || c.Rangeability >= 2, "Rangeability", c.Rangeability, "2 or more, or none")
	c.Range.check(l, "Range")
	check.Enum(l, "By", c.By, ByGainRatio)
}

// pairings are the candidates.
func (c *PairingConfig) pairings() []Pairing {
	shapings, curves := c.Shapings, c.Curves
	if len(shapings) == 0 {
		shapings = UsualShapings()
	}
	if len(curves) == 0 {
		curves = UsualCurves()
	}
	var all []Pairing
	for _, curve := range curves {
		for _, shaping := range shapings {
			if p := (Pairing{shaping, curve}); c.AllowDouble || !p.Double() {
				all = append(all, p)
			}
		}
	}
	return all
}
