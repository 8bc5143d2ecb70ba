package valve_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Powers of forty-digit decimals, in a recorded table.
func TestCharacteristicsAgainstReference(t *testing.T) {
	c := reference.Compare(t, "installed")
	for row := range c.Rows() {
		law := characteristic(t, row.Text("law"))
		c.Check(row, "phi", law.At(row.Float("travel")))
		c.CheckAbs(row, "travel", law.Inverse(row.Float("phi")))
	}
	c.Require(1e-15)
}

func characteristic(t testing.TB, text string) valve.Characteristic {
	t.Helper()
	var c valve.Characteristic
	require.NoError(t, c.UnmarshalText([]byte(text)))
	return c
}

func TestTheoreticalRatio(t *testing.T) {
	for _, c := range []struct {
		curve valve.Characteristic
		ratio float64
		n     float64 // ln R0 as the standards' tables print it
	}{
		{valve.EqualPercentage(25), 25, 3.2189},
		{valve.EqualPercentage(50), 50, 3.9120},
		{valve.Linear(30), 30, 3.4012},
		{valve.Linear(math.Inf(1)), math.Inf(1), math.Inf(1)},
		{valve.Parabolic(), math.Inf(1), math.Inf(1)},
		{valve.QuickOpening(2), math.Inf(1), math.Inf(1)},
		{ballCurve(), 250, 5.5215},
	} {
		assert.InDelta(t, c.ratio, c.curve.TheoreticalRatio(), 1e-12*c.ratio, c.curve)
		if !math.IsInf(c.ratio, 1) {
			assert.InDelta(t, c.n, math.Log(c.curve.TheoreticalRatio()), 5e-5, c.curve)
		}
	}
}

func TestCharacteristicText(t *testing.T) {
	for _, c := range []valve.Characteristic{
		valve.Linear(50), valve.Linear(math.Inf(1)), valve.EqualPercentage(33.3), valve.QuickOpening(2), valve.Parabolic(), ballCurve(),
	} {
		data, err := json.Marshal(c)
		require.NoError(t, err)
		var back valve.Characteristic
		require.NoError(t, json.Unmarshal(data, &back))
		assert.Empty(t, cmp.Diff(c, back))
		assert.Equal(t, fmt.Sprintf("%q", c.String()), string(data))
	}
	assert.Equal(t, "table 0:0.004 0.2:0.02 0.4:0.07 0.6:0.2 0.8:0.5 1:1", ballCurve().String())
}

type cube struct{}

func (cube) At(h float64) float64        { return h * h * h }
func (cube) Inverse(phi float64) float64 { return math.Cbrt(phi) }

func TestCustom(t *testing.T) {
	c := valve.Custom(cube{})
	require.NoError(t, c.Err())
	assert.InDelta(t, 0.125, c.At(0.5), 0)
	assert.InDelta(t, 0.5, c.Inverse(0.125), 1e-15)
	assert.True(t, c.Equal(valve.Custom(cube{})))
	_, err := c.MarshalText()
	assert.ErrorContains(t, err, "tabulate")
}

func TestCharacteristicFaults(t *testing.T) {
	for name, err := range map[string]error{
		"none":              valve.Characteristic{}.Err(),
		"ratio":             valve.EqualPercentage(1).Err(),
		"alpha":             valve.QuickOpening(0).Err(),
		"points":            valve.Tabulated([]valve.Point{{0, 0.5}, {1, 0.4}}).Err(),
		"custom":            valve.Custom(nil).Err(),
		"unknown word":      new(valve.Characteristic).UnmarshalText([]byte("equal percentage")),
		"actuator's law":    new(valve.Characteristic).UnmarshalText([]byte("zero-based-equal-percentage 50")),
		"bad number":        new(valve.Characteristic).UnmarshalText([]byte("linear 5O")),
		"none as text":      func() error { _, err := valve.Characteristic{}.MarshalText(); return err }(),
		"decimal comma row": new(valve.Characteristic).UnmarshalText([]byte("table 0:0 0,5:0.2 1:1")),
	} {
		var fault *units.FieldError
		require.ErrorAs(t, err, &fault, name)
		assert.Equal(t, "valve", fault.Package, name)
		assert.Equal(t, "Curve", fault.Field, name)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
}

// Shaping and valve compose: through a linear valve the actuator's zero-based
// equal percentage of the same ratio becomes equal percentage.
func TestLinearValveBehindZeroBasedShaping(t *testing.T) {
	const ratio = 50
	v := must(valve.NewTwoWay(twoWayConfig(valve.Linear(ratio))))
	for x := 0.11; x <= 1; x += 0.01 { // above the closing region
		shaped := (math.Pow(ratio, x) - 1) / (ratio - 1)
		assert.InEpsilon(t, math.Pow(ratio, x-1), v.RelativeCoefficient(shaped), 1e-14)
	}
}

func FuzzCharacteristic(f *testing.F) {
	for _, seed := range []string{"linear 50", "linear", "equal-percentage 50", "quick-opening 2", "parabolic", "table 0:0 0.5:0.2 1:1", "zero-based-equal-percentage 50"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var c valve.Characteristic
		if err := c.UnmarshalText([]byte(text)); err != nil {
			require.ErrorIs(t, err, units.ErrInvalid)
			require.True(t, c.Equal(valve.Characteristic{}))
			return
		}
		back, err := c.MarshalText()
		require.NoError(t, err)
		require.True(t, characteristic(t, string(back)).Equal(c))
		v, err := valve.NewTwoWay(twoWayConfig(c))
		if err != nil {
			require.ErrorIs(t, err, units.ErrInvalid)
			return
		}
		for h := 0.0; h <= 1; h += 0.01 {
			phi := v.RelativeCoefficient(h)
			require.InDelta(t, phi, v.RelativeCoefficient(v.TravelFor(phi)), 1e-12)
		}
	})
}
