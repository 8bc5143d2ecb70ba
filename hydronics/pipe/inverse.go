package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
	"github.com/indexrun/indexrun/units"
)

// Flow returns the flow that a pressure difference drives through the pipe, the
// inverse of [Pipe.Pressure] within 1e-12.
func (p Pipe) Flow(dp units.Pressure) units.Flow {
	number := math.Abs(float64(dp)) / p.scale
	return units.Flow(math.Copysign(p.inverse(number)/p.perFlow, float64(dp)))
}

// Slope returns the derivative dq/dΔp of [Pipe.Flow] in SI, m³/(s·Pa). It is the
// reciprocal of [Pipe.PressureSlope] at that flow.
func (p Pipe) Slope(dp units.Pressure) float64 { return 1 / p.PressureSlope(p.Flow(dp)) }

// inverse returns the Reynolds number at which [Pipe.number] is number.
func (p *Pipe) inverse(number float64) float64 {
	if number > 1e300 { // the squares below would overflow
		return math.Inf(1)
	}
	if re := positiveRoot(p.k, laminarNumber+p.k1, number); !(re > laminarEnd) {
		return re
	}
	if number < p.end {
		return p.blendInverse(number)
	}
	return p.turbulentInverse(number)
}

// blendInverse searches the critical zone by Newton's method; a step that
// leaves the bracket is replaced by a bisection.
func (p *Pipe) blendInverse(number float64) float64 {
	lo, hi := float64(laminarEnd), float64(turbulentStart)
	start, _ := p.number(laminarEnd)
	re := lo + criticalWidth*(number-start)/(p.end-start)
	for range 60 {
		at, slope := p.number(re)
		if at < number {
			lo = re
		} else {
			hi = re
		}
		next := re - (at-number)/slope
		if !(next >= lo && next <= hi) {
			next = lo + (hi-lo)/2
		}
		if math.Abs(next-re) <= 1e-14*re {
			return next
		}
		re = next
	}
	return re
}

// turbulentInverse takes s = Re·√f as the unknown, in which Colebrook's formula
// is explicit: y = −ln(a + 2.51/s), Re = s·y/(ln 10/2), and the friction number
// is s². Newton's method on the root of the number, which is nearly
// proportional to s, needs two steps with the coarse logarithm and one with the
// fine one.
func (p *Pipe) turbulentInverse(number float64) float64 {
	target := math.Sqrt(number)
	s := p.turbulentGuess(number)
	for range 2 {
		step, _, _ := p.turbulentStep(s, -fastlog.Near(p.friction.a+colebrookSmooth/s), target)
		s -= step
	}
	step, re, reSlope := p.turbulentStep(s, -fastlog.Log(p.friction.a+colebrookSmooth/s), target)
	return re - float64(step*reSlope)
}

// turbulentStep returns Newton's step of s, and Re and dRe/ds where it starts.
func (p *Pipe) turbulentStep(s, y, target float64) (step, re, reSlope float64) {
	z := colebrookSmooth / s
	perS, k1 := y/halfLn10, p.k1/s
	root := math.Sqrt(1 + float64(perS*(k1+float64(p.k*perS))))
	reSlope = (y + z/(p.friction.a+z)) / halfLn10
	slope := 1 + float64((float64(p.k*perS)+k1/2)*reSlope) // times root
	return (float64(s*root) - target) * root / slope, s * perS, reSlope
}

// turbulentGuess starts the search: with y held, the number is quadratic in s.
// It is taken at two coarse values of y.
func (p *Pipe) turbulentGuess(number float64) float64 {
	s := p.guessAt(typicalY, number)
	return p.guessAt(-fastlog.Near(p.friction.a+colebrookSmooth/s), number)
}

func (p *Pipe) guessAt(y, number float64) float64 {
	perS := y / halfLn10
	return positiveRoot(1+float64(p.k*perS*perS), p.k1*perS, number)
}

// positiveRoot solves a·x² + b·x = c without cancellation, for a, b, c ≥ 0.
func positiveRoot(a, b, c float64) float64 {
	return 2 * c / (b + math.Sqrt(float64(b*b)+float64(4*a*c)))
}
