package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Bend returns the loss of a smooth bend of an angle, 0 … 180°, and a radius of
// its axis, no less than half the bore, in a pipe of a friction factor f above
// zero:
//
//	K = f·α·r/D + (0.10 + 2.4·f)·sin(α/2) + 6.6·f·(√sin(α/2) + sin(α/2))/(r/D)^(4α/π)
//
// with α in radians. The friction along the bend's own axis is within K: leave
// its length out of the pipe's. Source: Rennels and Hudson, as
// [SuddenContraction], chapter 15.
func Bend(angle units.Angle, radius, bore units.Length, f float64) (Loss, error) {
	l := check.List{Package: "pipe"}
	check.Within(&l, "angle", angle, 0, 180*units.Degree)
	if check.Positive(&l, "bore", bore) {
		l.Require(radius >= bore/2 && !math.IsInf(float64(radius), 0), "radius", radius, "a finite radius of half the bore or more")
	}
	check.Positive(&l, "friction factor", f)
	if err := l.Err(); err != nil {
		return Loss{}, err
	}
	alpha, ratio := angle.In(units.Radian), float64(radius/bore)
	half := math.Sin(alpha / 2)
	turn := (0.10+float64(2.4*f))*half + 6.6*f*(math.Sqrt(half)+half)/math.Pow(ratio, 4*alpha/math.Pi)
	return Loss{Constant: float64(f*alpha*ratio) + turn}, nil
}
