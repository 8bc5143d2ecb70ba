package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Chain is the response of a control valve with its actuator, from the signal
// to the flow:
//
//	signal → demand → opening demand → shaping → relative travel → stem extension → flow
//
// It is an immutable value made by [NewChain], safe for concurrent use; its
// methods do not allocate, lock or fail. The zero Chain has no valve: its flows
// are NaN.
type Chain struct {
	drive actuator.Mounted
	kind  chainKind
	two   valve.TwoWay
	indep valve.PressureIndependent
	open  float64    // K of the open two-way valve, q = K·√Δp
	rest  Resistance // of the branch in series with the valve
}

// chainKind picks the concrete valve: a call through an interface costs more
// than the rest of the valve's law.
type chainKind uint8

const (
	noValve chainKind = iota
	twoWay
	twoWayInBranch
	independent
	independentInBranch
)

// NewChain mounts an actuator on a valve. It refuses a pair that cannot work:
//
//   - a linear actuator on a rotary valve or the reverse;
//   - a closing end that is not the valve's: [actuator.Extended] for push-to-close
//     and rotary valves, [actuator.Retracted] for push-to-open ones;
//   - a stroke, or angle, of less than half or more than twice the valve's (a
//     self-adapting actuator may have any stroke above half); smaller differences
//     are allowed and reported by [actuator.Mounted.Mismatch];
//   - a force below that of the valve's spring, where both are stated.
//
// The limits of the stroke are this package's own, no published source. A valve
// whose setting limits the lift stops the stem there.
//
// The control port of a three-way valve ([valve.ThreeWay.Control]) passes for a
// two-way valve here. The travel that the chain then tells is right for the whole
// valve; its flow is the control port's at a pressure that the caller must know. In
// a circuit the bypass and the pumps decide that pressure: take the travel to
// [Circuit.Flows], or make a [CircuitChain] for all of it.
func NewChain(act actuator.Actuator, val valve.Valve) (Chain, error) {
	l := check.List{Package: packageName}
	c := Chain{}
	c.setValve(&l, val)
	if c.kind != noValve {
		c.setDrive(&l, act, val)
	}
	if err := l.Err(); err != nil {
		return Chain{}, err
	}
	return c, nil
}

func (c *Chain) setValve(l *check.List, val valve.Valve) {
	switch v := val.(type) {
	case valve.TwoWay:
		c.kind, c.two = twoWay, v
		c.open = float64(valve.FlowThrough(v.Kvs(), units.Pascal, v.Density()))
	case valve.PressureIndependent:
		c.kind, c.indep = independent, v
	default:
		l.Require(false, "Valve", val, "a valve.TwoWay or a valve.PressureIndependent")
		return
	}
	if val.Stroke() == 0 && val.Angle() == 0 {
		l.Fault("Valve", "the zero valve", "a valve made by one of the constructors of package valve")
		c.kind = noValve
	}
}

func (c *Chain) setDrive(l *check.List, act actuator.Actuator, val valve.Valve) {
	cfg := act.Config()
	if !l.Require(!cfg.Input.IsZero(), "Actuator", "the zero Actuator", "an actuator made by actuator.New") {
		return
	}
	if want := ClosingEnd(val.Stem()); cfg.ClosingEnd != want {
		l.Fault("Actuator.ClosingEnd", cfg.ClosingEnd, want.String()+", the end that closes a "+val.Stem().String()+" valve")
	}
	if spring := val.SpringForce(); cfg.Force > 0 && cfg.Force <= spring {
		l.Fault("Actuator.Force", cfg.Force, "more than the force of the valve's spring, "+spring.String())
	}
	drive, ratio, err := mount(act, val)
	if err != nil {
		l.Add(err)
		return
	}
	least, greatest := val.GreatestUsableTravel()/2, 2.0
	if cfg.StrokeMode == actuator.SelfAdapting {
		greatest = math.Inf(1)
	}
	if !(ratio >= least && ratio <= greatest) {
		l.Fault("Actuator.Stroke", travelOf(cfg), "between half and twice the valve's "+travelOfValve(val))
	}
	c.drive = drive
}

// ClosingEnd returns the end of an actuator's travel that closes a valve: the
// extended one (clockwise for rotary valves), but the retracted one for
// push-to-open valves.
func ClosingEnd(stem valve.Stem) actuator.End {
	if stem == valve.PushToOpen {
		return actuator.Retracted
	}
	return actuator.Extended
}

// mount puts the actuator on the valve and stops the stem where the valve does.
func mount(act actuator.Actuator, val valve.Valve) (drive actuator.Mounted, ratio float64, err error) {
	if val.Stem() == valve.Rotary {
		drive, err = act.MountOnRotary(val.Angle())
		ratio = float64(act.Config().Angle / val.Angle())
	} else {
		drive, err = act.MountOn(val.Stroke())
		ratio = float64(act.Config().Stroke / val.Stroke())
	}
	if limit := val.GreatestUsableTravel(); err == nil && limit < 1 {
		drive, err = drive.Obstructed(0, limit)
	}
	return drive, ratio, err
}

func travelOf(cfg actuator.Config) string {
	if cfg.Angle != 0 {
		return cfg.Angle.String()
	}
	return cfg.Stroke.String()
}

func travelOfValve(val valve.Valve) string {
	if val.Stem() == valve.Rotary {
		return val.Angle().String()
	}
	return val.Stroke().String()
}

// InBranch returns the chain in a branch whose other parts (terminal, pipes,
// fittings, balancing valves) have a resistance: the pressures given to its
// methods are then those over the whole branch instead of over the valve.
func (c Chain) InBranch(rest Resistance) (Chain, error) {
	l := check.List{Package: packageName}
	check.NotNegative(&l, "Resistance", rest)
	if err := l.Err(); err != nil {
		return Chain{}, err
	}
	c.rest = rest
	switch c.kind {
	case twoWay, twoWayInBranch:
		c.kind = twoWayInBranch
	case independent, independentInBranch:
		c.kind = independentInBranch
	}
	return c, nil
}

// Drive returns the actuator as it is mounted.
func (c *Chain) Drive() actuator.Mounted { return c.drive }

// A Response is where a signal brings a valve, step by step.
type Response struct {
	actuator.Position
	Coefficient float64    // relative flow coefficient φ of the valve
	Flow        units.Flow // at the pressure asked about
}

// Respond returns every step from a signal to the flow at a pressure difference
// over the valve, or over the branch for a chain made by [Chain.InBranch].
//
// Without a valid signal the actuator does what it is set to do, and
// Position.Status says why. Where it is set to hold, Position.Held is true: the
// signal then does not tell the position, and Coefficient and Flow are NaN.
func (c *Chain) Respond(s signal.Signal, dp units.Pressure) (r Response) {
	c.respond(s, dp, &r)
	return r
}

// respond fills r in place: Respond is then put in line, and the Response is not
// copied, which would take as long as the law.
func (c *Chain) respond(s signal.Signal, dp units.Pressure, r *Response) {
	c.drive.RespondTo(s, &r.Position)
	if r.Held {
		r.Coefficient, r.Flow = math.NaN(), units.Flow(math.NaN())
		return
	}
	if c.kind == twoWayInBranch { // the longest one without a further call
		r.Coefficient = c.two.RelativeCoefficient(r.Travel)
		r.Flow = units.Flow(inSeries(c.open*r.Coefficient, float64(c.rest), float64(dp)))
		return
	}
	r.Coefficient, r.Flow = c.coefficientAndFlow(r.Travel, dp)
}

// Regime says what the regulator of a pressure-independent valve does at that
// response and pressure difference, [valve.UnknownRegime] for a two-way valve or a
// held actuator.
func (c *Chain) Regime(r *Response, dp units.Pressure) valve.Regime {
	switch {
	case r.Held:
		return valve.UnknownRegime
	case c.kind == independent:
		return c.indep.Regime(r.Travel, dp)
	case c.kind == independentInBranch:
		return c.indep.Regime(r.Travel, valvePressure(c.indep, c.rest, r.Travel, dp))
	}
	return valve.UnknownRegime
}

// Flow returns the flow of [Chain.Respond]: NaN where the actuator holds for
// want of a valid signal.
func (c *Chain) Flow(s signal.Signal, dp units.Pressure) units.Flow {
	h, ok := c.drive.Travel(s)
	switch {
	case !ok:
		return units.Flow(math.NaN())
	case c.kind == independent: // the usual ones without a further call
		return c.indep.Flow(h, dp)
	case c.kind == twoWay:
		return c.two.Flow(h, dp)
	case c.kind == twoWayInBranch:
		return units.Flow(inSeries(c.open*c.two.RelativeCoefficient(h), float64(c.rest), float64(dp)))
	}
	return c.flow(h, dp)
}

// flow is the flow at a relative travel.
func (c *Chain) flow(h float64, dp units.Pressure) units.Flow {
	_, q := c.coefficientAndFlow(h, dp)
	return q
}

func (c *Chain) coefficientAndFlow(h float64, dp units.Pressure) (float64, units.Flow) {
	switch c.kind {
	case twoWay:
		return c.two.CoefficientAndFlow(h, dp)
	case independent:
		return c.indep.CoefficientAndFlow(h, dp)
	case twoWayInBranch:
		phi := c.two.RelativeCoefficient(h)
		return phi, units.Flow(inSeries(c.open*phi, float64(c.rest), float64(dp)))
	case independentInBranch:
		return c.indep.CoefficientAndFlow(h, valvePressure(c.indep, c.rest, h, dp))
	}
	return math.NaN(), units.Flow(math.NaN())
}

// inSeries is the flow through a conductance k and a resistance in series: that
// of the conductance k/√(1 + R·k²), with one square root where there can be.
func inSeries(k, rest, dp float64) float64 {
	square := 1 + float64(rest*k*k)
	if dp >= sqrtlaw.Floor {
		return k * math.Sqrt(dp/square)
	}
	return sqrtlaw.Flow(k/math.Sqrt(square), dp)
}

// SignalFor returns the signal that gives a flow at a pressure difference over
// the valve, or over the branch for a chain made by [Chain.InBranch]. A flow from 0
// to the valve's leakage gets the signal that closes it. A flow that cannot be had,
// such as one against the pressure, is a [valve.UnreachableError] that says what can, NaN a
// [units.FieldError].
func (c *Chain) SignalFor(q units.Flow, dp units.Pressure) (signal.Signal, error) {
	if math.IsNaN(float64(q)) || math.IsNaN(float64(dp)) {
		return signal.Signal{}, &units.FieldError{Package: packageName, Field: "SignalFor", Value: q.String() + " at " + dp.String(), Want: "numbers"}
	}
	h, err := c.travelFor(q, dp)
	if err != nil {
		return signal.Signal{}, err
	}
	s, ok := c.drive.SignalFor(h)
	if !ok {
		return signal.Signal{}, c.unreachable(q, dp)
	}
	return s, nil
}

func (c *Chain) travelFor(q units.Flow, dp units.Pressure) (float64, error) {
	var h float64
	var err error
	switch c.kind {
	case independent, independentInBranch:
		left := dp - units.Pressure(float64(c.rest)*float64(q)*math.Abs(float64(q)))
		if q > 0 && !(left > 0) {
			return 0, c.unreachable(q, dp)
		}
		h, err = c.indep.TravelForFlow(q, left)
	case twoWay:
		h, err = c.two.TravelForFlow(q, dp)
	case twoWayInBranch:
		h, err = c.travelInBranch(q, dp)
	default:
		return 0, &units.FieldError{Package: packageName, Field: "Chain", Value: "the zero Chain", Want: "a chain made by NewChain"}
	}
	if err != nil {
		return 0, c.unreachable(q, dp)
	}
	return h, nil
}

// travelInBranch undoes inSeries: the branch needs the conductance K of
// 1/K² = 1/k² + R, and k is the valve's.
func (c *Chain) travelInBranch(q units.Flow, dp units.Pressure) (float64, error) {
	if q == 0 {
		return 0, nil
	}
	whole := float64(q) / sqrtlaw.Flow(1, float64(dp))
	share := 1 / (math.Sqrt(1/(whole*whole)-float64(c.rest)) * c.open)
	if !(whole > 0 && share <= 1+rounding) {
		return 0, valve.ErrUnreachable
	}
	return c.two.TravelFor(share), nil
}

// rounding is by how much a flow may exceed the greatest one and still count as
// that: what conversions lose, magnified by the difference in travelInBranch.
const rounding = 1e-9

// unreachable says what the chain can reach at that pressure: any flow from 0, since
// the valve closes.
func (c *Chain) unreachable(q units.Flow, dp units.Pressure) error {
	return &valve.UnreachableError{Wanted: q, Greatest: c.flow(c.drive.GreatestTravel(), dp)}
}
