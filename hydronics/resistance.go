package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
)

// Resistance is a fixed hydraulic resistance R of turbulent flow, Δp = R·q²; it
// holds Pa/(m³/s)². The zero Resistance is none. It is the school law of coils,
// fittings and pipe runs near their design flow, where measured exponents are
// 1.8 to 2.0 (common practice, no published source).
//
// Below a pressure difference δ of 1 Pa the law bends into a straight line through
// zero, so that it has a slope there: with s = Δp/δ and u = q·√(R/δ), s = (u + u³)/2,
// which meets the square law in value and slope at δ.
type Resistance float64

// ResistanceAt returns the resistance that drops dp at flow q: R = Δp/q².
func ResistanceAt(q units.Flow, dp units.Pressure) (Resistance, error) {
	l := check.List{Package: packageName}
	check.Positive(&l, "Resistance.Flow", q)
	check.NotNegative(&l, "Resistance.Pressure", dp)
	if err := l.Err(); err != nil {
		return 0, err
	}
	return Resistance(float64(dp) / (float64(q) * float64(q))), nil
}

// Series returns the resistance of several in one run: R = ΣRi.
func Series(rs ...Resistance) Resistance {
	var sum Resistance
	for _, r := range rs {
		sum += r
	}
	return sum
}

// Parallel returns the resistance of several side by side: 1/√R = Σ 1/√Ri. One
// of zero gives zero; without any it is infinite.
func Parallel(rs ...Resistance) Resistance {
	var sum float64
	for _, r := range rs {
		sum += r.conductance()
	}
	return Resistance(1 / (sum * sum))
}

// Pressure returns the pressure drop Δp(q), of the sign of q.
func (r Resistance) Pressure(q units.Flow) units.Pressure {
	return units.Pressure(sqrtlaw.Pressure(r.conductance(), float64(q)))
}

// Flow returns the flow q(Δp), of the sign of dp: the inverse of
// [Resistance.Pressure]. It is infinite for a resistance of zero.
func (r Resistance) Flow(dp units.Pressure) units.Flow {
	if dp == 0 {
		return 0
	}
	return units.Flow(sqrtlaw.Flow(r.conductance(), float64(dp)))
}

// Slope returns the derivative dq/dΔp in m³/(s·Pa).
func (r Resistance) Slope(dp units.Pressure) float64 {
	return sqrtlaw.Slope(r.conductance(), float64(dp))
}

// conductance is K of q = K·√Δp.
func (r Resistance) conductance() float64 { return 1 / math.Sqrt(float64(r)) }
