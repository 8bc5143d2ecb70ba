package pump

import (
	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// A State is how a pump or a set of pumps works.
type State struct {
	Flow       units.Flow
	Head       units.Pressure
	Speed      float64     // ratio to full speed
	Efficiency float64     // shaft to water
	Shaft      units.Power // at the shaft or shafts
	Electric   units.Power // from the supply
	Status     Status

	// Extrapolated says that a pump has more flow than its published curve covers, whatever
	// Status says beside it: at full speed as well.
	Extrapolated bool
}

// Hydraulic returns the power given to the water, H·q.
func (s State) Hydraulic() units.Power { return s.Head.Power(s.Flow) }

// Status says what is to be noted about a [State]. It marshals as text, such as
// "beyond-curve".
type Status uint8

// The statuses. Where several hold, the last in this list is given; that the curve
// is left is told by [State].Extrapolated too.
const (
	Normal      Status = iota // nothing to note
	BeyondCurve               // more flow than the published curve covers
	FullSpeed                 // the set point is not reached at the greatest speed
	LeastSpeed                // the set point is exceeded at the least speed
	NoFlow                    // the system's static pressure holds the check valve shut
)

var statusWords = words.List{Package: "pump", Field: "Status",
	Words: []string{"normal", "beyond-curve", "full-speed", "least-speed", "no-flow"}}

// String returns the word, such as "beyond-curve".
func (s Status) String() string { return statusWords.Text(uint8(s)) }

// MarshalText returns the word; a value that is no status is an error.
func (s Status) MarshalText() ([]byte, error) { return statusWords.Marshal(uint8(s)) }

// UnmarshalText reads the word.
func (s *Status) UnmarshalText(text []byte) error { return words.Into(&statusWords, text, s) }
