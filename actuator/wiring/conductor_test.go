package wiring_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/units"
)

var km, none = units.Kilometre, units.Temperature{}

// IEC 60228 from memory, written down a second time; the first five of class 2 are
// design check values.
func TestIECResistances(t *testing.T) {
	for _, tt := range []struct{ mm2, class2, class5 float64 }{
		{0.5, 36.0, 39.0}, {0.75, 24.5, 26.0}, {1, 18.1, 19.5}, {1.5, 12.1, 13.3}, {2.5, 7.41, 7.98},
		{4, 4.61, 4.95}, {6, 3.08, 3.30}, {10, 1.83, 1.91},
	} {
		area := units.Area(tt.mm2) * units.SquareMillimetre
		assert.InDelta(t, tt.class2, wiring.IEC60228(area, wiring.Class2).Resistance(km, none).In(units.Ohm), 1e-12)
		assert.InDelta(t, tt.class5, wiring.IEC60228(area, wiring.Class5).Resistance(km, none).In(units.Ohm), 1e-12)
		// A slip of a digit would leave the band above pure copper of the nominal section.
		copper := 1000 / 58.0 / tt.mm2
		assert.True(t, tt.class2/copper > 1.03 && tt.class2/copper < 1.08, "class 2, %v mm²", tt.mm2)
		assert.True(t, tt.class5/copper > 1.09 && tt.class5/copper < 1.17, "class 5, %v mm²", tt.mm2)
		section, ok := wiring.IEC60228(area, wiring.Class2).Section()
		assert.True(t, ok)
		assert.InEpsilon(t, tt.mm2, section.In(units.SquareMillimetre), 1e-12)
	}
}

// ASTM B258 diameters and sections, and the Ω/1000 ft at 20 °C of the copper wire tables
// (NBS Handbook 100, 1966), all as printed, from memory.
func TestAmericanWireGauge(t *testing.T) {
	for _, tt := range []struct {
		gauge                 int
		mm, mm2, ohmPer1000ft float64
	}{
		{0, 8.251, 53.48, 0.09827}, {10, 2.588, 5.261, 0.9989}, {12, 2.053, 3.309, 1.588}, {14, 1.628, 2.081, 2.525},
		{16, 1.291, 1.309, 4.016}, {18, 1.024, 0.8231, 6.385}, {20, 0.8118, 0.5176, 10.15}, {22, 0.6438, 0.3255, 16.14},
		{24, 0.5106, 0.2047, 25.67},
	} {
		c := wiring.AWG(tt.gauge)
		section, ok := c.Section()
		require.True(t, ok)
		assert.InEpsilon(t, tt.mm, section.CircleDiameter().In(units.Millimetre), 5e-4, "AWG %d", tt.gauge)
		assert.InEpsilon(t, tt.mm2, section.In(units.SquareMillimetre), 5e-4, "AWG %d", tt.gauge)
		assert.InEpsilon(t, tt.ohmPer1000ft, c.Resistance(1000*units.Foot, none).In(units.Ohm), 5e-4, "AWG %d", tt.gauge)
	}
	// Exact by definition (ASTM B258): 36 is 0.005 inch, 4/0 is 0.46 inch, 92 times that, and
	// the 39 steps between them are in one ratio, so that 13 steps are the cube root of 92.
	diameter := func(gauge int) float64 {
		section, _ := wiring.AWG(gauge).Section()
		return section.CircleDiameter().In(units.Inch)
	}
	assert.InEpsilon(t, 0.005, diameter(36), 1e-14)
	for thick := 0; thick+13 <= 40; thick++ {
		assert.InEpsilon(t, 0.46/0.005, math.Pow(diameter(thick)/diameter(thick+13), 3), 1e-12, "AWG %d", thick)
	}
}

// IEC 60228 itself corrects by 254.5/(234.5 + t), from memory; the two laws are one to
// the digits of the coefficient.
func TestTemperatureOfTheCopper(t *testing.T) {
	c := mm2(1)
	for _, celsius := range []float64{-20, 0, 20, 40, 70, 90} {
		got := c.Resistance(km, units.Celsius(celsius)).In(units.Ohm)
		assert.InEpsilon(t, 18.1*(234.5+celsius)/254.5, got, 1e-4, "%v °C", celsius)
	}
	assert.InEpsilon(t, 18.1*1.1965, c.Resistance(km, units.Celsius(70)).In(units.Ohm), 1e-12, "by hand")
}

func TestCoresInParallel(t *testing.T) {
	c := mm2(1).Cores(2)
	assert.InEpsilon(t, 9.05, c.Resistance(km, none).In(units.Ohm), 1e-12)
	section, _ := c.Section()
	assert.InEpsilon(t, 2.0, section.In(units.SquareMillimetre), 1e-12)
	assert.Equal(t, "2 × 1 mm²", c.String())
	_, known := wiring.PerLength(3*units.Ohm, units.Kilometre).Section()
	assert.False(t, known)
}

func TestConductorRefuses(t *testing.T) {
	nan := math.NaN()
	for name, tt := range map[string]struct {
		c    wiring.Conductor
		want string
	}{
		"none":             {wiring.Conductor{}, "got none, want a conductor"},
		"odd section":      {mm2(1.2), "got 1.2 mm², want a class of IEC 60228"},
		"no section":       {mm2(0), "got 0 mm²"},
		"NaN":              {mm2(nan), "got NaN mm²"},
		"unknown class":    {wiring.IEC60228(units.SquareMillimetre, 2), "a class of IEC 60228"},
		"thin gauge":       {wiring.AWG(41), "got AWG 41, want a gauge of 0 … 40"},
		"thick gauge":      {wiring.AWG(-1), "got AWG -1"},
		"no resistance":    {wiring.PerLength(0, units.Metre), "got 0 Ω/km"},
		"no length":        {wiring.PerLength(units.Ohm, 0), "a resistance above zero, 1 MΩ/km at most"},
		"negative":         {wiring.PerLength(-1*units.Ohm, units.Metre), "got -1000 Ω/km"},
		"NaN per metre":    {wiring.PerLength(units.Resistance(nan), units.Metre), "got NaN Ω/km"},
		"too much":         {wiring.PerLength(1001*units.Ohm, units.Metre), "1 MΩ/km at most"},
		"no core":          {mm2(1).Cores(0), "1 … 16 cores"},
		"too many cores":   {mm2(1).Cores(300), "1 … 16 cores"},
		"negative cores":   {mm2(1).Cores(-3), "1 … 16 cores"},
		"none in parallel": {wiring.Conductor{}.Cores(2), "got none"},
	} {
		t.Run(name, func(t *testing.T) {
			err := tt.c.Err()
			require.ErrorIs(t, err, units.ErrInvalid)
			assert.ErrorContains(t, err, tt.want)
			_, err = tt.c.MarshalText()
			assert.ErrorIs(t, err, units.ErrInvalid)
			cfg := one(1, wiring.Load{})
			cfg.Cable.Conductor = tt.c
			_, err = wiring.New(cfg)
			assert.ErrorContains(t, err, "Cable.Conductor")
			assert.NotContains(t, err.Error(), "Cable.Signal", "those that are like it are not told again")
		})
	}
	assert.True(t, math.IsNaN(float64(mm2(1.2).Resistance(km, none))))
	assert.True(t, math.IsNaN(float64(mm2(1).Cores(0).Resistance(km, none))))
}

func TestParseConductor(t *testing.T) {
	for text, want := range map[string]wiring.Conductor{
		"1.5 mm²": mm2(1.5), "1.50mm2": mm2(1.5), " 1 mm^2 class 1 ": mm2(1), "1 mm² class-2": mm2(1),
		"0.5 mm² class 5": wiring.IEC60228(0.5*units.SquareMillimetre, wiring.Class5),
		"AWG 18":          wiring.AWG(18), "AWG18": wiring.AWG(18), "18 AWG": wiring.AWG(18), "0 AWG": wiring.AWG(0),
		"36.6 Ω/km": wiring.PerLength(36.6*units.Ohm, km), "36.6 ohm/km": wiring.PerLength(36.6*units.Ohm, km),
		"2 × 1 mm²": mm2(1).Cores(2), "2x1 mm2": mm2(1).Cores(2), "3 x AWG 16": wiring.AWG(16).Cores(3),
	} {
		got, err := wiring.ParseConductor(text)
		require.NoError(t, err, text)
		assert.Empty(t, cmp.Diff(want, got), text)
	}
	for _, text := range []string{
		"", "1", "1 mm", "1,5 mm²", "1.2 mm²", "AWG 41", "AWG 18.5", "AWG -1", "1 mm² class 3", "-1 mm²", "NaN mm²", "1e999 mm²",
		"0 Ω/km", "1e999 Ω/km", "0 × 1 mm²", "17 × 1 mm²", "999 × 1 mm²", "2 × 2 × 1 mm²", "2 ×", "none", "1 mm² × 2",
	} {
		_, err := wiring.ParseConductor(text)
		assert.ErrorIs(t, err, units.ErrInvalid, text)
	}
	assert.Equal(t, mm2(1), wiring.MustParseConductor("1 mm²"))
	assert.Panics(t, func() { wiring.MustParseConductor("1,5 mm²") })
	assert.Equal(t, "none", wiring.Conductor{}.String())
}

func TestConductorTextIsLossless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		classes := append(wiring.IECSizes(wiring.Class2), wiring.IECSizes(wiring.Class5)...)
		c := rapid.OneOf(
			rapid.SampledFrom(classes),
			rapid.Custom(func(t *rapid.T) wiring.Conductor { return wiring.AWG(rapid.IntRange(0, 40).Draw(t, "n")) }),
			rapid.Custom(func(t *rapid.T) wiring.Conductor {
				return wiring.PerLength(units.Resistance(rapid.Float64Range(1e-6, 1e6).Draw(t, "r"))*units.Ohm, km)
			}),
		).Draw(t, "c").Cores(rapid.IntRange(1, 16).Draw(t, "cores"))
		data, err := json.Marshal(c)
		require.NoError(t, err)
		var back wiring.Conductor
		require.NoError(t, json.Unmarshal(data, &back))
		require.True(t, c.Equal(back), "%s", data)
	})
}

func TestIECSizesRunFromThinToThick(t *testing.T) {
	for _, class := range []wiring.Class{wiring.Class2, wiring.Class5} {
		sizes := wiring.IECSizes(class)
		require.Len(t, sizes, 8)
		for i, c := range sizes {
			require.NoError(t, c.Err())
			if i > 0 {
				assert.Less(t, float64(c.Resistance(km, none)), float64(sizes[i-1].Resistance(km, none)))
			}
		}
	}
}

func FuzzParseConductor(f *testing.F) {
	for _, text := range []string{"1.5 mm²", "2 × AWG 18", "36.6 Ω/km", "1 mm² class 5", "99999999999 AWG"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := wiring.ParseConductor(text)
		if err != nil {
			require.ErrorIs(t, err, units.ErrInvalid)
			require.True(t, c.IsZero())
			return
		}
		require.NoError(t, c.Err())
		back, err := wiring.ParseConductor(c.String())
		require.NoError(t, err)
		require.True(t, c.Equal(back), "%q became %q", text, c)
	})
}

func FuzzParseApparentPower(f *testing.F) {
	for _, text := range []string{"5 VA", "0.16 kVA", "1e-3VA", "-.5 VA", "1e308 kVA"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := wiring.ParseApparentPower(text)
		if err != nil {
			require.ErrorIs(t, err, units.ErrInvalid)
			return
		}
		data, err := s.MarshalText()
		require.NoError(t, err)
		require.False(t, strings.Contains(string(data), "Inf"))
		back, err := wiring.ParseApparentPower(string(data))
		require.NoError(t, err)
		require.Equal(t, s, back) // exact: the text is without loss
	})
}
