package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// A CavitationState says how far the pressure in a valve falls.
type CavitationState uint8

// The states, each worse than the one before.
const (
	NotCavitating CavitationState = iota // xF below xFz
	Cavitating                           // xF at or above xFz: bubbles form and collapse
	Choking                              // and the flow is choked
	Flashing                             // and the outlet is at or below the vapour pressure: bubbles stay
)

var cavitationWords = words.List{Package: "sizing", Field: "CavitationState", Words: []string{
	NotCavitating: "not-cavitating", Cavitating: "cavitating", Choking: "choking", Flashing: "flashing",
}}

// String returns the state in words.
func (s CavitationState) String() string { return cavitationWords.Text(uint8(s)) }

// MarshalText is [CavitationState.String] for states that exist.
func (s CavitationState) MarshalText() ([]byte, error) { return cavitationWords.Marshal(uint8(s)) }

// UnmarshalText reads what MarshalText writes.
func (s *CavitationState) UnmarshalText(text []byte) error {
	return words.Into(&cavitationWords, text, s)
}

// Cavitation compares the pressures at a valve with those at which it cavitates.
// Two conventions are in use, one the inverse of the other: xF rises towards
// cavitation, σ falls.
type Cavitation struct {
	// XF is Δp/(p1 − pv), the pressure ratio of IEC 60534-8-2 and 60534-8-4.
	XF float64
	// Sigma is σ = (p1 − pv)/Δp, the cavitation index of ISA-RP75.23 (from
	// memory).
	Sigma float64
	// XFz is the xF at which cavitation begins at an inlet of 6 bar: the valve's, or
	// the estimate of [EstimateXFz].
	XFz float64
	// XFzInlet is the same at the actual inlet pressure, XFz·(6 bar/p1)^0.125
	// (IEC 60534-8-4).
	XFzInlet float64
	// Margin is OnsetPressureDrop/Δp: above 1 there is no cavitation.
	Margin float64
	// OnsetPressureDrop is the Δp at which cavitation begins, XFzInlet·(p1 − pv), but
	// no more than ChokedPressureDrop: a valve that chokes cavitates.
	OnsetPressureDrop units.Pressure
	// ChokedPressureDrop is as in [Result].
	ChokedPressureDrop units.Pressure
	// State is the verdict.
	State CavitationState
}

// CavitationAt returns the cavitation of a valve with that Kv, at the pressures of
// the case. It refuses a case or a Kv that is not valid, and a multi-hole trim with
// neither XFz nor HoleDiameter.
//
// xF, xFz and its dependence on the inlet pressure: IEC 60534-8-4:2015; choking: IEC
// 60534-2-1:2011, 6.2, equation (3) (from memory).
func CavitationAt(kv units.FlowCoefficient, c Case) (Cavitation, error) {
	if !c.valid() || !positive(kv) {
		return Cavitation{}, fault(&c, "Kv", kv)
	}
	var l law
	l.prepare(&c)
	through, inlet := l.heads(kv.In(units.Kv))
	if !(through > 0) {
		return Cavitation{}, l.tooWide(kv)
	}
	if c.Valve.XFz == 0 && c.Valve.Holes > 0 && c.Valve.HoleDiameter == 0 {
		return Cavitation{}, holesUnknown(&c.Valve)
	}
	above, drop := c.Inlet.Sub(c.Liquid.VapourPressure), c.Inlet.Sub(c.Outlet)
	cav := Cavitation{
		XF:                 float64(drop / above),
		Sigma:              float64(above / drop),
		XFz:                c.Valve.XFz,
		ChokedPressureDrop: units.Pressure(l.fl*l.fl/inlet*through) * l.room,
	}
	if cav.XFz == 0 {
		cav.XFz = EstimateXFz(kv, c.Valve)
	}
	cav.XFzInlet = cav.XFz * math.Sqrt(math.Sqrt(math.Sqrt(6/c.Inlet.AboveVacuum().In(units.Bar))))
	cav.OnsetPressureDrop = min(units.Pressure(cav.XFzInlet)*above, cav.ChokedPressureDrop)
	cav.Margin = float64(cav.OnsetPressureDrop / drop)
	cav.State = cav.state(c.Outlet.Compare(c.Liquid.VapourPressure) <= 0, drop)
	return cav, nil
}

func (c *Cavitation) state(flashing bool, drop units.Pressure) CavitationState {
	switch {
	case flashing:
		return Flashing
	case drop >= c.ChokedPressureDrop:
		return Choking
	case c.XF >= c.XFzInlet:
		return Cavitating
	}
	return NotCavitating
}

// MaxPressureDrop returns the greatest Δp, at the same inlet, that keeps a Margin:
// OnsetPressureDrop/margin, but no more than the choked drop. A margin of 1 is the onset, one of 1.25 leaves a fifth of it to spare. A margin that is
// not above zero gives NaN.
func (c Cavitation) MaxPressureDrop(margin float64) units.Pressure {
	if !(margin > 0) {
		return units.Pressure(math.NaN())
	}
	return min(c.OnsetPressureDrop/units.Pressure(margin), c.ChokedPressureDrop)
}

// EstimateXFz returns the xF at which cavitation begins at 6 bar inlet where no
// measured value is known. By IEC 60534-8-4:2015, for a trim without holes
//
//	xFz = 0.90/√(1 + 3·Fd·√(C/(N34·FL)))
//
// with C in Cv and N34 = 1.17, where kv is that at the travel in question; and for a
// multi-hole trim, of whatever Kv,
//
//	xFz = 1/√(4.5 + 1650·N0·dH²/FL)
//
// with N0 [Valve.Holes] and dH [Valve.HoleDiameter] in metres (the second is quoted
// from the documentation of python3-fluids, which does not work it out). It is NaN for
// holes of no diameter. The standard calls both estimates and prefers a measured value.
func EstimateXFz(kv units.FlowCoefficient, v Valve) float64 {
	if v.Holes > 0 {
		return multiHoleXFz(v)
	}
	return 0.90 / math.Sqrt(1+float64(3*v.Fd*math.Sqrt(kv.In(units.Cv)/(n34*v.FL))))
}

func multiHoleXFz(v Valve) float64 {
	if !(v.HoleDiameter > 0) {
		return math.NaN()
	}
	dH := v.HoleDiameter.In(units.Metre)
	return 1 / math.Sqrt(4.5+float64(1650*float64(v.Holes)*dH*dH/v.FL))
}

// n34 is a constant of IEC 60534-8-4 for C in Cv.
const n34 = 1.17
