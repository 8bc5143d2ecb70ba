package schedule

import (
	"math"

	"github.com/indexrun/indexrun/internal/words"
)

// A Gap is something that was not looked into, for want of a figure in the schedule
// or the catalogue. It is no fault of the unit, but nobody must think that it was
// checked.
type Gap uint8

// The gaps.
const (
	NoStaticPressure Gap = iota // of the row: boiling, cavitation and noise
	NoConnection                // of the valve: velocity, viscosity, cavitation and noise
	NoForces                    // of valve or actuator, or torques: close-off
	NoShutOffHead               // of the row: the greatest pressure to close against
	NoLimits                    // of the valve: rating, temperatures, greatest pressure
	NoBranch                    // of the row: authority
	lastGap          = NoBranch
)

var gapWords = words.List{Package: packageName, Field: "gap", Words: []string{
	"no-static-pressure", "no-connection", "no-forces", "no-shut-off-head", "no-limits", "no-branch"}}

// gapTexts say what was not looked into, and why.
var gapTexts = [...]string{
	NoStaticPressure: "boiling, cavitation and noise, since no static pressure was given",
	NoConnection:     "velocity, viscosity, cavitation and noise, since the catalogue has no bore of the valve's connection",
	NoForces:         "what the actuator closes against, since the catalogue does not have all forces and the seat area",
	NoShutOffHead:    "the greatest pressure over the closed valve, for which that of the design stands, since no shut-off head was given",
	NoLimits:         "the valve's limits as far as the catalogue does not have them: rating, greatest pressure, coldest and hottest liquid",
	NoBranch:         "authority, since only the pressure over the valve was given",
}

// String returns the word, such as "no-static-pressure".
func (g Gap) String() string { return gapWords.Text(uint8(g)) }

// MarshalText returns the word.
func (g Gap) MarshalText() ([]byte, error) { return gapWords.Marshal(uint8(g)) }

// UnmarshalText reads the word.
func (g *Gap) UnmarshalText(text []byte) error { return words.Into(&gapWords, text, g) }

// What says in words what was not looked into, and why.
func (g Gap) What() string { return gapTexts[min(g, lastGap)] }

// Gaps returns what was not looked into for the unit.
func (u *Unit) Gaps() []Gap {
	var list []Gap
	add := func(g Gap, missing bool) {
		if missing {
			list = append(list, g)
		}
	}
	m := u.Valve.Model
	add(NoStaticPressure, u.Row.StaticPressure.IsZero())
	add(NoConnection, m != nil && m.Connection == 0)
	add(NoForces, u.forcesUnknown())
	add(NoShutOffHead, u.Row.ShutOffHead == 0)
	add(NoLimits, m != nil && (m.Rating == 0 || m.MaxPressure == 0 || m.Coldest.IsZero() || m.Hottest.IsZero()))
	add(NoBranch, m != nil && !m.Kind.independent() && u.Row.Available == 0)
	return list
}

// forcesUnknown reports that close-off could not be told. Of rotary valves torques are
// compared, which gives no pressure.
func (u *Unit) forcesUnknown() bool {
	v, a := u.Valve.Model, u.Actuator.Model
	if a == nil || !math.IsInf(float64(u.Actuator.CloseOff), 0) {
		return false
	}
	return !u.rotary() || v.Torque == 0 || a.Torque == 0
}
