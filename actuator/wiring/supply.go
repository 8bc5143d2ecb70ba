package wiring

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// Supply describes what feeds the cable: a transformer or a direct-current supply.
type Supply struct {
	// Kind says whether the supply alternates; the zero value does.
	Kind SupplyKind
	// Voltage is the voltage at the supply's terminals without load, effective (RMS)
	// if it alternates. A transformer without load is above its rated voltage.
	Voltage units.Voltage
	// Resistance is the internal resistance of the supply; 0 = stiff. For a transformer
	// it is nearly (no-load − rated voltage)/rated current.
	Resistance units.Resistance `json:",omitzero"`
}

func (s Supply) check(l *check.List) {
	check.Enum(l, "Supply.Kind", s.Kind, Direct)
	checkVoltage(l, "Supply.Voltage", s.Voltage)
	checkResistance(l, "Supply.Resistance", s.Resistance)
}

// SupplyKind says whether a supply alternates.
type SupplyKind uint8

// The kinds of supply.
const (
	Alternating SupplyKind = iota // a transformer; the zero value
	Direct                        // a rectified supply
)

var supplyKindWords = words.List{Package: packageName, Field: "supply kind", Words: []string{
	Alternating: "alternating", Direct: "direct",
}}

// String returns the word, such as "alternating".
func (k SupplyKind) String() string { return supplyKindWords.Text(uint8(k)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (k SupplyKind) MarshalText() ([]byte, error) { return supplyKindWords.Marshal(uint8(k)) }

// UnmarshalText reads the word.
func (k *SupplyKind) UnmarshalText(text []byte) error { return words.Into(&supplyKindWords, text, k) }
