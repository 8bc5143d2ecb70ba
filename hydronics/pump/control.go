package pump

import (
	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// Mode is what the speed of a pump is controlled by. It marshals as text, such
// as "proportional-pressure".
type Mode uint8

// The modes.
const (
	// FixedSpeed runs at the greatest speed.
	FixedSpeed Mode = iota

	// ConstantPressure holds the head at SetPoint.
	ConstantPressure

	// ProportionalPressure holds the head on a line that falls with the flow,
	// from SetPoint at DesignFlow to ZeroFlowShare of it at zero flow.
	ProportionalPressure

	// IndexUnit holds the pressure difference at a remote unit, the index unit,
	// at SetPoint: the head is that plus what the Run to the unit and back loses.
	IndexUnit
)

var modeWords = words.List{Package: "pump", Field: "Mode",
	Words: []string{"fixed-speed", "constant-pressure", "proportional-pressure", "index-unit"}}

// String returns the word, such as "proportional-pressure".
func (m Mode) String() string { return modeWords.Text(uint8(m)) }

// MarshalText returns the word; a value that is no mode is an error.
func (m Mode) MarshalText() ([]byte, error) { return modeWords.Marshal(uint8(m)) }

// UnmarshalText reads the word.
func (m *Mode) UnmarshalText(text []byte) error { return words.Into(&modeWords, text, m) }

// ControlConfig describes the control of a pump's speed. The modes are common
// practice, no published source; the speed that each head takes follows from the
// affinity laws ([Pump.AtSpeed]).
type ControlConfig struct {
	Mode Mode

	// SetPoint is the pressure difference to be held, above zero and below the
	// shut-off head at MaxSpeed, which no speed exceeds; not used at fixed speed.
	SetPoint units.Pressure

	// DesignFlow and ZeroFlowShare give the line of ProportionalPressure: the
	// flow at which SetPoint holds, and the share of it, 0 … 1, at zero flow;
	// half is common.
	DesignFlow    units.Flow
	ZeroFlowShare float64

	// Run is, for IndexUnit, a pump flow above zero and what the run from the
	// pump to the unit and back loses then, above zero. The loss goes with the
	// square of the pump's flow, which is exact as long as the branches on the
	// way keep their shares of it; a network tells the rest.
	Run Point

	// MinSpeed and MaxSpeed bound the speed, as ratios to the speed that the
	// pumps are given with. MaxSpeed is at most 2, zero means 1. MinSpeed is at
	// most MaxSpeed, zero sets no bound (a thousandth of full speed).
	MinSpeed, MaxSpeed float64
}
