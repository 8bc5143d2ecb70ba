package valve

import (
	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// LeakageClass is a class of seat leakage of IEC 60534-4 (all from memory). The
// classes bound the leakage of a new valve under the test conditions of the
// standard.
type LeakageClass uint8

// The leakage classes; the zero value is class I.
const (
	LeakageClassI LeakageClass = iota
	LeakageClassII
	LeakageClassIII
	LeakageClassIV
	LeakageClassV
	LeakageClassVI
)

var leakageWords = words.List{Package: packageName, Field: "LeakageClass", Words: []string{"I", "II", "III", "IV", "V", "VI"}}

// String returns the number of the class, such as "IV".
func (c LeakageClass) String() string { return leakageWords.Text(uint8(c)) }

// MarshalText returns the number of the class.
func (c LeakageClass) MarshalText() ([]byte, error) {
	return leakageWords.Marshal(uint8(c))
}

// UnmarshalText reads the number of a class.
func (c *LeakageClass) UnmarshalText(text []byte) error {
	return words.Into(&leakageWords, text, c)
}

// Share returns the greatest leakage with liquid as a share of the rated
// capacity, which is what a Leakage field takes: 0.5 % in class II, 0.1 % in
// class III, 0.01 % in class IV. The other classes are not a fixed share, and
// the error says why.
func (c LeakageClass) Share() (units.Ratio, error) {
	switch c {
	case LeakageClassII:
		return 0.5 * units.Percent, nil
	case LeakageClassIII:
		return 0.1 * units.Percent, nil
	case LeakageClassIV:
		return 0.01 * units.Percent, nil
	}
	return 0, &units.FieldError{Package: packageName, Field: "LeakageClass", Value: c.String(), Want: c.whyNoShare()}
}

func (c LeakageClass) whyNoShare() string {
	const want = "a class that is a share of rated capacity (II, III or IV): "
	switch c {
	case LeakageClassI:
		return want + "class I is by agreement of purchaser and maker, without a test"
	case LeakageClassV:
		return want + "class V is in proportion to the pressure difference and the seat diameter"
	case LeakageClassVI:
		return want + "class VI is a table by seat diameter, tested with gas"
	}
	return want + "there is no class " + c.String()
}
