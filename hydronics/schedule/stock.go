package schedule

import (
	"math"
	"slices"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// stock is a catalogue made ready for many selections: everything that does not
// depend on a row is worked out once.
type stock struct {
	valves    []stockValve
	actuators []*ActuatorModel
}

// stockValve is a valve with what each actuator can make of it.
type stockValve struct {
	model *ValveModel
	valve valve.Valve // at the reference density
	pairs []pair      // one for each actuator
}

// pair is what an actuator can make of a valve.
type pair struct {
	allowed   bool        // it can be mounted at all
	weak      bool        // it cannot move the valve
	resists   units.Force // of a valve with a stem: spring and friction
	usable    travel      // of the valve
	travel    travel      // of the actuator
	travelFit bool
	end       actuator.End
	endFit    bool
	closeOff  units.Pressure // what it closes against; infinite where not known
	shaping   [lastResponse + 1]shapingChoice
}

// shapingChoice is the actuator's shaping that comes nearest to a response, and by
// how much of full flow it misses it.
type shapingChoice struct {
	shaping actuator.Shaping
	miss    float64
}

func newStock(c *Catalogue) (*stock, error) {
	if err := c.Validate(); err != nil {
		return nil, err
	}
	s := &stock{}
	for i := range c.Actuators {
		s.actuators = append(s.actuators, &c.Actuators[i])
	}
	for i := range c.Valves {
		model := &c.Valves[i]
		built, err := model.build()
		if err != nil {
			return nil, err
		}
		v := stockValve{model: model, valve: built}
		for _, a := range s.actuators {
			v.pairs = append(v.pairs, newPair(&v, a))
		}
		s.valves = append(s.valves, v)
	}
	return s, nil
}

// liftSteps is how finely the lifts of settings are told apart when a drive is
// sought: to a quarter of the tolerance of strokes.
const liftSteps = 200

// lifted is the valve at a setting that stops its stem at a share of the stroke.
func (s *stock) lifted(v *stockValve, lift float64) (stockValve, error) {
	whole, ok := v.valve.(valve.PressureIndependent)
	if !ok {
		return *v, nil
	}
	least, greatest := whole.FlowRange()
	set, err := whole.WithFlow(max(least, greatest*units.Flow(whole.RelativeCoefficient(lift))))
	if err != nil {
		return stockValve{}, err
	}
	at := stockValve{model: v.model, valve: set}
	for _, a := range s.actuators {
		at.pairs = append(at.pairs, newPair(&at, a))
	}
	return at, nil
}

func newPair(v *stockValve, a *ActuatorModel) pair {
	m := v.model
	p := pair{allowed: (m.Stem == valve.Rotary) == (a.Angle > 0)}
	p.allowed = p.allowed && (len(m.Actuators) == 0 || slices.Contains(m.Actuators, a.ID))
	if !p.allowed {
		return p
	}
	lift := v.valve.GreatestUsableTravel()
	p.usable = travel{stroke: m.Stroke * units.Length(lift), angle: m.Angle * units.Angle(lift)}
	p.travel = a.travelFor(p.usable.stroke, p.usable.angle)
	p.travelFit = a.fits(p.travel, p.usable)
	p.end = hydronics.ClosingEnd(m.Stem)
	p.endFit = slices.Contains(a.ClosingEnds, p.end)
	p.resists = m.Spring + m.Friction
	p.weak = a.Force > 0 && a.Force <= p.resists || a.Torque > 0 && a.Torque < m.Torque
	p.closeOff = closeOff(m, a, p.end)
	for r := range p.shaping {
		p.shaping[r] = nearestShaping(v.valve, a.Shapings, Response(r))
	}
	// A pair that the chain refuses cannot be used, whatever the row.
	cfg := a.config(a.Ranges[0], p.travel)
	cfg.ClosingEnd = p.end
	if p.weak {
		cfg.Force = 0 // that is told apart
	}
	act, err := actuator.New(cfg)
	if err == nil {
		_, err = hydronics.NewChain(act, v.valve)
	}
	p.allowed = err == nil
	return p
}

// strokeTolerance is the relative difference of strokes that is no mismatch:
// less than calibration finds (common practice, no published source).
const strokeTolerance = 0.02

// fits compares what the actuator is set to with the usable travel of a valve.
func (a *ActuatorModel) fits(set, usable travel) bool {
	switch {
	case usable.angle > 0:
		return math.Abs(float64(set.angle/usable.angle)-1) <= strokeTolerance
	case set.mode == actuator.SelfAdapting:
		return usable.stroke <= a.AdaptsTo*(1+strokeTolerance) && usable.stroke >= a.AdaptsFrom*(1-strokeTolerance)
	}
	return math.Abs(float64(set.stroke/usable.stroke)-1) <= strokeTolerance
}

// closeOff is the pressure that the pair closes against, infinite where the
// catalogue does not say enough to tell.
func closeOff(m *ValveModel, a *ActuatorModel, end actuator.End) units.Pressure {
	unknown := units.Pressure(math.Inf(1))
	if end == actuator.Retracted && m.Spring == 0 { // its own spring closes it
		return unknown
	}
	if m.Stem == valve.Rotary {
		if m.Torque > 0 && a.Torque > 0 && a.Torque < m.Torque {
			return 0
		}
		return unknown
	}
	if m.SeatArea == 0 || a.Force == 0 {
		return unknown
	}
	cfg := a.config(a.Ranges[0], a.travelFor(m.Stroke, 0))
	cfg.ClosingEnd = end
	act, err := actuator.New(cfg)
	if err != nil {
		return 0
	}
	result, err := act.CloseOff(actuator.Seat{Area: m.SeatArea, Friction: m.Friction, Spring: m.Spring})
	if err != nil || result.Spare < 0 {
		return 0
	}
	return result.Pressure
}

// nearestShaping compares what each shaping makes of the valve's curve with the
// response wanted.
func nearestShaping(v valve.Valve, shapings []actuator.Shaping, want Response) shapingChoice {
	best := shapingChoice{miss: math.Inf(1)}
	for _, s := range shapings {
		if miss := missOf(v, s, want); miss < best.miss-1e-9 {
			best = shapingChoice{s, miss}
		}
	}
	return best
}

const (
	// shapingSteps is how finely responses are compared.
	shapingSteps = 50
	// usualRatio is that of equal-percentage responses (common practice, no
	// published source).
	usualRatio = 50
	// shapingMiss is the share of full flow by which a response may miss the
	// one wanted and still count as that (this package's own limit).
	shapingMiss = 0.10
)

func missOf(v valve.Valve, s actuator.Shaping, want Response) float64 {
	target := actuator.Linear()
	if want == EqualPercentageResponse {
		target = actuator.ZeroBasedEqualPercentage(usualRatio)
	}
	worst := 0.0
	for i := range shapingSteps + 1 {
		x := float64(i) / shapingSteps
		got := v.RelativeCoefficient(s.At(x) * v.GreatestUsableTravel())
		worst = max(worst, math.Abs(got-target.At(x)))
	}
	return worst
}
