package actuator

import "github.com/indexrun/indexrun/internal/words"

// State is what a drive is busy with.
type State uint8

// The states.
const (
	// Unpowered: no supply. The stem holds, or a spring moves it.
	Unpowered State = iota
	// Calibrating: the drive seeks the valve's end stops and ignores the signal.
	Calibrating
	// Tracking: the drive knows where the stops are and follows the signal.
	Tracking
	// EndStopNotFound: the stem met nothing, ran out to its full extension and
	// stays there, whatever the signal. The cause is nearly always that the
	// drive was powered before it was mounted on its valve.
	EndStopNotFound
)

var stateWords = words.List{Package: packageName, Field: "State", Words: []string{Unpowered: "unpowered", Calibrating: "calibrating", Tracking: "tracking",
	EndStopNotFound: "end-stop-not-found"}}

// String returns the word, such as "calibrating".
func (s State) String() string { return stateWords.Text(uint8(s)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (s State) MarshalText() ([]byte, error) { return stateWords.Marshal(uint8(s)) }

// UnmarshalText reads the word.
func (s *State) UnmarshalText(text []byte) error { return words.Into(&stateWords, text, s) }
