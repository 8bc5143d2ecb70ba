package curve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/curve"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

// valve is a curve of the kind a control valve's data sheet tabulates (invented).
func valve() curve.Curve {
	return curve.NewTabulated([]curve.Point{{X: 0, Y: 0.01}, {X: 0.1, Y: 0.03}, {X: 0.3, Y: 0.06}, {X: 0.5, Y: 0.15}, {X: 0.8, Y: 0.5}, {X: 1, Y: 1}})
}

// Values worked out independently of this module by its designers from the
// laws of IEC 60534-2-4 and VDI/VDE 2173, to the digits they give.
func TestPrintedValues(t *testing.T) {
	for _, c := range []struct {
		curve curve.Curve
		x, y  float64
		digit float64 // half a unit of the last digit given
	}{
		{curve.NewEqualPercentage(25), 0.5, 0.2, 1e-15},
		{curve.NewEqualPercentage(50), 0.1, 0.02958, 5e-6},
		{curve.NewEqualPercentage(50), 0.25, 0.05318, 5e-6},
		{curve.NewEqualPercentage(50), 0.5, 0.14142, 5e-6},
		{curve.NewEqualPercentage(50), 0.75, 0.37606, 5e-6},
		{curve.NewEqualPercentage(50), 0.9, 0.67624, 5e-6},
		{curve.NewZeroBased(50), 0.25, 0.033860, 5e-7},
		{curve.NewZeroBased(50), 0.5, 0.123899, 5e-7},
		{curve.NewZeroBased(50), 0.75, 0.363327, 5e-7},
		{curve.NewLinear(50), 0.5, 0.51, 1e-15},
		{curve.NewLinear(math.Inf(1)), 0.3, 0.3, 0},
		{curve.NewParabolic(), 0.3, 0.09, 1e-16},
		{curve.NewQuickOpening(2), 0.25, 0.5, 1e-16},
	} {
		t.Run(fmt.Sprintf("%v at %v", c.curve, c.x), func(t *testing.T) {
			assert.InDelta(t, c.y, c.curve.At(c.x), c.digit)
			assert.InDelta(t, c.x, c.curve.Inverse(c.curve.At(c.x)), 1e-15)
		})
	}
}

// The zero-based law through a linear curve of matching floor is equal
// percentage (common practice, no published source).
func TestZeroBasedThroughLinearIsEqualPercentage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ratio := ratios(t)
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		zero, linear, equal := curve.NewZeroBased(ratio), curve.NewLinear(ratio), curve.NewEqualPercentage(ratio)
		assert.Less(t, reference.RelDiff(linear.At(zero.At(x)), equal.At(x)), 1e-14*(1+math.Log(ratio)))
	})
}

func ratios(t *rapid.T) float64 {
	return math.Exp(rapid.Float64Range(math.Log(curve.LeastRatio), math.Log(curve.GreatestRatio)).Draw(t, "ln ratio"))
}

type cube struct{}

func (cube) At(x float64) float64      { return x * x * x }
func (cube) Inverse(y float64) float64 { return math.Cbrt(y) }

// any draws a curve of any kind.
func anyCurve(t *rapid.T) curve.Curve {
	ratio := ratios(t)
	switch kind := curve.Kind(rapid.IntRange(int(curve.Linear), int(curve.Custom)).Draw(t, "kind")); kind {
	case curve.Linear:
		return curve.NewLinear(ratio)
	case curve.EqualPercentage:
		return curve.NewEqualPercentage(ratio)
	case curve.ZeroBased:
		return curve.NewZeroBased(ratio)
	case curve.QuickOpening:
		return curve.NewQuickOpening(rapid.Float64Range(1, 10).Draw(t, "alpha"))
	case curve.Parabolic:
		return curve.NewParabolic()
	case curve.Tabulated:
		return anyTable(t)
	}
	return curve.NewCustom(cube{})
}

// anyTable draws steps between neighbouring points that differ by up to 20 times.
func anyTable(t *rapid.T) curve.Curve {
	steps := rapid.SliceOfN(rapid.Float64Range(0.05, 1), 2, 20)
	dx := steps.Draw(t, "dx")
	dy := rapid.SliceOfN(rapid.Float64Range(0.05, 1), len(dx), len(dx)).Draw(t, "dy")
	points := []curve.Point{{X: 0, Y: rapid.Float64Range(0, 0.5).Draw(t, "floor")}}
	for i := range dx {
		last := points[len(points)-1]
		points = append(points, curve.Point{X: last.X + dx[i], Y: last.Y + dy[i]})
	}
	width, height := points[len(dx)].X, points[len(dx)].Y
	for i := range points {
		points[i].X /= width
		points[i].Y /= height
	}
	return curve.NewTabulated(points)
}

// slope is the steepness around x, as a difference quotient.
func slope(c curve.Curve, x float64) float64 {
	const d = 1e-6
	a, b := max(x-d, 0), min(x+d, 1)
	return (c.At(b) - c.At(a)) / (b - a)
}

func TestInverseUndoesAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		require.NoError(t, c.Err())
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		if c.Kind() == curve.Tabulated && slope(c, x) < 1e-3 {
			t.Skip("no promise on a level stretch")
		}
		assert.InDelta(t, x, c.Inverse(c.At(x)), 1e-12)
	})
}

func TestAtUndoesInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		y := rapid.Float64Range(c.Floor(), 1).Draw(t, "y")
		assert.InDelta(t, y, c.At(c.Inverse(y)), 1e-12)
	})
}

func TestRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		further := min(x+rapid.Float64Range(1e-6, 0.5).Draw(t, "step"), 1)
		if x < 1 {
			assert.GreaterOrEqual(t, c.At(further), c.At(x))
		}
		if further-x > 1e-3 {
			assert.Greater(t, c.At(further), c.At(x))
		}
	})
}

// The laws stay within their ends up to the last representable x; at the foot of
// an exponential the rounding of ln R shows.
func TestNeighboursOfTheEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		steps := rapid.IntRange(1, 1000).Draw(t, "ulps")
		x := 1 - float64(steps)*0x1p-53
		assert.LessOrEqual(t, c.At(x), 1.0)
		assert.LessOrEqual(t, c.Inverse(x), 1.0)
		assert.GreaterOrEqual(t, c.At(float64(steps)*5e-324), c.Floor()*(1-4e-15))
	})
}

func TestEndsClampsAndNaN(t *testing.T) {
	for _, c := range []struct {
		curve curve.Curve
		floor float64
	}{
		{curve.NewLinear(50), 0.02}, {curve.NewLinear(math.Inf(1)), 0}, {curve.NewEqualPercentage(50), 0.02},
		{curve.NewZeroBased(50), 0}, {curve.NewQuickOpening(2), 0}, {curve.NewParabolic(), 0},
		{valve(), 0.01}, {curve.NewCustom(cube{}), 0},
	} {
		t.Run(c.curve.String(), func(t *testing.T) {
			require.NoError(t, c.curve.Err())
			assert.InDelta(t, c.floor, c.curve.Floor(), 0)
			for _, x := range []float64{0, math.Copysign(0, -1), -0.5, math.Inf(-1)} {
				assert.InDelta(t, c.floor, c.curve.At(x), 0, "at %v", x)
				assert.InDelta(t, 0, c.curve.Inverse(x), 0, "inverse of %v", x)
			}
			assert.InDelta(t, 0, c.curve.Inverse(c.floor), 0)
			for _, x := range []float64{1, 1.5, math.Inf(1)} {
				assert.InDelta(t, 1, c.curve.At(x), 0, "at %v", x)
				assert.InDelta(t, 1, c.curve.Inverse(x), 0, "inverse of %v", x)
			}
			assert.True(t, math.IsNaN(c.curve.At(math.NaN())))
			assert.True(t, math.IsNaN(c.curve.Inverse(math.NaN())))
		})
	}
}

func TestTableMeetsItsPoints(t *testing.T) {
	c := valve()
	for _, p := range []curve.Point{{X: 0.1, Y: 0.03}, {X: 0.3, Y: 0.06}, {X: 0.5, Y: 0.15}, {X: 0.8, Y: 0.5}} {
		assert.InDelta(t, p.Y, c.At(p.X), 0)
		assert.InDelta(t, p.X, c.Inverse(p.Y), 0)
	}
	two := curve.NewTabulated([]curve.Point{{X: 0, Y: 0.2}, {X: 1, Y: 1}})
	assert.InDelta(t, 0.6, two.At(0.5), 1e-15, "two points make a straight line")
}

func TestTableIsItsOwn(t *testing.T) {
	points := []curve.Point{{X: 0, Y: 0}, {X: 0.5, Y: 0.2}, {X: 1, Y: 1}}
	c := curve.NewTabulated(points)
	points[1].Y = 0.9
	assert.InDelta(t, 0.2, c.At(0.5), 0)
	assert.Equal(t, "table 0:0 0.5:0.2 1:1", c.String())
}

// flaw breaks one promise of Func at a time.
type flaw struct{ at, inverse func(float64) float64 }

func (f flaw) At(x float64) float64      { return f.at(x) }
func (f flaw) Inverse(y float64) float64 { return f.inverse(y) }

func same(x float64) float64 { return x }

func TestFaults(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		curve curve.Curve
		want  string
	}{
		"never made":           {curve.Curve{}, "constructors"},
		"linear ratio 1":       {curve.NewLinear(1), "1.01 … 1e6"},
		"linear ratio NaN":     {curve.NewLinear(nan), "got NaN"},
		"linear ratio −Inf":    {curve.NewLinear(math.Inf(-1)), "1.01 … 1e6"},
		"equal ratio infinite": {curve.NewEqualPercentage(math.Inf(1)), "1.01 … 1e6"},
		"equal ratio 0":        {curve.NewEqualPercentage(0), "1.01 … 1e6"},
		"equal ratio negative": {curve.NewEqualPercentage(-50), "1.01 … 1e6"},
		"zero-based ratio 1":   {curve.NewZeroBased(1), "1.01 … 1e6"},
		"alpha below 1":        {curve.NewQuickOpening(0.5), "1 … 10"},
		"alpha NaN":            {curve.NewQuickOpening(nan), "1 … 10"},
		"no points":            {curve.NewTabulated(nil), "two points"},
		"starts late":          {curve.NewTabulated([]curve.Point{{X: 0.1, Y: 0}, {X: 1, Y: 1}}), "first point"},
		"starts below zero":    {curve.NewTabulated([]curve.Point{{X: 0, Y: -0.1}, {X: 1, Y: 1}}), "first point"},
		"starts at NaN":        {curve.NewTabulated([]curve.Point{{X: 0, Y: nan}, {X: 1, Y: 1}}), "first point"},
		"ends early":           {curve.NewTabulated([]curve.Point{{X: 0, Y: 0}, {X: 0.9, Y: 1}}), "1:1"},
		"falls":                {curve.NewTabulated([]curve.Point{{X: 0, Y: 0}, {X: 0.5, Y: 0.6}, {X: 0.6, Y: 0.5}, {X: 1, Y: 1}}), "0.5:0.6"},
		"level":                {curve.NewTabulated([]curve.Point{{X: 0, Y: 0}, {X: 0.5, Y: 0.6}, {X: 0.6, Y: 0.6}, {X: 1, Y: 1}}), "0.5:0.6"},
		"NaN inside":           {curve.NewTabulated([]curve.Point{{X: 0, Y: 0}, {X: nan, Y: 0.6}, {X: 1, Y: 1}}), "NaN:0.6"},
		"steep beyond reason":  {curve.NewTabulated([]curve.Point{{X: 0, Y: 0}, {X: 5e-324, Y: 0.6}, {X: 1, Y: 1}}), "1e-6"},
		"nil":                  {curve.NewCustom(nil), "a function"},
		"custom end":           {curve.NewCustom(flaw{func(x float64) float64 { return x / 2 }, func(y float64) float64 { return 2 * y }}), "1 at 1"},
		"custom NaN":           {curve.NewCustom(flaw{func(float64) float64 { return nan }, same}), "1 at 1"},
		"custom floor":         {curve.NewCustom(flaw{func(x float64) float64 { return 2*x - 1 }, func(y float64) float64 { return (y + 1) / 2 }}), "at 0"},
		"custom falls":         {curve.NewCustom(flaw{func(x float64) float64 { return x - math.Sin(4*math.Pi*x)/6 }, same}), "strictly increasing"},
		"custom inverse":       {curve.NewCustom(flaw{func(x float64) float64 { return x * x }, same}), "an inverse"},
	} {
		t.Run(name, func(t *testing.T) {
			err := c.curve.Err()
			require.ErrorIs(t, err, units.ErrInvalid)
			assert.ErrorContains(t, err, c.want)
			_, err = c.curve.MarshalText()
			require.Error(t, err)
			assert.Equal(t, "none", c.curve.String())
			assert.True(t, math.IsNaN(c.curve.At(0.5)))
			assert.True(t, math.IsNaN(c.curve.Inverse(0.5)))
		})
	}
}

func TestEqual(t *testing.T) {
	pointer := &flaw{same, same}
	list := []curve.Curve{
		{}, curve.NewLinear(50), curve.NewLinear(30), curve.NewLinear(math.Inf(1)), curve.NewEqualPercentage(50),
		curve.NewZeroBased(50), curve.NewQuickOpening(2), curve.NewQuickOpening(3), curve.NewParabolic(), valve(),
		curve.NewTabulated([]curve.Point{{X: 0, Y: 0}, {X: 1, Y: 1}}), curve.NewCustom(cube{}), curve.NewCustom(pointer),
		curve.NewQuickOpening(math.NaN()),
	}
	for i, c := range list {
		for j, d := range list {
			assert.Equal(t, i == j, c.Equal(d), "%v and %v", c, d)
		}
	}
	assert.True(t, valve().Equal(valve()))
	assert.True(t, curve.NewQuickOpening(math.NaN()).Equal(curve.NewTabulated(nil)))
	incomparable := curve.NewCustom(flaw{same, same})
	assert.False(t, incomparable.Equal(incomparable))
}

func TestNoAllocations(t *testing.T) {
	c := valve()
	e := curve.NewEqualPercentage(50)
	assert.Zero(t, testing.AllocsPerRun(100, func() { _, _, _, _ = c.At(0.4), c.Inverse(0.4), e.At(0.4), e.Inverse(0.4) }))
}
