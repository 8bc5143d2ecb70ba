package actuator

import "github.com/indexrun/indexrun/internal/words"

// StrokeMode says how the actuator spreads its signal over the travel.
type StrokeMode uint8

// The stroke modes.
const (
	// Fixed spreads the signal over the stroke that is set, counted from the
	// closed end stop found at calibration, whatever the valve's stroke is. It
	// is the zero value.
	Fixed StrokeMode = iota
	// SelfAdapting spreads the signal over the travel found between both end
	// stops at calibration. It hides a mismatch and a blocked plug alike, so
	// compare the found travel with the valve's stroke.
	SelfAdapting
)

var strokeModeWords = words.List{Package: packageName, Field: "StrokeMode", Words: []string{Fixed: "fixed", SelfAdapting: "self-adapting"}}

// String returns the word, such as "fixed".
func (s StrokeMode) String() string { return strokeModeWords.Text(uint8(s)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (s StrokeMode) MarshalText() ([]byte, error) {
	return strokeModeWords.Marshal(uint8(s))
}

// UnmarshalText reads the word.
func (s *StrokeMode) UnmarshalText(text []byte) error { return words.Into(&strokeModeWords, text, s) }
