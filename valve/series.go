package valve

import (
	"github.com/indexrun/indexrun/internal/words"
	"math"

	"github.com/indexrun/indexrun/units"
)

// Series is a series of preferred numbers (ISO 3), by which the coefficients of
// valves are stepped.
type Series uint8

const (
	// R5 has five steps a decade: 1, 1.6, 2.5, 4, 6.3, the usual one for Kvs.
	R5 Series = iota
	// R10 has ten: 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8.
	R10
)

var seriesWords = words.List{Package: packageName, Field: "Series", Words: []string{"R5", "R10"}}

// String returns "R5" or "R10".
func (s Series) String() string { return seriesWords.Text(uint8(s)) }

// MarshalText returns "R5" or "R10".
func (s Series) MarshalText() ([]byte, error) { return seriesWords.Marshal(uint8(s)) }

// UnmarshalText reads "R5" or "R10".
func (s *Series) UnmarshalText(text []byte) error {
	return words.Into(&seriesWords, text, s)
}

// hundredths are the preferred numbers of a decade of R10 in hundredths (ISO
// 3); R5 is every other one.
var hundredths = [...]float64{100, 125, 160, 200, 250, 315, 400, 500, 630, 800}

// step returns the number i of R10 counted from 1: step(−1) is 0.8, step(10) is
// 10.
func step(i int) units.FlowCoefficient {
	decade, within := i/10, i%10
	if within < 0 {
		decade, within = decade-1, within+10
	}
	if decade -= 2; decade < 0 {
		return units.FlowCoefficient(hundredths[within] / math.Pow10(-decade))
	}
	return units.FlowCoefficient(hundredths[within] * math.Pow10(decade))
}

// stride is how many steps of R10 one step of the series takes.
func (s Series) stride() int {
	if s == R10 {
		return 1
	}
	return 2
}

// greatestStepped bounds what the series are used for: 1e-6 … 1e6.
const greatestStepped = 1e6

// below returns the index of the greatest member of the series that is no more
// than kv.
func (s Series) below(kv units.FlowCoefficient) (int, bool) {
	if s > R10 || !(kv >= 1/greatestStepped && kv <= greatestStepped) {
		return 0, false
	}
	stride := s.stride()
	i := stride * int(math.Floor(10*math.Log10(float64(kv))/float64(stride)))
	for step(i) > kv*(1+rounding) {
		i -= stride
	}
	for step(i+stride) <= kv*(1+rounding) {
		i += stride
	}
	return i, true
}

// AtLeast returns the smallest coefficient of the series that is no less than
// kv; NaN outside 1e-6 … 1e6, and for a Series that is none.
func (s Series) AtLeast(kv units.FlowCoefficient) units.FlowCoefficient {
	i, ok := s.below(kv)
	switch {
	case !ok:
		return units.FlowCoefficient(math.NaN())
	case step(i) >= kv*(1-rounding):
		return step(i)
	}
	return step(i + s.stride())
}

// AtMost returns the greatest coefficient of the series that is no more than
// kv; NaN outside 1e-6 … 1e6.
func (s Series) AtMost(kv units.FlowCoefficient) units.FlowCoefficient {
	i, ok := s.below(kv)
	if !ok {
		return units.FlowCoefficient(math.NaN())
	}
	return step(i)
}

// Nearest returns the coefficient of the series whose ratio to kv is nearest to
// 1, the greater of two as near; NaN outside 1e-6 … 1e6.
func (s Series) Nearest(kv units.FlowCoefficient) units.FlowCoefficient {
	low, high := s.AtMost(kv), s.AtLeast(kv)
	if kv/low < high/kv {
		return low
	}
	return high
}
