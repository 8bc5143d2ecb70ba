package fluid

import (
	"strconv"
	"strings"
)

const water = "water"

// String returns the text that [Parse] turns into the same value again:
// "water", "ethylene glycol 30 % mass", "propylene glycol 25 % volume".
func (f Fluid) String() string {
	if f.glycol == noGlycol {
		return water
	}
	return mixtures[f.glycol].name + " " + percentText(float64(f.given)) + " % " + f.basis.String()
}

// AppendText appends the text of [Fluid.String].
func (f Fluid) AppendText(b []byte) ([]byte, error) { return append(b, f.String()...), nil }

// MarshalText returns the text of [Fluid.String]; it cannot fail.
func (f Fluid) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// UnmarshalText is [Parse].
func (f *Fluid) UnmarshalText(text []byte) error {
	parsed, err := Parse(string(text))
	if err == nil {
		*f = parsed
	}
	return err
}

func (b basis) String() string { return [...]string{byMass: "mass", byVolume: "volume"}[b] }

// percentText writes a fraction below 1 as a percentage by moving the point of
// its shortest decimal text, which no multiplication could do without loss.
func percentText(fraction float64) string {
	_, digits, _ := strings.Cut(strconv.FormatFloat(fraction, 'f', -1, 64), ".")
	for len(digits) < 2 {
		digits += "0"
	}
	whole := strings.TrimLeft(digits[:1], "0") + digits[1:2]
	if digits[2:] == "" {
		return whole
	}
	return whole + "." + digits[2:]
}
