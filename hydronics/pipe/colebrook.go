package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
)

// The constants of Colebrook's formula: roughness and smooth-wall term.
const (
	colebrookRough  = 3.7
	colebrookSmooth = 2.51
)

// halfLn10 turns 1/√f into the unknown y = (ln 10/2)/√f of the solver.
const halfLn10 = math.Ln10 / 2

// Colebrook returns the Darcy friction factor of turbulent flow by the formula
// of Colebrook and White,
//
//	1/√f = −2·log₁₀( (ε/D)/3.7 + 2.51/(Re·√f) )
//
// solved to within 1e-15 of f. re is the Reynolds number, 2000 …
// [MaxReynolds], relativeRoughness is ε/D, 0 … 0.05; both are pure numbers. What the
// formula gives between Re 2000 and 4000 is an extrapolation: [FrictionFactor]
// covers all regimes.
//
// Source: C. F. Colebrook, "Turbulent flow in pipes, with particular reference
// to the transition region between the smooth and rough pipe laws", Journal of
// the Institution of Civil Engineers 11 (1939), 133–156; F. M. White, Fluid
// Mechanics, equation 6.48 (number from memory).
//
// With y = (ln 10/2)/√f the formula reads y + ln(A + C·y) = 0, a relative of the
// Lambert and Wright functions; this form does not lose digits for rough walls.
// Two steps, of fourth and third order, reach the limit of float64: the first with
// coarse logarithms, the second with one that is added to y without rounding. The
// form and the count of steps follow D. Clamond, "Efficient resolution of the
// Colebrook equation", Industrial & Engineering Chemistry Research 48 (2009),
// 3665–3671; the start and the steps are this package's own.
func Colebrook(re, relativeRoughness float64) (float64, error) {
	if err := checkFriction(re, relativeRoughness, laminarEnd, "a Reynolds number of 2000 … 1e150"); err != nil {
		return 0, err
	}
	f, _ := turbulent(re, relativeRoughness/colebrookRough)
	return f, nil
}

// turbulent returns the friction factor f for a = (ε/D)/3.7, and with it u, by
// which the friction number φ = f·Re² has the slope dφ/dRe = 2·f·Re/(1 + u).
func turbulent(re, a float64) (f, u float64) {
	c := colebrookSmooth / halfLn10 / re
	y := colebrookStep(-fastlog.Near(a+float64(c*typicalY)), a, c)
	sum := a + float64(c*y)
	u, inv := ratios(c, sum)
	whole, rest := fastlog.Parts(sum)
	h := ((y + whole) + rest) * inv
	h -= float64(0.5 * float64(u*u) * inv * float64(h*h))
	y -= h
	return halfLn10 * halfLn10 / float64(y*y), u * (1 + float64(u*h*(1+float64(u*h))))
}

// typicalY starts the iteration; it is y at f = 0.0207.
const typicalY = 8

// colebrookStep brings y within 1e-5 by three terms of the inverse Taylor
// series of y + ln(a + c·y), whose derivatives are 1+u, −u² and 2u³ for
// u = c/(a + c·y).
func colebrookStep(y, a, c float64) float64 {
	sum := a + float64(c*y)
	u, inv := ratios(c, sum)
	h := (y + fastlog.Near(sum)) * inv
	second := float64(u*u) * inv * 0.5
	third := float64(2*second*second) - float64(u*u*u*inv*(1.0/3))
	return y - float64(h*(1+float64(h*(float64(h*third)-second))))
}

// ratios returns u = c/sum and 1/(1+u) with one division. Up to [MaxReynolds] sum and
// c are above 1e-150, so that the product does not underflow.
func ratios(c, sum float64) (u, inv float64) {
	more := sum + c
	r := 1 / float64(sum*more)
	return c * more * r, sum * sum * r
}
