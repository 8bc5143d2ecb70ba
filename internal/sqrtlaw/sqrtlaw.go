// Package sqrtlaw is the flow law of a fixed turbulent resistance, q = K·√Δp,
// with a laminar floor near zero so that a network solver can use it.
//
// The square root has no finite slope at zero. Below a pressure difference of
// [Floor] the law is therefore, with u = q/(K·√δ), s = Δp/δ and δ = Floor,
//
//	s = (u + u³)/2
//
// which meets the root in value (u = 1 at s = 1) and slope (ds/du = 2), is odd
// and strictly increasing, and has a finite slope at zero both ways: dq/dΔp =
// 2·K/√δ. A laminar law near zero flow is common practice in network programs;
// this polynomial is a choice of this module, no published source.
//
// Numbers are SI: Δp in Pa, q in m³/s, K in m³/(s·√Pa), not negative. Every
// function is odd in Δp or q, returns NaN for NaN, and does not allocate.
package sqrtlaw

import "math"

// Floor is δ, the pressure difference in Pa below which the law bends from the
// root to a straight line through zero. It is 1, so that s = Δp and u = q/K.
const Floor = 1.0

// Flow returns q(Δp).
func Flow(k, dp float64) float64 {
	if dp >= Floor {
		return k * math.Sqrt(dp)
	}
	return k * root(dp)
}

// Pressure returns Δp(q). If k is 0, nothing but q = 0 can pass: Δp is then 0,
// and infinite for every other q.
func Pressure(k, q float64) float64 {
	if q == 0 {
		return 0
	}
	u := q / k
	if a := math.Abs(u); a >= 1 {
		return u * a
	}
	return (u + float64(u*u*u)) / 2
}

// Slope returns dq/dΔp in m³/(s·Pa).
func Slope(k, dp float64) float64 {
	if a := math.Abs(dp); a >= Floor {
		return k / (2 * math.Sqrt(a))
	}
	u := root(dp)
	return 2 * k / (1 + float64(3*u*u))
}

// root returns u(s) for any s below +Floor.
func root(s float64) float64 {
	if s <= -Floor {
		return -math.Sqrt(-s)
	}
	return math.Copysign(laminar(math.Abs(s)), s)
}

// laminar solves u³ + u = 2s for 0 ≤ s ≤ 1: the real root by Cardano's formula,
// then one Newton step, which takes out the cancellation; for small s the first
// terms of the series, whose next one, 96·s⁵, is below the rounding.
func laminar(s float64) float64 {
	if s < 1e-5 {
		return 2*s - float64(8*s*s*s)
	}
	c := math.Cbrt(s + math.Sqrt(float64(s*s)+1.0/27))
	u := c - 1/(3*c)
	miss := float64(u*u*u) + (u - 2*s)
	return min(u-miss/(1+float64(3*u*u)), 1)
}
