package valve

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

// LeastAuthority is the smallest authority for which the two directions of an
// installed characteristic undo each other to 1e-12: rounding in the flow,
// 1e-16, comes back divided by the authority.
const LeastAuthority = 0.001

// InstalledFlow returns the relative flow q/q100 of a valve with the relative
// coefficient phi in a branch under constant total pressure:
//
//	q/q100 = 1/√(1 − N + N/φ²) = φ/√(φ²·(1−N) + N)
//
// where the authority N is the pressure difference of the open valve over that
// of the shut one (VDI/VDE 2173). N = 1 gives φ itself. phi clamps to 0 … 1; an
// authority outside LeastAuthority … 1 gives NaN.
func InstalledFlow(phi, authority float64) float64 {
	switch {
	case !(authority >= LeastAuthority && authority <= 1):
		return math.NaN()
	case phi >= 1:
		return 1
	case phi <= 0:
		return 0
	}
	return phi / math.Sqrt(float64(phi*phi*(1-authority))+authority)
}

// InstalledCoefficient returns the relative coefficient φ that passes a
// relative flow r = q/q100, the inverse of [InstalledFlow]:
//
//	φ = r·√(N/(1 − r²·(1−N)))
func InstalledCoefficient(flow, authority float64) float64 {
	switch {
	case !(authority >= LeastAuthority && authority <= 1):
		return math.NaN()
	case flow >= 1:
		return 1
	case flow <= 0:
		return 0
	}
	// 1 − r²(1−N), without its cancellation near r = 1.
	rest := authority + float64((1-flow)*(1+flow)*(1-authority))
	return flow * math.Sqrt(authority/rest)
}

// Installed is the installed characteristic of a two-way valve: relative travel
// → relative flow q/q100, both 0 … 1, in a branch under constant total
// pressure.
type Installed struct {
	valve     TwoWay
	authority float64
}

// Installed returns the installed characteristic of the valve at an authority
// of LeastAuthority … 1; take [Authority.Open], since it counts from the fully
// open flow.
func (v TwoWay) Installed(authority float64) (Installed, error) {
	l := check.List{Package: packageName}
	check.Within(&l, "Authority", authority, LeastAuthority, 1)
	if err := l.Err(); err != nil {
		return Installed{}, err
	}
	return Installed{v, authority}, nil
}

// At returns q/q100 at relative travel h.
func (i Installed) At(h float64) float64 {
	return InstalledFlow(i.valve.RelativeCoefficient(h), i.authority)
}

// Inverse returns the relative travel of a relative flow; 0 for the leakage and
// less.
func (i Installed) Inverse(flow float64) float64 {
	return i.valve.TravelFor(InstalledCoefficient(flow, i.authority))
}

// Turndown returns the greatest flow over the least that is still controlled as
// installed, at the end of the closing region: about the inherent rangeability
// times √N.
func (i Installed) Turndown() float64 { return 1 / i.At(i.valve.ClosingTravel()) }
