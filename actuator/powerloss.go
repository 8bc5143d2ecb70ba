package actuator

import "github.com/indexrun/indexrun/internal/words"

// PowerLoss is what the stem does when the supply fails.
type PowerLoss uint8

// The behaviours on loss of power. A spring-return drive is named after the end
// that its spring runs to, in Config.SpringTime; what that does to the flow depends
// on the valve.
const (
	Hold           PowerLoss = iota // a self-locking gear stays where it is; the zero value
	SpringExtends                   // a spring in the actuator pushes the stem out
	SpringRetracts                  // a spring in the actuator draws the stem in
)

var powerLossWords = words.List{Package: packageName, Field: "PowerLoss", Words: []string{Hold: "hold", SpringExtends: "spring-extends", SpringRetracts: "spring-retracts"}}

// String returns the word, such as "hold".
func (p PowerLoss) String() string { return powerLossWords.Text(uint8(p)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (p PowerLoss) MarshalText() ([]byte, error) {
	return powerLossWords.Marshal(uint8(p))
}

// UnmarshalText reads the word.
func (p *PowerLoss) UnmarshalText(text []byte) error { return words.Into(&powerLossWords, text, p) }
