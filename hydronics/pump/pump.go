package pump

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// A Pump is a centrifugal pump at one speed: its head, efficiency and power by
// flow. It is a two-terminal law, a pressure rise that falls strictly with flow,
// also in reverse flow, with a slope that is nowhere zero. NaN gives NaN.
//
// A Pump is an immutable value; the zero Pump is no pump, its methods return
// zero or NaN.
type Pump struct {
	full       curve      // at full speed
	curve      curve      // at this one
	efficiency efficiency // at full speed
	drive      float64
	end        float64 // of the published curve, at full speed
	deviation  float64
	speed      float64
}

// Head returns the pressure rise at a flow. In reverse flow it is above the
// shut-off head; beyond the runout flow it is below zero.
func (p Pump) Head(q units.Flow) units.Pressure {
	head, _ := p.curve.at(float64(q))
	return units.Pressure(head)
}

// HeadSlope returns the derivative dH/dq of [Pump.Head] in SI, Pa/(m³/s). It is
// below zero everywhere.
func (p Pump) HeadSlope(q units.Flow) float64 {
	_, slope := p.curve.at(float64(q))
	return slope
}

// Flow returns the flow at which the pressure rise is head, the inverse of
// [Pump.Head]; reverse flow for a head above shut-off.
func (p Pump) Flow(head units.Pressure) units.Flow { return units.Flow(p.curve.flow(float64(head))) }

// Slope returns the derivative dq/dH of [Pump.Flow] in SI, m³/(s·Pa). It is
// below zero everywhere.
func (p Pump) Slope(head units.Pressure) float64 { return 1 / p.HeadSlope(p.Flow(head)) }

// ShutOff returns the head at zero flow: what closes against a shut valve.
func (p Pump) ShutOff() units.Pressure { return units.Pressure(p.curve.a) }

// Runout returns the flow at zero head.
func (p Pump) Runout() units.Flow { return units.Flow(p.curve.runout()) }

// Speed returns the speed as a ratio to full speed.
func (p Pump) Speed() float64 { return p.speed }

// Deviation returns how far the fitted curve is from the worst of the points it
// was made from, at full speed.
func (p Pump) Deviation() units.Pressure { return units.Pressure(p.deviation) }

// AtSpeed returns the pump at a speed of n times full speed, above zero and at
// most 2, by the affinity laws:
//
//	flow ∝ n,  head ∝ n²,  power ∝ n³,  at the same efficiency
//
// Source: ISO 9906:2012, 6.1.2 (translation of test results to another speed), and
// F. M. White, Fluid Mechanics, chapter 11, equation 11.28; both from memory. The
// efficiency in fact falls at low speed, and that of the drive too; the laws
// leave both out.
func (p Pump) AtSpeed(n float64) (Pump, error) {
	l := check.List{Package: "pump"}
	if !l.Require(n > 0 && n <= 2, "speed", n, "above 0 and at most 2 times full speed") {
		return Pump{}, l.Err()
	}
	return p.atSpeed(n), nil
}

func (p Pump) atSpeed(n float64) Pump {
	p.curve, p.speed = p.full.atSpeed(n), n
	return p
}

// Equal reports whether p and o are the same pump at the same speed.
func (p Pump) Equal(o Pump) bool {
	same := func(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
	drive, constant := p.drive, p.efficiency.constant
	if !same(drive, o.drive) || !same(constant, o.efficiency.constant) {
		return false
	}
	p.drive, o.drive, p.efficiency.constant, o.efficiency.constant = 0, 0, 0, 0
	return p == o
}

// Efficiency returns that of the pump alone, shaft to water, at a flow. It is NaN, as
// [Pump.ShaftPower] is, in reverse flow, below zero head, and if none is known.
func (p Pump) Efficiency(q units.Flow) float64 {
	if head, _ := p.curve.at(float64(q)); !(q >= 0 && head >= 0) {
		return math.NaN()
	}
	return p.efficiency.at(float64(q) / p.speed)
}

// ShaftPower returns the power at the shaft, H·q/η. At zero flow it is the limit
// of that, above zero if the efficiency comes from points. It is NaN in reverse
// flow, below zero head, and if no efficiency is known.
func (p Pump) ShaftPower(q units.Flow) units.Power {
	head, _ := p.curve.at(float64(q))
	n := p.speed
	return units.Power(n * n * n * p.efficiency.shaft(float64(q)/n, head/(n*n)))
}

// ElectricPower returns the power drawn from the supply, shaft power over
// Config.Drive; NaN if that is not known.
func (p Pump) ElectricPower(q units.Flow) units.Power {
	return units.Power(float64(p.ShaftPower(q)) / p.drive)
}

// State returns how the pump works at a flow.
func (p Pump) State(q units.Flow) State {
	s := State{Flow: q, Head: p.Head(q), Speed: p.speed, Efficiency: p.Efficiency(q),
		Shaft: p.ShaftPower(q), Electric: p.ElectricPower(q)}
	if float64(q) > p.end*p.speed {
		s.Status, s.Extrapolated = BeyondCurve, true
	}
	return s
}

// Operate returns the state in which the pump works on a system: where its head
// is what the system takes. A check valve is taken to hold the flow at zero
// where the system's static pressure is above the shut-off head.
func (p Pump) Operate(s System) State {
	if !(p.curve.a > s.static) {
		state := p.State(0)
		state.Status = NoFlow
		return state
	}
	return p.State(units.Flow(p.curve.meet(s)))
}
