package signal_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func mustConverter(bits int, full signal.Range) signal.Converter {
	return must(signal.NewConverter(signal.ConverterConfig{Bits: bits, FullScale: full}))
}

// Steps as textbooks on converters give them for a full scale of 10 V.
func TestConverterStep(t *testing.T) {
	for bits, millivolts := range map[int]float64{8: 39.2157, 10: 9.77517, 12: 2.44200, 16: 0.152590} {
		assert.InEpsilon(t, millivolts, 1000*mustConverter(bits, signal.Range0To10V()).Step().Number(), 1e-5, bits)
	}
}

// The counts follow from first principles: 2ⁿ values over the full scale, and the
// share of them that falls within the range.
func TestResolution(t *testing.T) {
	for _, tt := range []struct {
		bits   int
		full   signal.Range
		r      signal.Range
		values int
		worst  float64
	}{
		{8, signal.Range0To10V(), signal.Range0To10V(), 256, 0.5 / 255},
		{8, signal.Range0To10V(), signal.Range2To10V(), 205, 0.5 / 204}, // codes 51 … 255
		{8, signal.Range0To10V(), signal.Range2To10V().Inverse(), 205, 0.5 / 204},
		{10, signal.Range0To10V(), signal.Range2To10V(), 819, 0.5 / 1023 * 10 / 8},
		{12, signal.Range0To20mA(), signal.Range4To20mA(), 3277, 0.5 / 3276}, // codes 819 … 4095
		{1, signal.Range0To10V(), signal.Range0To10V(), 2, 0.5},
		{10, signal.Range0To5V(), signal.Range0To10V(), 1024, 0.5},
		{10, signal.Range0To5V(), signal.MustParseRange("6-10 V"), 0, 1},
		{1, signal.Range0To10V(), signal.MustParseRange("4-6 V"), 0, 1},
		{24, signal.Range0To10V(), signal.Range0To10V(), 1 << 24, 0.5 / (1<<24 - 1)},
	} {
		got, err := mustConverter(tt.bits, tt.full).Resolution(tt.r)
		require.NoError(t, err)
		assert.Equal(t, tt.values, got.Values, "%d bits, %v on %v", tt.bits, tt.r, tt.full)
		assert.InEpsilon(t, tt.worst, got.WorstError, 1e-9, "%d bits, %v on %v", tt.bits, tt.r, tt.full)
	}
}

func TestQuantise(t *testing.T) {
	c := mustConverter(8, signal.Range0To10V())
	for in, want := range map[float64]float64{
		-3: 0, 0: 0, 0.0196: 0, 0.0197: 10.0 / 255, 6.2: 158 * 10.0 / 255, 10: 10, 24: 10,
		math.Inf(1): 10, math.Inf(-1): 0,
	} {
		assert.InDelta(t, want, c.Quantise(signal.Volts(in)).Number(), 1e-12, "%g V", in)
	}
	assert.Equal(t, signal.Signal{}, c.Quantise(signal.Signal{}))
	assert.Equal(t, signal.Failed, signal.Range0To10V().Read(c.Quantise(signal.Volts(math.NaN()))).Status)
	assert.Equal(t, signal.Failed, signal.Range0To10V().Read(c.Quantise(signal.Milliamps(5))).Status)
}

func TestQuantiseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRange(t)
		c := mustConverter(rapid.IntRange(1, 24).Draw(t, "bits"), r)
		resolution, err := c.Resolution(r)
		require.NoError(t, err)
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		got := c.Quantise(r.Encode(x))
		require.Equal(t, signal.InRange, r.Read(got).Status)
		require.LessOrEqual(t, math.Abs(r.Read(got).Demand-x), resolution.WorstError+1e-12)
		require.InDelta(t, got.Number(), c.Quantise(got).Number(), 0, "quantising twice changes nothing")
		require.Equal(t, r.Low(), c.Quantise(r.Low()))
		require.Equal(t, r.High(), c.Quantise(r.High()))
	})
}

func TestConverterRefuses(t *testing.T) {
	for _, cfg := range []signal.ConverterConfig{
		{}, {Bits: 0, FullScale: signal.Range0To10V()}, {Bits: 25, FullScale: signal.Range0To10V()}, {Bits: 10},
	} {
		_, err := signal.NewConverter(cfg)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
	_, err := signal.NewConverter(signal.ConverterConfig{})
	assert.ErrorContains(t, err, "Bits")
	assert.ErrorContains(t, err, "FullScale", "both faults are reported")
	for _, r := range []signal.Range{signal.Range4To20mA(), {}} {
		_, err := mustConverter(10, signal.Range0To10V()).Resolution(r)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
}

func TestZeroConverter(t *testing.T) {
	var c signal.Converter
	assert.Equal(t, signal.Signal{}, c.Step())
	assert.Equal(t, signal.Signal{}, c.Quantise(signal.Volts(5)))
	_, err := c.Resolution(signal.Range{})
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestConverterEqualServesCmp(t *testing.T) {
	c := mustConverter(10, signal.Range0To10V())
	assert.Empty(t, cmp.Diff(c, mustConverter(10, signal.Range0To10V())))
	assert.NotEmpty(t, cmp.Diff(c, mustConverter(11, signal.Range0To10V())))
}
