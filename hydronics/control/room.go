package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/newton"
	"github.com/indexrun/indexrun/units"
)

// NewRoom returns the plant of a room with its terminal: as [NewPlant], with a heat that follows
// the temperature of the room,
//
//	τ·dT/dt = Base + heat(travel at t − θ, Base, T)/Conductance − T
//
// Conductance and TimeConstant are those of the room alone, as its cooling down with
// the valve shut shows them: heat loss per kelvin, and heat capacity over that. The terminal shortens
// the time constant, which a step test on the whole finds, to τ/(1 − heat′/Conductance)
// with heat′ the slope by T, below zero; [LoopConfig.Process] counts with that.
//
// The steps are exponential Euler steps (Hochbruck & Ostermann, "Exponential integrators",
// Acta Numerica 19, 2010), in parts of a sixteenth of the time constant at first: exact
// for a heat that is a straight line over T, as that of coils and floors, and of second
// order otherwise, within 2e-4 of the way of a radiator from cold.
func NewRoom(cfg PlantConfig, heat RoomHeatCurve, travel float64, base units.Temperature) (*Plant, error) {
	return newPlant(cfg, plantHeat{curve: heat, coupled: true}, heat == nil, travel, base)
}

// plantHeat is the static law of a plant.
type plantHeat struct {
	curve   RoomHeatCurve
	coupled bool // the curve minds the temperature of the room
}

// drift is how far the temperature is from where the heat as it is would take it, in K, and its
// slope by the temperature: −1 for a heat that does not mind that.
func (p *Plant) drift(travel float64, base units.Temperature, t float64) (way, slope float64) {
	const apart = 0.01 // K
	way = p.target(travel, base, t) - t
	if !p.heat.coupled {
		return way, -1
	}
	return way, (p.target(travel, base, t+apart) - t - apart - way) / apart
}

// relax lets time pass with the inputs held. The parts grow as the temperature settles.
func (p *Plant) relax(travel float64, base units.Temperature, dt time.Duration) {
	const first, growth = 16, 8
	least := max(1, p.cfg.TimeConstant/first)
	for passed := time.Duration(0); passed < dt; {
		part := min(dt-passed, max(least, passed/growth))
		way, slope := p.drift(travel, base, p.temperature)
		h := float64(part) / float64(p.cfg.TimeConstant)
		share := h
		if z := slope * h; z != 0 {
			share = math.Expm1(z) / slope
		}
		p.temperature += float64(share * way)
		passed += part
	}
}

// settled is the temperature that travel and base lead to in the end: where the drift is zero,
// by Newton's method between the base and the temperature that the heat to a room at the base would
// make.
func (p *Plant) settled(travel float64, base units.Temperature) float64 {
	still := base.Kelvin()
	t := p.target(travel, base, still)
	if !p.heat.coupled {
		return t
	}
	const enough = 1e-10 // K
	return newton.Rising(func(t float64) (float64, float64) {
		way, slope := p.drift(travel, base, t)
		return -way, -slope
	}, math.Min(still, t), math.Max(still, t), t, enough)
}
