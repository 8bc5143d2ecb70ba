package fluid

import (
	"encoding"
	"encoding/json"
	"flag"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
)

var (
	_ encoding.TextMarshaler   = Fluid{}
	_ encoding.TextAppender    = Fluid{}
	_ encoding.TextUnmarshaler = (*Fluid)(nil)
)

func TestParseReadsUsualSpellings(t *testing.T) {
	for want, spellings := range map[string][]string{
		"water": {"water", " Water ", "WATER"},
		"ethylene glycol 30 % mass": {
			"ethylene glycol 30 % mass", "Ethylene Glycol 30% by mass", "MEG 30 mass-%", "30 wt-% MEG", "30 wt.-% MEG",
			"EG 30% (w/w)", "meg 30 %m/m", "monoethylene glycol 30 % mass", "mono-ethylene glycol 30.0 % weight",
			"30 percent by weight ethylene glycol", "ethylene\tglycol\u00a030\u00a0%\u00a0mass", "MEG 30. % mass", "30 mass‑% MEG",
		},
		"propylene glycol 25 % volume": {
			"propylene glycol 25 % volume", "MPG 25 vol-%", "25 vol.% PG", "25%v/v monopropylene glycol", "mpg 25 %vol",
			"25 pct vol propylene glycol", "PG 25% (by volume)", "PG (25 vol-%)",
		},
		"ethylene glycol 0.5 % volume":  {"MEG .5 vol-%", "MEG 0.5 vol-%"},
		"propylene glycol 32.5 % mass":  {"MPG 32.5 % mass", "MPG 032.50 % mass"},
		"ethylene glycol 0 % mass":      {"MEG 0 % mass", "MEG -0 % mass"},
		"ethylene glycol 0.025 % mass":  {"MEG 0.025 % mass"},
		"propylene glycol 7 % volume":   {"MPG 7 vol-%", "MPG 07 vol-%"},
		"propylene glycol 0.07 % mass":  {"MPG 0.07 mass-%"},
		"propylene glycol 57.3 % mass":  {"MPG 57.3 mass-%"},
		"ethylene glycol 57.3 % volume": {"MEG 57.3 vol-%"},
	} {
		for _, text := range spellings {
			f, err := Parse(text)
			require.NoError(t, err, text)
			assert.Equal(t, want, f.String(), text)
		}
	}
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"":                              `"water", or a glycol`,
		"   ":                           `"water", or a glycol`,
		"brine":                         `"water", or a glycol`,
		"30 % mass":                     `"water", or a glycol`,
		"ethylene 30 % mass":            `"water", or a glycol`,
		"glycol 30 % mass":              `"ethylene glycol" or "propylene glycol"`,
		"ethylene glycol 30 %":          `"mass" or "volume" with the percentage: 30 % by volume is 32.3 % by mass`,
		"MEG 30%":                       `"mass" or "volume" with the percentage`,
		"MEG 30 mass":                   `one percentage with the name`,
		"MEG":                           `one percentage with the name`,
		"MEG % mass":                    `one percentage with the name`,
		"MEG 30/70 % mass":              `one percentage with the name`,
		"MEG 30 %% mass":                `one percentage with the name`,
		"MEG 30 % w/v":                  `by mass or by volume, not both`,
		"MEG 32,5 % mass":               `a decimal point and no other comma`,
		"MEG 3.2.5 % mass":              `a decimal number, not "3.2.5"`,
		"MEG 30 % mass MPG":             `"water", or a glycol`,
		"water 30 % mass":               `nothing beside "water"`,
		"water %":                       `nothing beside "water"`,
		"MEG 61 % mass":                 `0 … 60 % by mass`,
		"MEG 58 vol-%":                  `0 … 57.35 % by volume`,
		"MEG -30 % mass":                `0 … 60 % by mass`,
		"MEG −30 % mass":                `0 … 60 % by mass`,
		"MEG 30 ‰ mass":                 `no "‰" in it`,
		"MEG 30 % mass\x00":             `no "\x00" in it`,
		"MEG 30 % mass\xff":             `in it`,
		"MEG " + nines(400) + " % mass": `a decimal number`,
	} {
		f, err := Parse(text)
		require.ErrorIs(t, err, units.ErrInvalid, text)
		assert.ErrorContains(t, err, want, text)
		assert.Equal(t, Water(), f)
	}
}

func nines(n int) string { return strings.Repeat("9", n) }

func TestTextRoundTripIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom([]glycol{ethyleneGlycol, propyleneGlycol}).Draw(t, "glycol")
		b := rapid.SampledFrom([]basis{byMass, byVolume}).Draw(t, "basis")
		f, err := newMixture(g, b, units.Ratio(rapid.Float64Range(0, 0.57).Draw(t, "fraction")))
		require.NoError(t, err)
		text, err := f.MarshalText()
		require.NoError(t, err)
		back, err := Parse(string(text))
		require.NoError(t, err)
		assert.Equal(t, f, back)
		assert.Equal(t, f.String(), string(text))
	})
}

func TestFluidWorksInJSONAndFlags(t *testing.T) {
	type plant struct{ Fluid Fluid }
	data, err := json.Marshal(plant{MustParse("30 vol-% MPG")})
	require.NoError(t, err)
	assert.Equal(t, `{"Fluid":"propylene glycol 30 % volume"}`, string(data))
	var p plant
	require.NoError(t, json.Unmarshal(data, &p))
	assert.Equal(t, MustParse("30 vol-% MPG"), p.Fluid)
	require.NoError(t, json.Unmarshal([]byte(`{}`), &plant{}), "nothing said is water")
	require.ErrorIs(t, json.Unmarshal([]byte(`{"Fluid":"MPG 30 %"}`), &p), units.ErrInvalid)
	assert.Equal(t, MustParse("30 vol-% MPG"), p.Fluid, "a bad text leaves the value alone")

	flags := flag.NewFlagSet("plan", flag.ContinueOnError)
	var f Fluid
	flags.TextVar(&f, "fluid", Water(), "")
	require.NoError(t, flags.Parse([]string{"-fluid", "MEG 40 mass-%"}))
	assert.Equal(t, "ethylene glycol 40 % mass", f.String())
}

func TestMustParsePanics(t *testing.T) {
	assert.Panics(t, func() { MustParse("MEG 30 %") })
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"water", "ethylene glycol 30 % mass", "MPG 25 vol-%", "30 wt.-% MEG", "EG 30% (w/w)", "MEG 30 %", "MEG 32,5 % mass",
		"MEG -30 % mass", "MEG 1e-3 % mass", "PG .5 % v/v", "meg 0.000000000000000000001 % mass", "\xff%", "glycol",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		fluid, err := Parse(text)
		if err != nil {
			require.ErrorIs(t, err, units.ErrInvalid)
			require.Equal(t, Water(), fluid)
			return
		}
		back, err := Parse(fluid.String())
		require.NoError(t, err)
		require.Equal(t, fluid, back)
		require.LessOrEqual(t, float64(fluid.MassFraction()), greatestMass)
	})
}
