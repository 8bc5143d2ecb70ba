package hydronics

import (
	"math"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// resistanceUnit is what the text of a [Resistance] ends in.
const resistanceUnit = "Pa/(m³/s)²"

// String returns the resistance with four digits and its unit, Pa/(m³/s)².
func (r Resistance) String() string {
	return strconv.FormatFloat(float64(r), 'g', 4, 64) + " " + resistanceUnit
}

// MarshalText returns the resistance without loss, such as
// "1.6666666666666667e+12 Pa/(m³/s)²". NaN and infinities are errors.
func (r Resistance) MarshalText() ([]byte, error) {
	if math.IsNaN(float64(r)) || math.IsInf(float64(r), 0) {
		return nil, resistanceFault(r.String(), "a finite number")
	}
	return []byte(strconv.FormatFloat(float64(r), 'g', -1, 64) + " " + resistanceUnit), nil
}

// UnmarshalText reads what MarshalText writes; the unit is required.
func (r *Resistance) UnmarshalText(text []byte) error {
	number, found := strings.CutSuffix(strings.TrimSpace(string(text)), resistanceUnit)
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !found || err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return resistanceFault(strconv.Quote(string(text)), "a finite number and its unit, such as \"1.5e12 "+resistanceUnit+"\"")
	}
	*r = Resistance(x)
	return nil
}

func resistanceFault(value, want string) error {
	return &units.FieldError{Package: packageName, Field: "Resistance", Value: value, Want: want}
}
