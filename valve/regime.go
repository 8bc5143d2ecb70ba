package valve

import "github.com/indexrun/indexrun/internal/words"

// Regime says what the regulator of a pressure-independent valve is doing.
type Regime uint8

const (
	// UnknownRegime is that of a pressure or travel that is not a number.
	UnknownRegime Regime = iota
	// Regulated: the regulator holds the control pressure.
	Regulated
	// Starved: the pressure is below the least one for this travel; the
	// regulator is wide open and less flow passes than is set.
	Starved
	// AboveLimit: the pressure is above the greatest one the valve is rated
	// for; the flow law is continued, but the valve may be noisy or fail to
	// close.
	AboveLimit
	// Reversed: the flow runs backwards through the wide-open regulator.
	Reversed
)

var regimeWords = words.List{Package: packageName, Field: "Regime", Words: []string{"unknown", "regulated", "starved", "above-limit", "reversed"}}

// String returns the word of r, such as "regulated".
func (r Regime) String() string { return regimeWords.Text(uint8(r)) }

// MarshalText returns the word of r.
func (r Regime) MarshalText() ([]byte, error) { return regimeWords.Marshal(uint8(r)) }

// UnmarshalText reads the word of a regime.
func (r *Regime) UnmarshalText(text []byte) error {
	return words.Into(&regimeWords, text, r)
}
