package valve

import (
	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// Setting is one row of the settings table of a pressure-independent valve. Between
// two rows the mark is linear in the flow, and the least pressure linear in the
// square of the flow, as p_c + (q/Kv_r)² is.
type Setting struct {
	Mark        float64        // what the dial shows
	Flow        units.Flow     // regulated flow at full travel, with water of ReferenceDensity
	MinPressure units.Pressure // least pressure difference at that flow
}

// SettingKind says what a setting does to the valve.
type SettingKind uint8

const (
	// AreaLimiting settings narrow the orifice: the whole stroke stays usable
	// and the characteristic keeps its shape at every setting.
	AreaLimiting SettingKind = iota
	// LiftLimiting settings stop the stem at a part of the stroke, where the
	// curve reaches the flow of the setting. A self-adapting actuator then
	// works on the foot of the curve alone: equal percentage of ratio R becomes
	// that of ratio R^h, h the greatest usable travel, and linear stays linear.
	LiftLimiting
)

var settingWords = words.List{Package: packageName, Field: "SettingKind", Words: []string{"area-limiting", "lift-limiting"}}

// String returns the word of k, such as "area-limiting".
func (k SettingKind) String() string { return settingWords.Text(uint8(k)) }

// MarshalText returns the word of k.
func (k SettingKind) MarshalText() ([]byte, error) {
	return settingWords.Marshal(uint8(k))
}

// UnmarshalText reads the word of a kind.
func (k *SettingKind) UnmarshalText(text []byte) error {
	return words.Into(&settingWords, text, k)
}
