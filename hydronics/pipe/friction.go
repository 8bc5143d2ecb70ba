package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

// The critical zone: laminar flow up to its start, turbulent from its end.
const (
	laminarEnd     = 2000
	turbulentStart = 4000
	criticalWidth  = turbulentStart - laminarEnd

	// laminarNumber is f·Re of laminar flow in a round pipe.
	laminarNumber = 64
)

// MaxRelativeRoughness is the greatest ε/D accepted, the end of Moody's chart;
// beyond it the bore itself is in doubt.
const MaxRelativeRoughness = 0.05

// The range of Reynolds numbers of the laws, far beyond any flow: within it neither
// 64/Re nor what Colebrook's formula is solved by leaves the range of float64.
const (
	MinReynolds = 1e-150
	MaxReynolds = 1e150
)

// FrictionFactor returns the Darcy friction factor f in any regime; re is the
// Reynolds number, [MinReynolds] … [MaxReynolds], relativeRoughness is ε/D,
// 0 … 0.05.
//
//	Re ≤ 2000         f = 64/Re (Hagen–Poiseuille)
//	2000 < Re < 4000  blended
//	Re ≥ 4000         Colebrook–White, see [Colebrook]
//
// In between lies the critical zone of Moody's chart, where a measured factor
// may be anything from one law to the other. There f·Re² follows the cubic in
// Re that meets both laws in value and in slope. The pressure loss, which is
// proportional to f·Re², is so continuous and strictly rising with a continuous
// slope: what a network solver needs, not a statement about the flow. (At the
// joints the slopes are 0.25 … 0.12 and 1.05 … 1.1 times that of the chord,
// well within the limits of Fritsch and Carlson, SIAM Journal on Numerical
// Analysis 17 (1980), 238–246, for a monotone cubic.) f itself goes on falling
// for a little before it rises to the turbulent value.
//
// Sources: L. F. Moody, "Friction factors for pipe flow", Transactions of the
// ASME 66 (1944), 671–684, for the laws, the zone and the chart's range; F. M.
// White, Fluid Mechanics, equation 6.13 for 64/Re (number from memory). The blend is
// this package's choice.
func FrictionFactor(re, relativeRoughness float64) (float64, error) {
	if err := checkFriction(re, relativeRoughness, MinReynolds, "a Reynolds number of 1e-150 … 1e150"); err != nil {
		return 0, err
	}
	law := newFriction(relativeRoughness)
	return law.factor(re), nil
}

func checkFriction(re, relativeRoughness, leastRe float64, want string) error {
	if re >= leastRe && re <= MaxReynolds && relativeRoughness >= 0 && relativeRoughness <= MaxRelativeRoughness {
		return nil
	}
	l := check.List{Package: "pipe"}
	l.Require(re >= leastRe && re <= MaxReynolds, "Re", re, want)
	check.Within(&l, "relative roughness", relativeRoughness, 0, MaxRelativeRoughness)
	return l.Err()
}

// friction is the law φ(Re) = f·Re² for one relative roughness. The friction
// loss of a pipe is φ·(L/D)·ρν²/(2D²).
type friction struct {
	a      float64 // (ε/D)/3.7
	c2, c3 float64 // of the blend, φ = φ₀ + 64·u + c2·u² + c3·u³ with u = Re − 2000
}

func newFriction(relativeRoughness float64) friction {
	const start, startSlope = laminarNumber * laminarEnd, laminarNumber
	f := friction{a: relativeRoughness / colebrookRough}
	end, endSlope := f.turbulent(turbulentStart)
	chord := (end - start) / criticalWidth
	f.c2 = (3*chord - 2*startSlope - endSlope) / criticalWidth
	f.c3 = (startSlope + endSlope - 2*chord) / (criticalWidth * criticalWidth)
	return f
}

// at returns φ and dφ/dRe, infinity beyond MaxReynolds.
func (f *friction) at(re float64) (phi, slope float64) {
	if re <= laminarEnd {
		return laminarNumber * re, laminarNumber
	}
	if re < turbulentStart {
		return f.blend(re)
	}
	if re > MaxReynolds {
		return math.Inf(1), math.Inf(1)
	}
	return f.turbulent(re)
}

func (f *friction) blend(re float64) (phi, slope float64) {
	u := re - laminarEnd
	phi = laminarNumber*laminarEnd + float64(u*(laminarNumber+float64(u*(f.c2+float64(u*f.c3)))))
	slope = laminarNumber + float64(u*(2*f.c2+float64(3*f.c3*u)))
	return phi, slope
}

func (f *friction) turbulent(re float64) (phi, slope float64) {
	factor, u := turbulent(re, f.a)
	rising := factor * re
	return rising * re, 2 * rising / (1 + u)
}

// factor returns the Darcy friction factor.
func (f *friction) factor(re float64) float64 {
	if re <= laminarEnd {
		return laminarNumber / re
	}
	re = min(re, MaxReynolds)
	phi, _ := f.at(re)
	return phi / re / re
}
