package wiring

import "github.com/indexrun/indexrun/internal/words"

// LoadModel says how the current of a load follows its voltage. At the nominal
// voltage all models draw the same: apparent power over nominal voltage.
type LoadModel uint8

// The models, for an apparent power S, a voltage U and the nominal voltage Un.
const (
	// ConstantPower draws S/U, more as the voltage falls, as the switching supplies of
	// electronic drives do; the zero value and the safe assumption.
	ConstantPower LoadModel = iota
	// ConstantCurrent draws S/Un at any voltage, as series regulators do.
	ConstantCurrent
	// ConstantResistance draws S·U/Un², as the heaters of thermal actuators do.
	ConstantResistance
)

var loadModelWords = words.List{Package: packageName, Field: "load model", Words: []string{
	ConstantPower: "constant-power", ConstantCurrent: "constant-current", ConstantResistance: "constant-resistance",
}}

// String returns the word, such as "constant-power".
func (m LoadModel) String() string { return loadModelWords.Text(uint8(m)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (m LoadModel) MarshalText() ([]byte, error) { return loadModelWords.Marshal(uint8(m)) }

// UnmarshalText reads the word.
func (m *LoadModel) UnmarshalText(text []byte) error { return words.Into(&loadModelWords, text, m) }
