package curve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/curve"
	"github.com/indexrun/indexrun/units"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]curve.Curve{
		"linear":                         curve.NewLinear(math.Inf(1)),
		"linear 50":                      curve.NewLinear(50),
		" equal-percentage  33.3 ":       curve.NewEqualPercentage(33.3),
		"zero-based-equal-percentage 50": curve.NewZeroBased(50),
		"quick-opening 2":                curve.NewQuickOpening(2),
		"parabolic":                      curve.NewParabolic(),
		"table 0:0.01 0.1:0.03 0.3:0.06 0.5:0.15 0.8:0.5 1:1": valve(),
	} {
		got, err := curve.Parse(text)
		require.NoError(t, err, text)
		assert.True(t, got.Equal(want), text)
		assert.Equal(t, want.Kind(), got.Kind())
	}
}

func TestParseRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                        "linear 50",
		"round 5":                 "a curve such as",
		"linear 50 60":            "a curve such as",
		"equal-percentage":        "a curve such as",
		"equal-percentage 50,5":   "a finite number",
		"equal-percentage 1":      "1.01 … 1e6",
		"linear Inf":              "a finite number",
		"linear NaN":              "1.01 … 1e6",
		"none":                    "a curve such as",
		"custom":                  "a curve such as",
		"parabolic 2":             "a curve such as",
		"table":                   "two points",
		"table 0:0 1":             "written x:y",
		"table 0:0 0.5:0.2,1:1":   "written x:y",
		"table 0:0 0.5:0.2 1:1.1": "1:1",
	} {
		got, err := curve.Parse(text)
		require.ErrorIs(t, err, units.ErrInvalid, text)
		assert.ErrorContains(t, err, want)
		assert.Equal(t, curve.None, got.Kind())
	}
}

func TestTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		text, err := c.MarshalText()
		if c.Kind() == curve.Custom {
			require.ErrorContains(t, err, "tabulate")
			return
		}
		require.NoError(t, err)
		back, err := curve.Parse(string(text))
		require.NoError(t, err)
		assert.True(t, back.Equal(c), "%s", text)
	})
}

func TestKindString(t *testing.T) {
	assert.Equal(t, "equal-percentage", curve.EqualPercentage.String())
	assert.Equal(t, "unknown 200", curve.Kind(200).String())
}

// Whatever Parse accepts is a curve that keeps its promises.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"linear", "linear 50", "equal-percentage 50", "zero-based-equal-percentage 50",
		"quick-opening 2", "parabolic", "table 0:0 0.5:0.2 1:1", "table 0:0 1e-6:1e-6 1:1", "table 0:NaN 1:1", "linear 1e400", "table 0:0.2 0.5:0.2 1:1"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := curve.Parse(text)
		if err != nil {
			require.ErrorIs(t, err, units.ErrInvalid)
			return
		}
		back, err := curve.Parse(c.String())
		require.NoError(t, err)
		require.True(t, back.Equal(c), text)
		last := c.Floor()
		for i := 1; i <= 100; i++ {
			y := c.At(float64(i) / 100)
			require.GreaterOrEqual(t, y, last-1e-15, text)
			require.LessOrEqual(t, y, 1+1e-15, text)
			x := c.Inverse(y)
			require.InDelta(t, y, c.At(x), 1e-12, text)
			last = y
		}
	})
}
