package actuator

import (
	"math"

	"github.com/indexrun/indexrun/internal/curve"
	"github.com/indexrun/indexrun/internal/fastexp"
)

// shape is a compiled shaping: the two laws that almost every drive has are
// worked out in place, the others by their curve.
type shape struct {
	law   shapeLaw
	k     float64 // ln R
	scale float64 // 1/(R − 1)
	curve curve.Curve
}

type shapeLaw uint8

const (
	byCurve shapeLaw = iota
	straightLine
	zeroBased
)

func newShape(c curve.Curve) shape {
	s := shape{curve: c}
	switch {
	case c.Kind() == curve.Linear && c.Floor() == 0:
		s.law = straightLine
	case c.Kind() == curve.ZeroBased:
		s.law, s.k, s.scale = zeroBased, math.Log(c.Param()), 1/(c.Param()-1)
	}
	return s
}

// at is the curve's At.
func (s *shape) at(x float64) float64 {
	if x > 0 && x < 1 {
		switch s.law {
		case zeroBased:
			return (fastexp.Exp(s.k*x) - 1) * s.scale
		case straightLine:
			return x
		}
	}
	return s.curve.At(x)
}
