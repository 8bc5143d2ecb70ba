package schedule

import (
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// SoundLevel is an A-weighted sound pressure level in dB with reference to 20 µPa,
// written "45 dB(A)".
type SoundLevel float64

// DefaultNoiseLimit is the level 1 m from the pipe that a valve may make where the
// schedule gives none: 45 dB(A), which a ceiling brings down to what offices bear
// (common practice, no published source).
const DefaultNoiseLimit SoundLevel = 45

const soundUnit = "dB(A)"

// String returns the level to a whole decibel.
func (l SoundLevel) String() string {
	return strconv.FormatFloat(float64(l), 'f', 0, 64) + " " + soundUnit
}

// MarshalText returns the level without loss.
func (l SoundLevel) MarshalText() ([]byte, error) {
	return []byte(strconv.FormatFloat(float64(l), 'g', -1, 64) + " " + soundUnit), nil
}

// UnmarshalText reads a number and the unit dB(A).
func (l *SoundLevel) UnmarshalText(text []byte) error {
	number, found := strings.CutSuffix(strings.TrimSpace(string(text)), soundUnit)
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !found || err != nil {
		return &units.FieldError{Package: packageName, Field: "sound level", Value: strconv.Quote(string(text)), Want: `a level such as "45 dB(A)"`}
	}
	*l = SoundLevel(x)
	return nil
}
