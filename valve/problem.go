package valve

import "github.com/indexrun/indexrun/internal/words"

// Problem is why a candidate does not suit a duty, the worst one if there are
// several; greater is worse.
type Problem uint8

// The problems, from bearable to hopeless.
const (
	// NoProblem: the valve suits.
	NoProblem Problem = iota
	// AuthorityTooLow: less than the wanted authority, by the design or by the
	// open flow.
	AuthorityTooLow
	// PressureTooLow: the valve needs more pressure at the design flow than
	// there is.
	PressureTooLow
	// RatingExceeded: the shut valve would have to hold more than it is rated
	// for.
	RatingExceeded
	// FlowBelowSettings: even the lowest setting passes more than the design
	// flow.
	FlowBelowSettings
	// FlowAboveSettings: even the highest setting passes less than the design
	// flow.
	FlowAboveSettings
)

var problemWords = words.List{Package: packageName, Field: "Problem", Words: []string{"none", "authority-too-low", "pressure-too-low", "rating-exceeded", "flow-below-settings", "flow-above-settings"}}

// String returns the word of p, such as "pressure-too-low".
func (p Problem) String() string { return problemWords.Text(uint8(p)) }

// MarshalText returns the word of p.
func (p Problem) MarshalText() ([]byte, error) { return problemWords.Marshal(uint8(p)) }

// UnmarshalText reads the word of a problem.
func (p *Problem) UnmarshalText(text []byte) error {
	return words.Into(&problemWords, text, p)
}
