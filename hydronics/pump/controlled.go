package pump

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Controlled is a pump, or several in parallel at a common speed, whose speed
// control holds a pressure as long as the speed bounds allow. It is immutable.
//
// Except at fixed speed its head may be constant or rise with the flow. It is
// then no strictly monotone two-terminal law, and a network solver must treat
// it apart.
type Controlled struct {
	bank             Bank
	mode             Mode
	zero, rise, bend float64 // the set line: zero + rise·q + bend·q²
	least, most      float64 // speed
}

// NewControlled checks cfg and puts the pumps, in parallel if several, under
// control; the error names every fault.
func NewControlled(cfg ControlConfig, pumps ...Pump) (Controlled, error) {
	l := check.List{Package: "pump"}
	bank, err := Parallel(pumps...)
	l.Add(err)
	c := Controlled{bank: bank, mode: cfg.Mode, least: cfg.MinSpeed, most: cfg.MaxSpeed}
	if c.most == 0 {
		c.most = 1
	}
	l.Require(c.most > 0 && c.most <= 2, "MaxSpeed", cfg.MaxSpeed, "above 0 and at most 2, or 0 for 1")
	l.Require(c.least >= 0 && c.least <= c.most, "MinSpeed", cfg.MinSpeed, "0 … MaxSpeed")
	c.least = max(c.least, 1e-3*c.most)
	c.setLine(&l, cfg)
	c.checkReach(&l, cfg)
	if err := l.Err(); err != nil {
		return Controlled{}, err
	}
	return c, nil
}

func (c *Controlled) setLine(l *check.List, cfg ControlConfig) {
	if !check.Enum(l, "Mode", cfg.Mode, IndexUnit) || cfg.Mode == FixedSpeed {
		return
	}
	check.Positive(l, "SetPoint", cfg.SetPoint)
	c.zero = float64(cfg.SetPoint)
	switch cfg.Mode {
	case ProportionalPressure:
		check.Positive(l, "DesignFlow", cfg.DesignFlow)
		check.Within(l, "ZeroFlowShare", cfg.ZeroFlowShare, 0, 1)
		c.zero *= cfg.ZeroFlowShare
		c.rise = (float64(cfg.SetPoint) - c.zero) / float64(cfg.DesignFlow)
	case IndexUnit:
		c.bend = resistance(l, "Run", cfg.Run)
	}
}

// checkReach requires a set point that some speed reaches at some flow: the pumps'
// greatest head is that at zero flow and MaxSpeed.
func (c *Controlled) checkReach(l *check.List, cfg ControlConfig) {
	if most := units.Pressure(c.most * c.most * c.bank.top); cfg.Mode != FixedSpeed && most > 0 {
		l.Require(!(cfg.SetPoint >= most), "SetPoint", cfg.SetPoint,
			fmt.Sprintf("below %v, the head of the pumps at zero flow and MaxSpeed: no speed reaches more", most))
	}
}

// Equal reports whether c and o are the same pumps under the same control.
func (c Controlled) Equal(o Controlled) bool {
	return c.bank.Equal(o.bank) && c.mode == o.mode && c.zero == o.zero && c.rise == o.rise && c.bend == o.bend &&
		c.least == o.least && c.most == o.most
}

// Head returns the pressure rise at a flow: the set line, unless the curve at
// the greatest speed is below it or the one at the least speed above it.
func (c Controlled) Head(q units.Flow) units.Pressure {
	head, _, _ := c.at(float64(q))
	return units.Pressure(head)
}

// HeadSlope returns the derivative dH/dq of [Controlled.Head] in SI,
// Pa/(m³/s). It jumps where a speed bound is reached.
func (c Controlled) HeadSlope(q units.Flow) float64 {
	_, slope, _ := c.at(float64(q))
	return slope
}

// Speed returns the speed at a flow, as a ratio to the speed that the pumps were
// given with.
func (c Controlled) Speed(q units.Flow) float64 {
	head, _, bound := c.at(float64(q))
	return c.speed(float64(q), head, bound)
}

// State returns how the pumps work at a flow through all of them.
func (c Controlled) State(q units.Flow) State {
	head, _, bound := c.at(float64(q))
	state := c.bank.state(float64(q), head, c.speed(float64(q), head, bound))
	if bound != Normal && c.mode != FixedSpeed {
		state.Status = bound
	}
	return state
}

// Operate returns the state in which the pumps work on a system. If a rising set
// line leaves room for several, it is the one reached from standstill.
func (c Controlled) Operate(s System) State {
	q := c.meet(s, c.most)
	if least := c.meet(s, c.least); c.mode != FixedSpeed {
		if set, _ := c.line(least); set > float64(s.Pressure(units.Flow(least))) {
			q = min(q, c.lineMeets(s))
		} else {
			q = least
		}
	}
	return c.State(units.Flow(q)).orNoFlow()
}

// at returns head and slope, and which speed bound holds if one does.
func (c *Controlled) at(q float64) (head, slope float64, bound Status) {
	set, setSlope := c.line(q)
	head, slope = c.curve(q, c.most)
	if c.mode == FixedSpeed || !(set < head) {
		return head, slope, FullSpeed
	}
	head, slope = c.curve(q, c.least)
	if set < head {
		return head, slope, LeastSpeed
	}
	return set, setSlope, Normal
}

// line returns the set line and its slope; it is flat in reverse flow.
func (c *Controlled) line(q float64) (head, slope float64) {
	q = max(q, 0)
	return c.zero + float64(q*(c.rise+float64(c.bend*q))), c.rise + float64(2*c.bend*q)
}

// curve returns head and slope of the pumps at n times their speed.
func (c *Controlled) curve(q, n float64) (head, slope float64) {
	head, slope = c.bank.at(q / n)
	return head * n * n, slope * n
}

// speed returns the speed at which the pumps make a head at a flow.
func (c *Controlled) speed(q, head float64, bound Status) float64 {
	switch {
	case bound == FullSpeed:
		return c.most
	case bound == LeastSpeed:
		return c.least
	case c.bank.one:
		return c.bank.curve.speed(q, head)
	}
	return root(c.least, c.most, func(n float64) (float64, float64) {
		at, slope := c.bank.at(q / n)
		return head - float64(at*n*n), float64(q*slope) - float64(2*n*at)
	})
}

// meet returns the flow at which the pumps at n times their speed meet the
// system.
func (c *Controlled) meet(s System, n float64) float64 {
	return n * c.bank.meet(System{s.static / (n * n), s.resistance})
}

// lineMeets returns the greatest flow at which the set line, which is above the
// system's law somewhere, meets it: infinity if it stays above.
func (c *Controlled) lineMeets(s System) float64 {
	above, bend := c.zero-s.static, s.resistance-c.bend
	if !(bend > 0) {
		return math.Inf(1)
	}
	return (c.rise + math.Sqrt(float64(c.rise*c.rise)+float64(4*bend*above))) / (2 * bend)
}
