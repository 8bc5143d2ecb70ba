package noise_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/noise"
	"github.com/indexrun/indexrun/valve/sizing"
)

func predict(t require.TestingT, cfg noise.Config) noise.Result {
	r, err := noise.Predict(cfg)
	require.NoError(t, err)
	return r
}

func anyConfig(t *rapid.T) noise.Config {
	cfg := globe()
	draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	p1 := units.Pressure(draw("p1", 1.5, 25)) * units.Bar
	cfg.Case.Inlet = units.Absolute(p1)
	cfg.Case.Outlet = units.Absolute(3*units.Kilopascal + units.Pressure(draw("p2", 0.01, 0.95))*(p1-3*units.Kilopascal))
	cfg.Case.Valve.Diameter = units.Length(draw("d", 10, 200)) * units.Millimetre
	cfg.Case.Valve.FL, cfg.Case.Valve.Fd = draw("FL", 0.5, 0.98), draw("Fd", 0.1, 1)
	cfg.Case.Valve.XFz = draw("xFz", 0.1, 0.6)
	cfg.Kv = units.FlowCoefficient(draw("Kv/d²", 0.0005, 0.03)*math.Pow(cfg.Case.Valve.Diameter.In(units.Millimetre), 2)) * units.Kv
	cfg.Pipe.InsideDiameter = cfg.Case.Valve.Diameter
	return cfg
}

func TestTwiceTheFlowIsThreeDecibels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := anyConfig(t)
		once := predict(t, cfg)
		cfg.Flow *= 2
		assert.InDelta(t, once.Level+10*math.Log10(2), predict(t, cfg).Level, 1e-9)
	})
}

func TestThickerWallIsQuieter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := anyConfig(t)
		once := predict(t, cfg)
		cfg.Pipe.Wall *= 2
		gain := once.Level - predict(t, cfg).Level
		assert.Greater(t, gain, 1.0, "the wall's outside grows, and with it the cylinder that radiates")
		assert.Less(t, gain, 10*math.Log10(2))
	})
}

// withDrop throttles a valve to another drop at the flow of cfg.
func withDrop(cfg noise.Config, drop units.Pressure) noise.Config {
	old := cfg.Case.Inlet.Sub(cfg.Case.Outlet)
	cfg.Case.Outlet = cfg.Case.Inlet.Add(-drop)
	cfg.Kv *= units.FlowCoefficient(math.Sqrt(float64(old / drop)))
	return cfg
}

// The level itself falls towards flashing; where it does, the result says so, and the
// greatest level goes on rising.
func TestMorePressureIsNotQuieter(t *testing.T) {
	beyond := 0
	rapid.Check(t, func(t *rapid.T) {
		cfg := anyConfig(t)
		if rapid.Bool().Draw(t, "estimated xFz") {
			cfg.Case.Valve.XFz = 0
		}
		drop := cfg.Case.Inlet.Sub(cfg.Case.Outlet)
		room := cfg.Case.Inlet.Sub(cfg.Case.Liquid.VapourPressure)
		once := predict(t, cfg)
		more := predict(t, withDrop(cfg, drop+units.Pressure(rapid.Float64Range(0, 0.999).Draw(t, "more"))*(room-drop)))
		assert.GreaterOrEqual(t, more.GreatestLevel, once.GreatestLevel-1e-4)
		if !more.BeyondGreatest {
			assert.GreaterOrEqual(t, more.Level, once.Level-1e-9)
			assert.Equal(t, more.Level, more.GreatestLevel)
		} else {
			assert.Greater(t, more.GreatestLevel, more.Level)
			beyond++
		}
	})
	assert.Positive(t, beyond)
}

// The search finds what a dense walk through the drops finds.
func TestGreatestLevelIsTheGreatest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := anyConfig(t)
		if rapid.Bool().Draw(t, "estimated xFz") {
			cfg.Case.Valve.XFz = 0
		}
		drop := cfg.Case.Inlet.Sub(cfg.Case.Outlet)
		whole := predict(t, cfg)
		greatest := whole.Level
		for share := 0.005; share < 1; share += 0.005 {
			greatest = max(greatest, predict(t, withDrop(cfg, units.Pressure(share)*drop)).Level)
		}
		assert.GreaterOrEqual(t, whole.GreatestLevel, greatest-1e-4)
		assert.Less(t, whole.GreatestLevel, greatest+0.5, "between the steps of the walk")
		assert.Equal(t, whole.BeyondGreatest, whole.GreatestLevel > whole.Level)
	})
}

// throttled is a small valve (invented) that takes a drop at 3 bar absolute.
func throttled(style sizing.Style, size units.Length, flow units.Flow, vapour, drop units.Pressure) noise.Config {
	return noise.Config{
		Case: sizing.Case{
			Liquid: sizing.Liquid{
				Density:        983.2 * units.KilogramPerCubicMetre,
				VapourPressure: units.Absolute(vapour),
				Viscosity:      0.47 * units.SquareMillimetrePerSecond,
			},
			Inlet:  units.Absolute(300 * units.Kilopascal),
			Outlet: units.Absolute(300*units.Kilopascal - drop),
			Valve:  style.Valve(size),
		},
		Kv:   units.FlowCoefficient(flow.In(units.CubicMetrePerHour)/math.Sqrt(drop.In(units.Bar))*math.Sqrt(0.9832)) * units.Kv,
		Flow: flow,
		Pipe: noise.Pipe{Wall: 2.6 * units.Millimetre},
	}
}

// From 240 to 279 kPa, of 280 kPa above the vapour pressure, the predicted level falls
// by more than 10 dB(A): the peak of cavitation leaves the bands.
func TestTowardsFlashing(t *testing.T) {
	at := func(drop units.Pressure) noise.Result {
		return predict(t, throttled(sizing.GlobeContouredOpening, 16*units.Millimetre, 350*units.LitrePerHour,
			20*units.Kilopascal, drop*units.Kilopascal))
	}
	loud, last := at(100), at(279)
	assert.False(t, loud.BeyondGreatest)
	assert.Equal(t, loud.Level, loud.GreatestLevel)
	assert.True(t, last.BeyondGreatest)
	assert.Less(t, last.Level, at(240).Level-10)
	assert.Less(t, last.CavitationPeak, 12.5*units.Hertz)
	assert.Greater(t, last.GreatestLevel, at(240).Level)
	assert.InDelta(t, last.GreatestLevel, at(279.99).GreatestLevel, 1e-4)
}

// A ball valve chokes below its xFz: the standard's regime is turbulent, the case
// is not, and more drop is not quieter.
func TestChokedBelowXFz(t *testing.T) {
	at := func(drop units.Pressure) noise.Result {
		return predict(t, throttled(sizing.BallSegmented, 15*units.Millimetre, 50*units.LitrePerHour, 2.3*units.Kilopascal, drop*units.Kilopascal))
	}
	choked := at(110)
	assert.Equal(t, noise.Turbulent, choked.Regime)
	assert.Equal(t, sizing.Choking, choked.Cavitation)
	assert.Less(t, choked.XF, choked.XFz)
	assert.True(t, at(130).BeyondGreatest)
	assert.GreaterOrEqual(t, at(130).GreatestLevel, at(110).GreatestLevel-1e-9)
	assert.Equal(t, sizing.NotCavitating, at(90).Cavitation)
}

func TestLevelIsTheSumOfItsBands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := predict(t, anyConfig(t))
		sum, inside := 0.0, 0.0
		for _, b := range r.Bands {
			sum += math.Pow(10, b.Weighted/10)
			inside += math.Pow(10, b.Internal/10)
		}
		assert.InDelta(t, r.Level, 10*math.Log10(sum), 1e-9)
		// The standard's shares of the bands add up to the whole, near enough, if
		// the peaks are well inside the bands.
		if r.Regime == noise.Turbulent && r.TurbulentPeak > 200 && r.TurbulentPeak < 4000 {
			assert.InDelta(t, r.InternalLevel, 10*math.Log10(inside), 0.5)
		}
	})
}

func TestCavitationBeginsWithoutAJump(t *testing.T) {
	cfg := globe()
	last := math.NaN()
	regimes := map[noise.Regime]bool{}
	for p2 := 900.0; p2 > 300; p2 -= 0.05 {
		cfg.Case.Outlet = units.Absolute(units.Pressure(p2) * units.Kilopascal)
		r := predict(t, cfg)
		if !math.IsNaN(last) {
			require.InDelta(t, last, r.Level, 0.05, "jump at p2 %v kPa", p2)
		}
		assert.Equal(t, r.XF > r.XFz, r.Regime == noise.Cavitating)
		assert.Equal(t, r.Regime == noise.Cavitating, r.CavitationPeak > 0)
		last, regimes[r.Regime] = r.Level, true
	}
	assert.Len(t, regimes, 2)
}

// IEC 61672-1, equation of the A-weighting, at the exact mid-band frequencies
// 1000·10^(n/10): the table is rounded to 0.1 dB.
func TestWeightingIsTheStandardsFormula(t *testing.T) {
	response := func(f float64) float64 {
		f2 := f * f
		return 20 * math.Log10(12194*12194*f2*f2/
			((f2+20.6*20.6)*math.Sqrt((f2+107.7*107.7)*(f2+737.9*737.9))*(f2+12194*12194)))
	}
	for i, b := range predict(t, globe()).Bands {
		exact := 1000 * math.Pow(10, float64(i-19)/10)
		assert.InEpsilon(t, exact, float64(b.Centre), 0.02)
		assert.InDelta(t, response(exact)-response(1000), b.Weighted-b.External, 0.055, "%v", b.Centre)
	}
}

func TestZeroMeansTheStatedDefault(t *testing.T) {
	short := globe()
	short.LiquidSound, short.Air.Density, short.Flow, short.Pipe.InsideDiameter = 0, 0, 0, 0
	long := short
	passed, err := sizing.Flow(short.Kv, short.Case)
	require.NoError(t, err)
	long.Flow = passed.Flow
	long.SeatDiameter = 100 * units.Millimetre
	long.LiquidSound = 1480 * units.MetrePerSecond
	long.Pipe = noise.Pipe{InsideDiameter: 100 * units.Millimetre, Wall: short.Pipe.Wall, Density: 7800, Sound: 5000}
	long.Air = noise.Air{Density: 1.2, Sound: 343}
	long.EfficiencyExponent = -4.6
	assert.Equal(t, predict(t, long), predict(t, short))

	short.Case.OutletPipe = 130 * units.Millimetre
	long.Case.OutletPipe, long.Pipe.InsideDiameter, long.Flow = short.Case.OutletPipe, short.Case.OutletPipe, 0
	assert.Equal(t, predict(t, long), predict(t, short))
}

func TestEachFaultIsNamed(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		name  string
		spoil func(*noise.Config)
		want  []string
	}{
		{"no wall", func(c *noise.Config) { c.Pipe.Wall = 0 }, []string{"Pipe.Wall"}},
		{"no Kv", func(c *noise.Config) { c.Kv = 0 }, []string{"Kv"}},
		{"all else", func(c *noise.Config) {
			c.Flow, c.SeatDiameter, c.LiquidSound = -1, -1, units.Velocity(nan)
			c.Pipe = noise.Pipe{InsideDiameter: -1, Wall: units.Length(nan), Density: -1, Sound: units.Velocity(math.Inf(1))}
			c.Air = noise.Air{Density: -1, Sound: -1}
			c.EfficiencyExponent = 4.6
		}, []string{"Flow", "SeatDiameter", "LiquidSound", "Pipe.InsideDiameter", "Pipe.Wall", "Pipe.Density", "Pipe.Sound",
			"Air.Density", "Air.Sound", "EfficiencyExponent"}},
		{"flashing", func(c *noise.Config) { c.Case.Outlet = units.Absolute(2 * units.Kilopascal) }, []string{"Case.Outlet"}},
		{"case", func(c *noise.Config) { c.Case.Valve.FL = 0; c.Pipe.Wall = 0 }, []string{"Pipe.Wall", "Valve.FL"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			cfg := globe()
			test.spoil(&cfg)
			r, err := noise.Predict(cfg)
			assert.Equal(t, noise.Result{}, r)
			require.ErrorIs(t, err, units.ErrInvalid)
			assert.Equal(t, test.want, fields(t, err))
		})
	}
}

// fields lists the fields of the faults in an error, joined or not.
func fields(t *testing.T, err error) []string {
	t.Helper()
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var names []string
		for _, e := range joined.Unwrap() {
			names = append(names, fields(t, e)...)
		}
		return names
	}
	var f *units.FieldError
	require.ErrorAs(t, err, &f)
	return []string{f.Field}
}

func TestNumbersOutOfFloat64AreRefused(t *testing.T) {
	cfg := globe()
	cfg.Pipe.InsideDiameter = 1e-200
	_, err := noise.Predict(cfg)
	require.ErrorIs(t, err, units.ErrInvalid)
}

func TestConfigSurvivesJSON(t *testing.T) {
	text, err := json.Marshal(globe())
	require.NoError(t, err)
	var back noise.Config
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Empty(t, cmp.Diff(globe(), back, cmp.Comparer(func(a, b units.AbsolutePressure) bool { return a == b })))
}

func TestWords(t *testing.T) {
	for _, r := range []noise.Regime{noise.Turbulent, noise.Cavitating} {
		text, err := r.MarshalText()
		require.NoError(t, err)
		var back noise.Regime
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, r, back)
		assert.Equal(t, r.String(), string(text))
	}
}

func FuzzRegime(f *testing.F) {
	f.Add([]byte("cavitating"))
	f.Fuzz(func(t *testing.T, text []byte) {
		var r noise.Regime
		if r.UnmarshalText(text) != nil {
			assert.Zero(t, r)
			return
		}
		_, err := r.MarshalText()
		require.NoError(t, err)
	})
}

func TestPredictDoesNotAllocate(t *testing.T) {
	cfg := globe()
	cfg.Flow = 0
	assert.Zero(t, testing.AllocsPerRun(100, func() { _, _ = noise.Predict(cfg) }))
}

// Budget: 20 µs, none in the design: 33 bands take 2 µs, and in the cavitating case of
// this benchmark the search for the greatest level looks at some 30 drops. No allocation.
func BenchmarkPredict(b *testing.B) {
	cfg := globe()
	b.ReportAllocs()
	for b.Loop() {
		_, _ = noise.Predict(cfg)
	}
}
