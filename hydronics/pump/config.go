package pump

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Config describes a pump at full speed. Its curve is given by points or by the
// shut-off head and the duty point.
type Config struct {
	// Points of the head curve, three or more, by rising flow and with heads
	// that do not rise. The curve is the least-squares fit of
	// H = a − b·q − c·q² with b, c ≥ 0. Without a point at zero flow the shut-off head
	// is an extrapolation.
	Points []Point

	// ShutOff is the head at zero flow and Duty a point below it: the curve is
	// H = ShutOff − c·q² through Duty.
	ShutOff units.Pressure
	Duty    Point

	// End is the greatest flow for which the curve was published; beyond it
	// results are marked [BeyondCurve]. Zero means the last of Points, or with
	// Duty the flow at zero head.
	End units.Flow

	// Efficiency of the pump alone, shaft to water, above 0 up to 1, the same at
	// all flows; or EfficiencyPoints, two or more, by rising flow above zero. If
	// neither is given, powers are NaN.
	Efficiency       float64
	EfficiencyPoints []EfficiencyPoint

	// Drive is the efficiency of motor and speed controller together, electric
	// supply to shaft, above 0 up to 1. Zero means not known: the electrical
	// power is NaN.
	Drive float64
}

// An EfficiencyPoint is a flow and the pump's efficiency at that flow.
type EfficiencyPoint struct {
	Flow       units.Flow
	Efficiency float64
}

// New checks cfg and fits the curves; the error names every fault. Bad curve
// data are refused: a head that rises with flow has two flows for one head and
// no steady operating point, and points that no falling curve of this form
// follows within a tenth of the greatest head among them are no pump curve.
func New(cfg Config) (Pump, error) {
	l := check.List{Package: "pump"}
	p := Pump{speed: 1}
	p.full, p.deviation = headCurve(&l, cfg)
	p.curve = p.full
	p.end = float64(cfg.End)
	if check.NotNegative(&l, "End", cfg.End); cfg.End == 0 {
		p.end = defaultEnd(cfg, p.full)
	}
	p.efficiency = newEfficiency(&l, cfg)
	p.drive = share(&l, "Drive", cfg.Drive)
	if err := l.Err(); err != nil {
		return Pump{}, err
	}
	return p, nil
}

func defaultEnd(cfg Config, k curve) float64 {
	if n := len(cfg.Points); n > 0 {
		return float64(cfg.Points[n-1].Flow)
	}
	return k.runout()
}

// share checks an optional efficiency; NaN stands for one not given.
func share(l *check.List, field string, value float64) float64 {
	if value == 0 {
		return math.NaN()
	}
	l.Require(value > 0 && value <= 1, field, value, "above 0 and at most 1, or 0 if not known")
	return value
}

// headCurve returns the curve and its greatest deviation from the points.
func headCurve(l *check.List, cfg Config) (curve, float64) {
	byDuty := cfg.ShutOff != 0 || cfg.Duty != Point{}
	switch {
	case len(cfg.Points) > 0 && byDuty:
		l.Fault("Points", fmt.Sprintf("%d points besides ShutOff and Duty", len(cfg.Points)), "either Points or ShutOff and Duty")
	case byDuty:
		return dutyCurve(l, cfg.ShutOff, cfg.Duty), 0
	case len(cfg.Points) < 3:
		l.Fault("Points", len(cfg.Points), "three points or more (or ShutOff and Duty)")
	case checkPoints(l, cfg.Points):
		return fitCurve(l, cfg.Points)
	}
	return curve{}, 0
}

func dutyCurve(l *check.List, shutOff units.Pressure, duty Point) curve {
	ok := check.Positive(l, "ShutOff", shutOff)
	ok = check.Positive(l, "Duty.Flow", duty.Flow) && ok
	ok = check.NotNegative(l, "Duty.Head", duty.Head) && ok
	if ok && l.Require(duty.Head < shutOff, "Duty.Head", duty.Head, "a head below ShutOff: a pump's head falls with flow") {
		return newCurve(float64(shutOff), 0, float64(shutOff-duty.Head)/float64(duty.Flow*duty.Flow))
	}
	return curve{}
}

// checkPoints requires rising flows and heads that do not rise.
func checkPoints(l *check.List, points []Point) bool {
	ok := true
	for i, p := range points {
		field := fmt.Sprintf("Points[%d]", i)
		ok = check.NotNegative(l, field+".Flow", p.Flow) && ok
		ok = check.NotNegative(l, field+".Head", p.Head) && ok
		if i > 0 {
			before := points[i-1]
			ok = l.Require(!(p.Flow <= before.Flow), field+".Flow", p.Flow, "a flow above that of the point before") && ok
			ok = l.Require(!(p.Head > before.Head), field+".Head", p.Head,
				"a head no higher than at the point before: a rising curve has two flows for one head and no steady operating point") && ok
		}
	}
	last := points[len(points)-1]
	return l.Require(!(last.Head >= points[0].Head), "Points", fmt.Sprintf("%v at both ends", last.Head), "a head that falls from first to last") && ok
}
