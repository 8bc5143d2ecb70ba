package valve

import "github.com/indexrun/indexrun/units"

// Valve is what a response chain, a network or a selection needs of a valve.
// [TwoWay] and [PressureIndependent] have it.
//
// Relative travel h is 0 closed … 1 at full stroke. The flow law is odd where
// the valve is, continuous and strictly increasing in the pressure difference
// at every travel, the shut valve's leakage included; all methods return NaN
// for NaN.
type Valve interface {
	// Stem says how the closing element is moved.
	Stem() Stem
	// Stroke is the full stroke, 0 for a rotary valve.
	Stroke() units.Length
	// Angle is the full angle, 0 for a valve with a stroke.
	Angle() units.Angle
	// SeatArea is the area the pressure acts on; 0 if not stated.
	SeatArea() units.Area
	// SpringForce is that of the valve's own spring; 0 if not stated.
	SpringForce() units.Force
	// MaxPressure is the greatest pressure difference the valve is rated for; 0
	// if not stated.
	MaxPressure() units.Pressure
	// GreatestUsableTravel is 1 unless a lift-limiting setting stops the stem
	// earlier.
	GreatestUsableTravel() float64

	// RelativeCoefficient is φ at relative travel h: the share of the
	// coefficient that the valve has at its greatest usable travel.
	RelativeCoefficient(h float64) float64
	// TravelFor is the inverse of RelativeCoefficient.
	TravelFor(phi float64) float64
	// Flow is q(Δp) at relative travel h.
	Flow(h float64, dp units.Pressure) units.Flow
	// GreatestFlow is Flow at the greatest usable travel.
	GreatestFlow(dp units.Pressure) units.Flow
	// Pressure is Δp(q) at relative travel h.
	Pressure(h float64, q units.Flow) units.Pressure
	// Slope is dq/dΔp at relative travel h, in m³/(s·Pa).
	Slope(h float64, dp units.Pressure) float64
	// TravelForFlow is the relative travel at which the valve passes q at dp,
	// or an [UnreachableError].
	TravelForFlow(q units.Flow, dp units.Pressure) (float64, error)
}

var (
	_ Valve = TwoWay{}
	_ Valve = PressureIndependent{}
)
