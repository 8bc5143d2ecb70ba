package wiring

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// ApparentPower is the product of effective voltage and effective current; it holds
// volt-amperes. Cables and transformers are sized by it, not by the watts. On a direct
// supply the two are the same number.
type ApparentPower float64

// Units of ApparentPower.
const (
	VoltAmpere     ApparentPower = 1
	KilovoltAmpere ApparentPower = 1e3
)

// In returns s as a number of the given unit.
func (s ApparentPower) In(unit ApparentPower) float64 { return float64(s / unit) }

var apparentPowerForm = regexp.MustCompile(`^([+-]?` + decimal + `)\s*(k?VA)$`)

const decimal = `(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?`

// ParseApparentPower reads text such as "5 VA" or "0.16 kVA".
func ParseApparentPower(text string) (ApparentPower, error) {
	match := apparentPowerForm.FindStringSubmatch(strings.TrimSpace(text))
	if match == nil {
		return 0, textFault("apparent power", text, `a number with a decimal point and VA or kVA, such as "5 VA"`)
	}
	unit := VoltAmpere
	if match[2] == "kVA" {
		unit = KilovoltAmpere
	}
	x, err := strconv.ParseFloat(match[1], 64)
	s := ApparentPower(x) * unit
	if err != nil || math.IsInf(float64(s), 0) {
		return 0, textFault("apparent power", text, "a number within the range of float64")
	}
	return s, nil
}

// String returns s in VA or kVA, rounded to four digits.
func (s ApparentPower) String() string {
	if math.Abs(float64(s)) >= 999.95 {
		return strconv.FormatFloat(s.In(KilovoltAmpere), 'g', 4, 64) + " kVA"
	}
	return strconv.FormatFloat(s.In(VoltAmpere), 'g', 4, 64) + " VA"
}

// MarshalText returns s in VA without loss. NaN and infinities are errors.
func (s ApparentPower) MarshalText() ([]byte, error) {
	if math.IsNaN(float64(s)) || math.IsInf(float64(s), 0) {
		return nil, textFault("apparent power", s.String(), "a finite number: NaN and infinities have no text form")
	}
	return []byte(strconv.FormatFloat(float64(s), 'g', -1, 64) + " VA"), nil
}

// UnmarshalText is [ParseApparentPower].
func (s *ApparentPower) UnmarshalText(text []byte) error {
	x, err := ParseApparentPower(string(text))
	if err == nil {
		*s = x
	}
	return err
}

func textFault(field, text, want string) error {
	return &units.FieldError{Package: packageName, Field: field, Value: strconv.Quote(text), Want: want}
}
