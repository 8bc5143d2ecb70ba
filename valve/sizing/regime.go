package sizing

import "github.com/indexrun/indexrun/internal/words"

// A Regime is the kind of flow through a valve by its Reynolds number
// (IEC 60534-2-1:2011, Annex A).
type Regime uint8

// The regimes.
const (
	Turbulent    Regime = iota // Rev ≥ 10 000
	Transitional               // 10 ≤ Rev < 10 000
	Laminar                    // Rev < 10
)

var regimeWords = words.List{Package: "sizing", Field: "Regime", Words: []string{
	Turbulent: "turbulent", Transitional: "transitional", Laminar: "laminar",
}}

func regimeOf(rev float64) Regime {
	switch {
	case rev < laminarBelow:
		return Laminar
	case rev < turbulentFrom:
		return Transitional
	}
	return Turbulent
}

// String returns the regime in words.
func (r Regime) String() string { return regimeWords.Text(uint8(r)) }

// MarshalText is [Regime.String] for regimes that exist.
func (r Regime) MarshalText() ([]byte, error) { return regimeWords.Marshal(uint8(r)) }

// UnmarshalText reads what MarshalText writes.
func (r *Regime) UnmarshalText(text []byte) error { return words.Into(&regimeWords, text, r) }
