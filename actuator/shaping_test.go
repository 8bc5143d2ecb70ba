package actuator_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/units"
)

// The figures are those of the project's design page, which were computed
// independently of this code, to the six digits given there.
func TestZeroBasedEqualPercentageCheckValues(t *testing.T) {
	s := actuator.ZeroBasedEqualPercentage(50)
	for opening, want := range map[float64]float64{0.25: 0.033860, 0.5: 0.123899, 0.75: 0.363327} {
		assert.InDelta(t, want, s.At(opening), 5e-7)
		assert.InDelta(t, opening, s.Inverse(want), 1e-4)
	}
}

// Zero-based shaping of ratio R on a linear valve with φ0 = 1/R is exactly the equal
// percentage R^(x−1) (IEC 60534-2-4 for the latter; computed here by math.Pow).
func TestZeroBasedShapingOnALinearValveIsEqualPercentage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ratio := rapid.Float64Range(1.5, 1000).Draw(t, "ratio")
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		h := actuator.ZeroBasedEqualPercentage(ratio).At(x)
		phi := 1/ratio + (1-1/ratio)*h
		if want := math.Pow(ratio, x-1); math.Abs(phi-want) > 1e-12*want {
			t.Fatalf("φ = %v, want %v", phi, want)
		}
	})
}

func TestShapingEndsClampAndNaN(t *testing.T) {
	table := actuator.Tabulated([]actuator.Point{{}, {Opening: 0.3, Share: 0.1}, {Opening: 1, Share: 1}})
	for _, s := range []actuator.Shaping{{}, actuator.Linear(), actuator.ZeroBasedEqualPercentage(50), table, actuator.Custom(square{})} {
		t.Run(s.String(), func(t *testing.T) {
			require.NoError(t, s.Err())
			for x, want := range map[float64]float64{math.Inf(-1): 0, -1: 0, 0: 0, 1: 1, 2: 1, math.Inf(1): 1} {
				assert.Equal(t, want, s.At(x), "exact at %v", x)
				assert.Equal(t, want, s.Inverse(x), "exact at %v", x)
			}
			assert.True(t, math.IsNaN(s.At(math.NaN())))
			assert.True(t, math.IsNaN(s.Inverse(math.NaN())))
		})
	}
	assert.InDelta(t, 0.1, table.At(0.3), 1e-15)
	assert.InDelta(t, 0.3, table.Inverse(0.1), 1e-15)
}

type square struct{}

func (square) At(x float64) float64      { return x * x }
func (square) Inverse(y float64) float64 { return math.Sqrt(y) }

// powers is the product of two powers, a type that == cannot compare.
type powers []float64

func (p powers) At(x float64) float64      { return math.Pow(x, p[0]*p[1]) }
func (p powers) Inverse(y float64) float64 { return math.Pow(y, 1/(p[0]*p[1])) }

type falling struct{}

func (falling) At(x float64) float64      { return 1 - x }
func (falling) Inverse(y float64) float64 { return 1 - y }

func TestShapingFaults(t *testing.T) {
	tests := map[string]actuator.Shaping{
		"ratio of one":       actuator.ZeroBasedEqualPercentage(1),
		"ratio NaN":          actuator.ZeroBasedEqualPercentage(math.NaN()),
		"empty table":        actuator.Tabulated(nil),
		"table off the zero": actuator.Tabulated([]actuator.Point{{Opening: 0, Share: 0.1}, {Opening: 1, Share: 1}}),
		"table falls":        actuator.Tabulated([]actuator.Point{{}, {Opening: 0.5, Share: 0.6}, {Opening: 0.6, Share: 0.5}, {Opening: 1, Share: 1}}),
		"no custom":          actuator.Custom(nil),
		"custom falls":       actuator.Custom(falling{}),
	}
	for name, s := range tests {
		t.Run(name, func(t *testing.T) {
			var field *units.FieldError
			require.ErrorAs(t, s.Err(), &field)
			assert.Equal(t, "actuator", field.Package)
			assert.Equal(t, "Shaping", field.Field)
			_, err := s.MarshalText()
			assert.Error(t, err)
		})
	}
}

func TestShapingText(t *testing.T) {
	for _, text := range []string{"linear", "zero-based-equal-percentage 50", "table 0:0 0.5:0.2 1:1"} {
		var s actuator.Shaping
		require.NoError(t, s.UnmarshalText([]byte(text)))
		back, err := s.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, text, string(back))
		assert.Equal(t, text, s.String())
	}
	for _, text := range []string{"", "linear 50", "equal-percentage 50", "quick-opening 2", "parabolic", "zero-based-equal-percentage",
		"zero-based-equal-percentage 1,5", "table 0:0.1 1:1", "custom"} {
		s := actuator.ZeroBasedEqualPercentage(20)
		require.ErrorIs(t, s.UnmarshalText([]byte(text)), units.ErrInvalid, "%q", text)
		assert.True(t, s.Equal(actuator.ZeroBasedEqualPercentage(20)), "left alone by %q", text)
	}
	_, err := actuator.Custom(square{}).MarshalText()
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestShapingEqual(t *testing.T) {
	assert.True(t, cmp.Equal(actuator.Shaping{}, actuator.Linear()))
	assert.False(t, cmp.Equal(actuator.Linear(), actuator.ZeroBasedEqualPercentage(50)))
	assert.False(t, cmp.Equal(actuator.ZeroBasedEqualPercentage(25), actuator.ZeroBasedEqualPercentage(50)))
	assert.True(t, actuator.Custom(square{}).Equal(actuator.Custom(square{})))
	assert.False(t, actuator.Custom(square{}).Equal(actuator.Linear()))
	assert.False(t, actuator.Custom(powers{1, 2}).Equal(actuator.Custom(powers{1, 2})), "== cannot tell")
	assert.False(t, actuator.ZeroBasedEqualPercentage(0).Equal(actuator.Linear()), "a fault is not the zero value")
}

func FuzzShapingText(f *testing.F) {
	for _, seed := range []string{"linear", "zero-based-equal-percentage 50", "table 0:0 0.5:0.2 1:1", "table 0:0 1:1 2:2", "x"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var s, again actuator.Shaping
		if s.UnmarshalText([]byte(text)) != nil {
			return
		}
		back, err := s.MarshalText()
		require.NoError(t, err)
		require.NoError(t, again.UnmarshalText(back))
		require.True(t, s.Equal(again))
		require.Equal(t, 0.0, s.At(0))
		require.Equal(t, 1.0, s.At(1))
	})
}
