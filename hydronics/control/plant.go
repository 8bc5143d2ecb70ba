package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// PlantConfig describes what a terminal heats or cools: a room, an air stream, a
// store.
type PlantConfig struct {
	// Conductance is the heat that holds the temperature one kelvin above its base: the
	// heat loss of a room per kelvin, or the heat capacity flow ṁ·cp of an air stream.
	Conductance units.ThermalConductance
	// TimeConstant is that of the lag at a heat that does not change; above zero.
	TimeConstant time.Duration
	// DeadTime is the time from a movement of the valve until the temperature begins
	// to move; 0 is allowed.
	DeadTime time.Duration
	// LeastStep is the shortest step for which the memory of the dead time is laid
	// out; 0 = 1 s, but a ten-thousandth of the dead time at least. Steps may be
	// shorter: the travel of several is then averaged over LeastStep.
	LeastStep time.Duration
}

func (c *PlantConfig) validate() error {
	l := check.List{Package: packageName}
	check.Positive(&l, "Conductance", c.Conductance)
	checkSpan(&l, "TimeConstant", c.TimeConstant)
	checkTime(&l, "DeadTime", c.DeadTime)
	checkTime(&l, "LeastStep", c.LeastStep)
	if c.LeastStep > 0 {
		l.Require(c.DeadTime/c.LeastStep <= mostPieces, "LeastStep", c.LeastStep, "at least a millionth of the dead time")
	}
	return l.Err()
}

const mostPieces = 1_000_000

func (c *PlantConfig) leastStep() time.Duration {
	if c.LeastStep > 0 {
		return c.LeastStep
	}
	return max(time.Second, c.DeadTime/10_000)
}

// Plant is a terminal and what it serves, in time: a static heat curve, a dead time
// and a first-order lag,
//
//	τ·dT/dt = Base + heat(travel at t − θ, Base)/Conductance − T
//
// where Base is the temperature without heat (that outdoors, or of the air before
// the coil), which acts without dead time, on the heat as well, and so serves as the load. It
// is [Process] with a curved gain. The steps are exact for inputs that are constant over each,
// whatever their lengths. That is the plant of an air stream, whose heat minds the air that enters
// and not the air that is controlled. A terminal in the room that it serves gives less as
// the room gets warmer: for that see [NewRoom].
//
// A Plant changes with each step and is not safe for concurrent use. All memory is
// allocated by NewPlant.
type Plant struct {
	cfg         PlantConfig
	heat        plantHeat
	lag         lag
	delay       delay   // travel under way
	temperature float64 // K
}

// NewPlant returns a plant at rest with the valve at a relative travel of 0 … 1 and a
// base temperature.
func NewPlant(cfg PlantConfig, heat HeatCurve, travel float64, base units.Temperature) (*Plant, error) {
	curve := func(travel float64, base, _ units.Temperature) units.Power { return heat(travel, base) }
	return newPlant(cfg, plantHeat{curve: curve}, heat == nil, travel, base)
}

func newPlant(cfg PlantConfig, heat plantHeat, none bool, travel float64, base units.Temperature) (*Plant, error) {
	l := check.List{Package: packageName}
	l.Add(cfg.validate())
	l.Require(!none, "HeatCurve", "nil", "a heat curve")
	check.Within(&l, "Travel", travel, 0, 1)
	if base.IsZero() {
		l.Fault("Base", "none", "the temperature without heat")
	} else {
		l.Require(base.Kelvin() > 0 && !math.IsInf(base.Kelvin(), 0), "Base", base, "a temperature above absolute zero")
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	p := &Plant{cfg: cfg, heat: heat, lag: lag{constant: cfg.TimeConstant}, delay: newDelay(cfg.DeadTime, cfg.leastStep())}
	p.Settle(travel, base)
	return p, nil
}

// Settle puts the plant at rest with the valve at a relative travel and a base
// temperature.
func (p *Plant) Settle(travel float64, base units.Temperature) {
	p.delay.fill(p.cfg.DeadTime, travel)
	p.temperature = p.settled(travel, base)
}

// Step lets time pass with the valve at a relative travel and a base temperature,
// and returns the temperature at the end. A duration of zero or less changes
// nothing. A NaN in travel, heat or base makes the temperature NaN until the plant
// is settled anew.
func (p *Plant) Step(dt time.Duration, travel float64, base units.Temperature) units.Temperature {
	if dt <= 0 {
		return p.Temperature()
	}
	p.delay.put(dt, travel)
	for dt > 0 {
		now := p.delay.take(dt)
		if p.heat.coupled {
			p.relax(now.value, base, now.length)
		} else {
			p.temperature = p.lag.after(p.temperature, p.target(now.value, base, p.temperature), now.length)
		}
		dt -= now.length
	}
	return p.Temperature()
}

// target is the temperature that the heat to a room at a temperature leads to, if it stays.
func (p *Plant) target(travel float64, base units.Temperature, room float64) float64 {
	heat := p.heat.curve(travel, base, units.AbsoluteKelvin(room))
	return base.Kelvin() + float64(heat)/float64(p.cfg.Conductance)
}

// Temperature returns the temperature as it is.
func (p *Plant) Temperature() units.Temperature { return units.AbsoluteKelvin(p.temperature) }
