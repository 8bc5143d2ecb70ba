package terminal

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// Tolerances of the searches in a wet coil; the balance of the water does not
// depend on them.
const (
	settled  = 1e-11 // of a share of temperature
	rounding = 4e-16 // a surplus that is none
)

// wetting is how a wet coil divides.
type wetting struct {
	dry    float64 // heat of the dry part, W
	wet    float64 // heat of the wet part, W
	share  float64 // of the surface that is wet
	outlet float64 // temperature of the water out of the wet part, from supply (0) to entering air (1)
	drop   float64 // of the air's temperature in the dry part, 1 for all the way to supply
}

// condense divides the coil at flow q. Temperatures count from 0 at supply to 1
// at the entering air. If the coil were all dry, its surface would be coldest
// at the air's outlet; above the dew point there, it is dry.
func (m *model) condense(q float64, s *state) wetting {
	if q <= 0 {
		return wetting{}
	}
	w := wetLaw{
		air: m.moist.capacity(s), water: m.liquid.capacity() * q, flow: m.moist.flow,
		outside: m.exchanger.airResistance(), inside: m.exchanger.waterResistance(q), state: s,
	}
	w.all = w.outside + w.inside
	dry := counterFlow(1/w.all, w.water, w.air)
	dew := s.moist.dew
	if s.sign < 0 || !((1-dry/w.air)*w.inside/w.all < dew) {
		return wetting{dry: dry * s.excess, drop: dry / w.air}
	}
	w.corner = dew - float64((1-dew)*w.inside/w.outside)
	if p := w.divide(); p != w.tried {
		w.part = w.at(p)
	}
	if w.water < w.air {
		w.refine()
	}
	return w.part
}

// refine serves a trickle of water. It leaves so close to the air temperature
// that the length of the dry part makes no difference to it; its temperature at
// the border still tells the heat of the wet part, and that heat its length.
func (w *wetLaw) refine() {
	part := &w.part
	part.wet = part.outlet * w.water * w.state.excess
	if part.drop > 0 && part.wet > 0 {
		l := w.wetPart(part.outlet, part.drop)
		part.share = min(part.share, counterFlowConductance(part.wet/l.potential, l.water, w.flow)*l.resistance)
	}
}

// wetLaw is a wet coil at one flow and state. The border between dry and wet is
// found along a path on which the dry part grows, told by a number p. Up to the
// corner at p = 0 the coil is all wet, and the water leaves at z = corner + p.
// Beyond, the surface at the border has the dew point, so that z and the air's
// temperature y there satisfy
//
//	(y − dew)/Ro = (dew − z)/Ri,  p = z − corner + 1 − y
//
// and the path ends at y = z = dew. To count from the corner keeps the digits
// of a dry part that little water keeps small.
type wetLaw struct {
	air, water      float64 // capacity rates, W/K
	flow            float64 // of dry air, kg/s
	outside, inside float64 // resistances of the whole coil, K/W
	all             float64
	corner          float64
	state           *state

	tried float64 // the last p of surplus
	part  wetting // at that p
}

// divide returns p at the border. The ends of the search are known to lie on
// either side of it; the corner, where there is a kink, parts it first.
func (w *wetLaw) divide() float64 {
	end, tolerance := 1-w.corner, settled*min(1, w.water/w.air)
	if w.corner <= 0 {
		start := -w.corner * w.all / w.inside // z = 0
		return root(w.surplus, start, end, w.surplus(start), w.state.moist.dew, tolerance)
	}
	surplus := w.surplus(0)
	if surplus < 0 {
		return root(w.surplus, 0, end, surplus, w.state.moist.dew, tolerance)
	}
	return root(w.surplus, -w.corner, 0, w.surplus(-w.corner), surplus, tolerance)
}

// surplus is by how much the water out of the wet part is warmer on the path
// than that part's heat makes it. It rises with p: a longer dry part and a
// steeper cs leave less heat.
func (w *wetLaw) surplus(p float64) float64 {
	w.tried, w.part = p, w.at(p)
	surplus := w.part.outlet - w.part.wet/(w.water*w.state.excess)
	if math.Abs(surplus) < rounding {
		return 0
	}
	return surplus
}

// border is the temperature of the water between the dry and the wet part, and
// by how much the air there is below the entering air.
func (w *wetLaw) border(p float64) (z, drop float64) {
	if p <= 0 {
		return w.corner + p, 0
	}
	return w.corner + float64(p*w.inside/w.all), p * w.outside / w.all
}

// at is the division of the coil at p, the water's balance aside.
func (w *wetLaw) at(p float64) wetting {
	z, drop := w.border(p)
	result := wetting{dry: w.air * drop * w.state.excess, drop: drop, outlet: z, share: 1 - w.drySurface(z, drop)}
	if result.share <= 0 {
		result.share = 0
		return result
	}
	l := w.wetPart(z, drop)
	result.wet = counterFlow(result.share/l.resistance, l.water, w.flow) * l.potential
	return result
}

// enthalpyLaw is counterflow with the enthalpy as potential.
type enthalpyLaw struct {
	resistance float64 // of the whole coil, s/kg
	water      float64 // flow of air with the water's capacity rate, C/cs, kg/s
	potential  float64 // J/kg
}

func (w *wetLaw) wetPart(z, drop float64) enthalpyLaw {
	moist := &w.state.moist
	cs := moist.slope.at(z)
	return enthalpyLaw{
		resistance: float64(w.outside*moist.specificHeat) + float64(w.inside*cs),
		water:      w.water / cs,
		potential:  moist.potential - float64(moist.specificHeat*drop*w.state.excess),
	}
}

// drySurface is the share of the surface that cools the air by drop beside
// water that enters the dry part at z: UA = Φ/ΔT with the logarithmic mean.
func (w *wetLaw) drySurface(z, drop float64) float64 {
	if drop <= 0 {
		return 0
	}
	given := w.air * drop
	warm, cold := 1-z-given/w.water, 1-z-drop
	if !(warm > 0 && cold > 0) {
		return 1
	}
	return min(1, given*w.all/logMean(warm, cold))
}

// heat is that of both parts.
func (w *wetting) heat() float64 { return w.dry + w.wet }

// wetOutput is output of a wet coil, which is divided once for all of it.
func (m *model) wetOutput(q float64, s *state) Output {
	part := wetting{}
	if s.excess != 0 {
		part = m.condense(q, s)
	}
	heat, sensible := part.heat(), m.sensibleOf(&part, s)
	return Output{
		Heat: units.Power(s.sign * heat), Sensible: units.Power(s.sign * sensible),
		Return: m.back(q, heat, s), Leaving: m.leaving(s, sensible/m.moist.capacity(s)),
	}
}

// sensibleOf is the heat that cools the air: that of the dry part, and in the
// wet one by one effective surface temperature, at which saturated air has the
// enthalpy that the air tends to.
func (m *model) sensibleOf(part *wetting, s *state) float64 {
	if part.share == 0 {
		return part.heat()
	}
	capacity := m.moist.capacity(s)
	reached := rise(part.share / (m.exchanger.airResistance() * capacity))
	supply := s.conditions.Supply.Kelvin()
	entry := supply + float64((1-part.drop)*s.excess)
	surface := s.moist.potential - part.dry/m.moist.flow - part.wet/(m.moist.flow*reached)
	cold := saturatedEnthalpy(supply, m.moist.pressure)
	above := func(T float64) float64 { return saturatedEnthalpy(T, m.moist.pressure) - cold - surface }
	T := root(above, supply, entry, above(supply), above(entry), settled)
	return part.dry + min(part.wet, capacity*(entry-T)*reached)
}
