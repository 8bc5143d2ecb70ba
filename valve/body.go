package valve

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/curve"
	"github.com/indexrun/indexrun/internal/fastexp"
	"github.com/indexrun/indexrun/units"
)

const (
	// DefaultClosingTravel is the relative travel below which a valve's curve
	// runs straight to its leakage, where the configuration does not say
	// otherwise (common practice, no published source).
	DefaultClosingTravel = 0.01

	// LeastLeakage is the smallest leakage of a model, as a share of the open
	// coefficient. Nothing is tight for ever, and a network needs a law that
	// still rises when the valve is shut; a tighter valve, one without a stated
	// leakage included, counts as this.
	LeastLeakage units.Ratio = 1e-9
)

// bodyConfig is what both kinds of valve state about stem and curve.
type bodyConfig struct {
	curve Characteristic
	plainConfig
}

// plainConfig is the part of bodyConfig that == compares.
type plainConfig struct {
	stroke        units.Length
	angle         units.Angle
	stem          Stem
	closingTravel float64
	rangeability  float64
	leakage       units.Ratio
	seatArea      units.Area
	springForce   units.Force
	maxPressure   units.Pressure
	density       units.Density
}

// body is the compiled curve: relative travel → relative flow coefficient.
type body struct {
	closing    float64 // relative travel where the straight line ends
	closingPhi float64 // its coefficient there
	leakage    float64 // coefficient at 0
	rise       float64 // slope of the line
	shape      shape
	k          float64 // ln R0, or 1 − φ0
	floor      float64 // φ0
	law        curve.Curve
}

// shape picks the laws that are worth a short way.
type shape uint8

const (
	other shape = iota
	straight
	exponential
)

func newBody(l *check.List, c *bodyConfig) body {
	c.check(l)
	if err := c.curve.Err(); err != nil {
		l.Add(err)
		return body{}
	}
	b := body{law: c.curve.law, floor: c.curve.law.Floor(), leakage: max(float64(c.leakage), float64(LeastLeakage))}
	switch b.law.Kind() {
	case curve.Linear:
		b.shape, b.k = straight, 1-b.floor
	case curve.EqualPercentage:
		b.shape, b.k = exponential, math.Log(b.law.Param())
	}
	b.closing = c.closing(b.leakage)
	b.closingPhi = b.law.At(b.closing)
	b.rise = (b.closingPhi - b.leakage) / b.closing
	l.Require(b.rise > 0, "Leakage", c.leakage, "less than the coefficient where the closing region ends, "+units.Ratio(b.closingPhi).String())
	return b
}

// closing returns the closing travel: as stated, or where the curve reaches the
// stated rangeability, or the default, but not so low that the leakage is as
// large as the flow there.
func (c *bodyConfig) closing(leakage float64) float64 {
	if c.closingTravel > 0 {
		return c.closingTravel
	}
	h := max(DefaultClosingTravel, c.curve.Inverse(2*leakage))
	if c.rangeability > 0 {
		h = max(h, c.curve.Inverse(1/c.rangeability))
	}
	return min(h, 0.5)
}

// equal compares without ==, which a custom curve need not have.
func (c *bodyConfig) equal(d *bodyConfig) bool {
	return c.curve.Equal(d.curve) && c.plainConfig == d.plainConfig
}

func (c *bodyConfig) check(l *check.List) {
	check.Enum(l, "Stem", c.stem, Rotary)
	c.checkTravel(l)
	if c.closingTravel != 0 {
		check.Within(l, "ClosingTravel", c.closingTravel, 1e-6, 0.5)
	}
	if ratio := c.curve.TheoreticalRatio(); c.rangeability != 0 {
		l.Require(c.rangeability >= 2 && c.rangeability <= ratio*(1+rounding), "Rangeability", c.rangeability,
			fmt.Sprintf("2 … %.6g, the theoretical ratio of the curve", ratio))
	}
	check.Within(l, "Leakage", c.leakage, 0, 0.1)
	check.NotNegative(l, "SeatArea", c.seatArea)
	check.NotNegative(l, "SpringForce", c.springForce)
	check.NotNegative(l, "MaxPressure", c.maxPressure)
	l.Add(checkedDensity(c.density))
}

func (c *bodyConfig) checkTravel(l *check.List) {
	if c.stem == Rotary {
		check.Within(l, "Angle", c.angle, units.Degree, 360*units.Degree)
		l.Require(c.stroke == 0, "Stroke", c.stroke, "none: a rotary valve has an angle")
		return
	}
	check.Within(l, "Stroke", c.stroke, 0.1*units.Millimetre, units.Metre)
	l.Require(c.angle == 0, "Angle", c.angle, "none: a "+c.stem.String()+" valve has a stroke")
}

// checkedDensity accepts any liquid that a heating or cooling plant holds; 0
// stands for the reference.
func checkedDensity(rho units.Density) error {
	l := check.List{Package: packageName}
	if rho != 0 {
		check.Within(&l, "Density", rho, 500, 2000)
	}
	return l.Err()
}

// at returns the relative coefficient at relative travel h.
func (b *body) at(h float64) float64 {
	if h >= b.closing && h < 1 {
		switch b.shape {
		case exponential:
			return fastexp.Exp(b.k * (h - 1))
		case straight:
			return b.floor + float64(b.k*h)
		}
		return b.law.At(h)
	}
	return b.ends(h)
}

// onLine is at on a straight curve between its ends, small enough to be put in
// line.
func (b *body) onLine(h float64) (phi float64, ok bool) {
	return b.floor + float64(b.k*h), b.shape == straight && h >= b.closing && h < 1
}

// ends is at outside the law's own range.
func (b *body) ends(h float64) float64 {
	switch {
	case h >= 1:
		return 1
	case h > 0:
		return b.leakage + float64(b.rise*h)
	case h <= 0:
		return b.leakage
	}
	return math.NaN()
}

// inverse returns the relative travel of a relative coefficient: 0 for the
// leakage and less.
func (b *body) inverse(phi float64) float64 {
	switch {
	case phi >= b.closingPhi:
		return max(b.law.Inverse(phi), b.closing)
	case phi > b.leakage:
		return min((phi-b.leakage)/b.rise, b.closing)
	case phi <= b.leakage:
		return 0
	}
	return math.NaN()
}
