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
	// Circuit is what feeds the terminal, with the valve in it that is to get another
	// characteristic: on the control port, if it has three ports. The zero Circuit is a
	// two-way valve that throttles the terminal in a branch under constant pressure.
	Circuit Circuit
	// Authority is that of the valve in the branch by its fully open flow, which is
	// taken to be the design flow: [valve.LeastAuthority] … 1; required. A
	// pressure-independent valve counts as 1. None with a Circuit, which has its own;
	// so it is with Rangeability and Leakage.
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

// check reports what is at fault whatever the pairing.
func (c *PairingConfig) check(l *check.List) {
	checkTerminal(l, c.Terminal)
	if c.Terminal != nil {
		checkConditions(l, c.Terminal, c.Conditions)
	}
	if c.Circuit.model == nil {
		check.Within(l, "Authority", c.Authority, valve.LeastAuthority, 1)
		l.Require(c.Rangeability == 0 || c.Rangeability >= 2, "Rangeability", c.Rangeability, "2 or more, or none")
		check.Within(l, "Leakage", c.Leakage, 0, greatestLeakage)
	} else {
		const none = "none with a Circuit, whose valve has its own"
		l.Require(c.Authority == 0, "Authority", c.Authority, none)
		l.Require(c.Rangeability == 0, "Rangeability", c.Rangeability, none)
		l.Require(c.Leakage == 0, "Leakage", c.Leakage, none)
	}
	c.Resolution.check(l)
	for _, s := range c.Shapings {
		l.Add(s.Err())
	}
	for _, curve := range c.Curves {
		l.Add(curve.Err())
	}
	c.Range.check(l, "Range")
	check.Enum(l, "By", c.By, ByGainRatio)
}

// greatestLeakage is what package valve allows.
const greatestLeakage units.Ratio = 0.1

// shapings are those to try.
func (c *PairingConfig) shapings() []actuator.Shaping {
	if len(c.Shapings) == 0 {
		return UsualShapings()
	}
	return c.Shapings
}

// curves are those to try.
func (c *PairingConfig) curves() []valve.Characteristic {
	if len(c.Curves) == 0 {
		return UsualCurves()
	}
	return c.Curves
}
