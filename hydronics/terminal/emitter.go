package terminal

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/fastexp"
	"github.com/indexrun/indexrun/units"
)

// The exponents that a power law may have.
const (
	leastExponent = 1.0
	mostExponent  = 2.0
)

// emitter is Φ = Φn·f(q)·(ΔT/ΔTn)^n with the logarithmic mean ΔT.
type emitter struct {
	logCoefficient float64 // ln(Φn/ΔTn^n), W/K^n
	exponent       float64
	side           waterSide
}

func newEmitter(heat units.Power, rated Temperatures, exponent float64, side waterSide) emitter {
	mean := float64(rated.LogMean())
	return emitter{math.Log(float64(heat)) - float64(exponent*math.Log(mean)), exponent, side}
}

// heat solves the law together with the balance Φ = C·(a − b), where a and b
// are the differences to the room at supply and return. With t = ln(a/b) and
// s = 1 − e^(−t) the logarithmic mean is a·s/t, Φ = C·a·s, and what remains is
//
//	t^n = N·s^(n−1),  N = Φn·f(q)·a^(n−1)/(ΔTn^n·C)
//
// For n = 1, t = N is the closed form of ε-NTU with a room that stays as it is.
func (e *emitter) heat(q, capacity, a float64) float64 {
	logUnlimited := e.logCoefficient + math.Log(e.side.relative(q)) + float64((e.exponent-1)*math.Log(a))
	if math.IsInf(q, 1) {
		return fastexp.Exp(logUnlimited) * a
	}
	return float64(capacity*q) * a * depletion(logUnlimited-math.Log(capacity*q), e.exponent)
}

// mean is ΔT at a heat that flow q gives.
func (e *emitter) mean(heat, q float64) float64 {
	if heat == 0 {
		return 0
	}
	return math.Exp((math.Log(heat) - e.logCoefficient - math.Log(e.side.relative(q))) / e.exponent)
}

// Beyond these the equation has a limit for an answer.
const (
	allDepleted    = 40  // t, from which 1 − e^(−t) rounds to 1
	hardlyDepleted = -40 // ln N, to which s, t and N are the same
)

// depletion is s of the equation above, the share of a that the water loses,
// for ln N and n. In y = ln t the equation is
//
//	n·y − (n − 1)·ln s(e^y) − ln N = 0
//
// whose slope is between 1 and n, so that Newton's method cannot fail.
func depletion(logN, n float64) float64 {
	if n == 1 {
		return rise(fastexp.Exp(logN))
	}
	if logN < hardlyDepleted {
		return fastexp.Exp(logN)
	}
	y := logN
	if y > 0 {
		y /= n
	}
	for range mostSteps {
		t := fastexp.Exp(y)
		if t > allDepleted {
			return 1
		}
		s := rise(t)
		slope := n - float64((n-1)*t*(1-s)/s)
		step := (float64(n*y) - float64((n-1)*math.Log(s)) - logN) / slope
		y -= step
		if !(math.Abs(step) > 1e-7) { // the next step would be its square
			break
		}
	}
	return rise(fastexp.Exp(y))
}

// emitterConfig is what the units with a power law have in common.
type emitterConfig struct {
	heat         units.Power
	rated        Temperatures
	only         duty // of the rating, if there is but one
	exponent     float64
	waterShare   units.Ratio
	laminarFloor units.Ratio
	design       Temperatures
	fluid        fluid.Fluid
	pressure     units.AbsolutePressure
}

// duty is the direction of the heat that a kind of unit is rated for.
type duty struct {
	direction float64 // as that of Temperatures; 0 for both
	want      string
}

// build adds the faults of c to those in l and, if there are none, returns the
// model at its design.
func (c *emitterConfig) build(l *check.List) (model, error) {
	design := c.check(l)
	side := newWaterSide(l, c.waterShare, c.laminarFloor)
	properties := newLiquid(l, c.fluid, c.pressure, c.design, design)
	if err := l.Err(); err != nil {
		return model{}, err
	}
	capacity := properties.capacity()
	side.per = capacity * c.rated.spread() / float64(c.heat)
	m := model{kind: powerLaw, liquid: properties, emitter: newEmitter(c.heat, c.rated, c.exponent, side)}
	m.settle(m.emitter.flowFor(c.design, capacity), c.design, Conditions{Supply: c.design.Supply, Air: c.design.Air})
	return m, nil
}

// check takes the rating for a design that is not stated. It returns the name of
// the field that the design is from.
func (c *emitterConfig) check(l *check.List) string {
	check.Positive(l, "RatedHeat", c.heat)
	check.Within(l, "Exponent", c.exponent, leastExponent, mostExponent)
	rated := c.rated.check(l, "Rated")
	if rated && c.only.direction != 0 {
		l.Require(c.rated.direction() == c.only.direction, "Rated.Supply", c.rated.Supply, c.only.want)
	}
	if c.design.isZero() {
		c.design = c.rated
		return "Rated"
	}
	if c.design.check(l, "Design") && rated {
		l.Require(c.design.direction() == c.rated.direction(), "Design.Supply", c.design.Supply, "heating or cooling as in the rating")
	}
	return "Design"
}

// flowFor returns the flow at which the water has the temperatures t.
func (e *emitter) flowFor(t Temperatures, capacity float64) float64 {
	perFactor := fastexp.Exp(e.logCoefficient+float64(e.exponent*math.Log(float64(t.LogMean())))) / (capacity * t.spread())
	surplus := func(q float64) float64 { return q - float64(perFactor*e.side.relative(q)) }
	lo, hi := perFactor*e.side.relative(0), perFactor*e.side.relative(math.Inf(1))
	return root(surplus, lo, hi, surplus(lo), surplus(hi), tiny)
}
