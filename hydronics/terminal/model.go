package terminal

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// kind is the law of a model; there are no others.
type kind uint8

const (
	noLaw kind = iota
	powerLaw
	sensible
	wet
)

// model is what all terminals are inside. It is never changed once built.
type model struct {
	kind      kind
	liquid    liquid
	direction float64 // +1 heating, −1 cooling
	point     DesignPoint
	design    state // of the conditions of point
	emitter   emitter
	exchanger exchanger
	moist     moistAir
	primary   float64 // ρ·cp·q of primary air, W/K
}

// state is what a law needs to know of conditions.
type state struct {
	conditions Conditions
	excess     float64 // |supply − air|, K
	sign       float64 // +1 if heat goes the way of the design, else −1
	moist      moistState
}

// settle sets the design, once the law is complete.
func (m *model) settle(flow float64, t Temperatures, c Conditions) {
	m.direction = t.direction()
	m.design = m.stateOf(c)
	heat := m.heat(flow, &m.design)
	m.point = DesignPoint{
		Flow: units.Flow(flow), Heat: units.Power(heat), Return: m.back(flow, heat, &m.design),
		Conditions: c, Density: m.liquid.density, SpecificHeat: m.liquid.specificHeat,
	}
}

// state fills in the design where a condition is zero.
func (m *model) state(c Conditions) state {
	if c == (Conditions{}) {
		return m.design
	}
	d := &m.point.Conditions
	if c.Supply.IsZero() {
		c.Supply = d.Supply
	}
	if c.Air.IsZero() {
		c.Air = d.Air
	}
	if c.Humidity == 0 {
		c.Humidity = d.Humidity
	}
	if c.PrimaryAir.IsZero() {
		c.PrimaryAir = d.PrimaryAir
	}
	return m.stateOf(c)
}

func (m *model) stateOf(c Conditions) state {
	driving := m.direction * float64(c.Supply.Sub(c.Air))
	s := state{conditions: c, excess: math.Abs(driving), sign: math.Copysign(1, driving)}
	if m.kind == wet {
		s.moist = m.moist.state(c)
	}
	return s
}

// heat returns the heat at flow q in W, without its sign. No law gives more
// than capacity·q·excess.
func (m *model) heat(q float64, s *state) float64 {
	if m.kind != noLaw && (q <= 0 || s.excess == 0) {
		return 0
	}
	switch m.kind {
	case powerLaw:
		return m.emitter.heat(q, m.liquid.capacity(), s.excess)
	case sensible:
		return m.exchanger.heat(q, m.liquid.capacity(), s.excess)
	case wet:
		part := m.condense(q, s)
		return part.heat()
	}
	return math.NaN()
}

// back is the return temperature: that of the air where nothing flows.
func (m *model) back(q, heat float64, s *state) units.Temperature {
	if q <= 0 {
		return s.conditions.Air
	}
	change := min(heat/(m.liquid.capacity()*q), s.excess)
	return s.conditions.Supply.Add(units.TemperatureDifference(-m.direction * s.sign * change))
}

func (m *model) output(q float64, s *state) Output {
	if m.kind == wet {
		return m.wetOutput(q, s)
	}
	heat := m.heat(q, s)
	o := Output{
		Heat: units.Power(s.sign * heat), Sensible: units.Power(s.sign * heat), Return: m.back(q, heat, s),
	}
	if m.primary > 0 {
		o.Primary = units.Power(m.direction * m.primary * float64(s.conditions.PrimaryAir.Sub(s.conditions.Air)))
	}
	if m.kind == sensible {
		o.Leaving = m.leaving(s, heat/m.exchanger.air)
	}
	return o
}

// leaving is the air's temperature after a change without a sign.
func (m *model) leaving(s *state, change float64) units.Temperature {
	return s.conditions.Air.Add(units.TemperatureDifference(m.direction * s.sign * change))
}

// flowFor returns the flow that gives a heat without its sign; ok is false if
// none does, and then limit is what an infinite flow gives.
func (m *model) flowFor(heat float64, s *state) (q, limit float64, ok bool) {
	if heat == 0 && m.kind != noLaw {
		return 0, 0, true
	}
	limit = m.heat(math.Inf(1), s)
	if !(heat > 0 && heat < limit) {
		return math.NaN(), limit, false
	}
	missing := func(q float64) float64 { return m.heat(q, s) - heat }
	lo := heat / (m.liquid.capacity() * s.excess)
	hi := lo
	for missing(hi) < 0 {
		lo, hi = hi, 2*hi
		if math.IsInf(hi, 1) {
			return math.NaN(), limit, false
		}
	}
	return root(missing, lo, hi, missing(lo), missing(hi), tiny), limit, true
}

// mostDoublings bounds a search for a flow from the design's: a return that is as
// close to the air or to the supply as numbers get is within 2^±60 of it.
const mostDoublings = 200

// flowForChange returns the flow at which the water changes its temperature by
// more than nothing and less than the excess. The change falls as the flow rises.
func (m *model) flowForChange(change float64, s *state) float64 {
	surplus := func(q float64) float64 { return change - m.heat(q, s)/(m.liquid.capacity()*q) }
	lo := float64(m.point.Flow)
	hi := lo
	for range mostDoublings {
		if surplus(hi) >= 0 {
			break
		}
		lo, hi = hi, 2*hi
	}
	for range mostDoublings {
		if surplus(lo) <= 0 {
			break
		}
		lo, hi = lo/2, lo
	}
	return root(surplus, lo, hi, surplus(lo), surplus(hi), tiny)
}
