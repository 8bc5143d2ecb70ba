package pipe

import (
	"errors"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// SuddenExpansion returns the loss where a pipe opens at once from one bore to a
// wider one, by the velocity in the narrow pipe before it:
//
//	K = (1 − (D₁/D₂)²)²
//
// An infinite wider bore is the outlet into a vessel, K = 1. Source: the theorem
// of Borda and Carnot, as in any textbook, such as F. M. White, Fluid Mechanics.
func SuddenExpansion(narrow, wide units.Length) (Loss, error) {
	beta, err := boreRatio(narrow, wide)
	if err != nil {
		return Loss{}, err
	}
	lost := 1 - float64(beta*beta)
	return Loss{Constant: lost * lost}, nil
}

// SuddenContraction returns the loss where a pipe narrows at once with a sharp
// edge, by the velocity in the narrow pipe behind it:
//
//	K = 0.0696·(1 − β⁵)·λ² + (λ − 1)²
//	λ = 1 + 0.622·(1 − 0.215·β² − 0.785·β⁵),  β = D₂/D₁
//
// An infinite wider bore is a sharp-edged inlet from a vessel, K = 0.57 (older
// handbooks have 0.5). Source: D. C. Rennels and H. M. Hudson, Pipe Flow: A
// Practical and Comprehensive Guide (2012), chapter 10 (its chapters are cited
// from memory).
func SuddenContraction(wide, narrow units.Length) (Loss, error) {
	beta, err := boreRatio(narrow, wide)
	if err != nil {
		return Loss{}, err
	}
	return Loss{Constant: contraction(beta, 1, 1)}, nil
}

// GradualExpansion returns the loss of a conical reducer that opens by the whole
// included angle, above 0 to 180°, in pipe of the friction factor f, by the
// velocity in the narrow pipe before it. With β = D₁/D₂ and m = (1 − β²)²:
//
//	to 20°   K = 8.30·tan(angle/2)^1.75·m + F
//	to 60°   K = (1.366·√sin(2·(angle − 15°)) − 0.170 − B·√(0.025·(angle − 20°)))·m + F
//	beyond   K = (1.205 − B − C·√((angle − 60°)/120°))·m
//
// where F = f·(1 − β⁴)/(8·sin(angle/2)) is the cone's own friction, B is
// 3.28·(0.0625 − β⁴) and C is 12.8·β⁶ below β = 0.5, and B = 0, C = 0.2 from
// there up. The source's pieces do not quite meet: K jumps by 0.001·m at 20° and
// by 0.009·m − F at 60°.
//
// Source: Rennels and Hudson, as [SuddenContraction], chapter 11.
func GradualExpansion(narrow, wide units.Length, angle units.Angle, f float64) (Loss, error) {
	beta, err := boreRatio(narrow, wide)
	if err := errors.Join(err, checkCone(angle, f)); err != nil {
		return Loss{}, err
	}
	beta2 := float64(beta * beta)
	beta4 := float64(beta2 * beta2)
	sudden := float64((1 - beta2) * (1 - beta2))
	b, c := 0.0, 0.2
	if beta < 0.5 {
		b, c = 3.28*(0.0625-beta4), 12.8*beta4*beta2
	}
	degrees := angle.In(units.Degree)
	switch {
	case degrees <= 20:
		return Loss{Constant: float64(8.30*math.Pow(math.Tan(float64(angle)/2), 1.75)*sudden) + coneFriction(beta4, angle, f)}, nil
	case degrees <= 60:
		spread := float64(1.366*math.Sqrt(math.Sin(2*float64(angle-15*units.Degree)))) - 0.170
		return Loss{Constant: float64((spread-float64(b*math.Sqrt(0.025*(degrees-20))))*sudden) + coneFriction(beta4, angle, f)}, nil
	default:
		return Loss{Constant: (1.205 - b - float64(c*math.Sqrt((degrees-60)/120))) * sudden}, nil
	}
}

// GradualContraction returns the loss of a conical reducer that narrows by the
// whole included angle, above 0 to 180°, in pipe of the friction factor f, by
// the velocity in the narrow pipe behind it:
//
//	K = 0.0696·sin(angle/2)·(1 − β⁵)·λ² + (λ − 1)² + f·(1 − β⁴)/(8·sin(angle/2))
//	λ = 1 + 0.622·(angle/180°)^0.8·(1 − 0.215·β² − 0.785·β⁵),  β = D₂/D₁
//
// Source: Rennels and Hudson, as [SuddenContraction], chapter 10.
func GradualContraction(wide, narrow units.Length, angle units.Angle, f float64) (Loss, error) {
	beta, err := boreRatio(narrow, wide)
	if err := errors.Join(err, checkCone(angle, f)); err != nil {
		return Loss{}, err
	}
	share := math.Pow(float64(angle)/math.Pi, 0.8)
	k := contraction(beta, share, math.Sin(float64(angle)/2))
	return Loss{Constant: k + coneFriction(float64(beta*beta)*float64(beta*beta), angle, f)}, nil
}

// contraction is the loss of a contraction without friction, for the share of
// the jet's narrowing that the cone leaves.
func contraction(beta, share, sine float64) float64 {
	beta2 := beta * beta
	beta5 := beta2 * beta2 * beta
	jet := 0.622 * share * (1 - float64(0.215*beta2) - float64(0.785*beta5))
	return float64(0.0696*sine*(1-beta5)*(1+jet)*(1+jet)) + float64(jet*jet)
}

func coneFriction(beta4 float64, angle units.Angle, f float64) float64 {
	return f * (1 - beta4) / (8 * math.Sin(float64(angle)/2))
}

func checkCone(angle units.Angle, f float64) error {
	l := check.List{Package: "pipe"}
	l.Require(angle > 0 && angle <= 180*units.Degree, "angle", angle, "above 0 and at most 180 °")
	check.NotNegative(&l, "friction factor", f)
	return l.Err()
}

func boreRatio(narrow, wide units.Length) (float64, error) {
	l := check.List{Package: "pipe"}
	check.Positive(&l, "narrow bore", narrow)
	l.Require(wide >= narrow, "wide bore", wide, "a bore no less than the narrow one")
	if err := l.Err(); err != nil {
		return 0, err
	}
	return float64(narrow / wide), nil
}
