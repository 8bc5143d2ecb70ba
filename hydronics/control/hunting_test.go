package control_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

// shape is a wave of period 1 and amplitude 1.
type shape func(phase float64) float64

func sine(x float64) float64 { return math.Sin(2 * math.Pi * x) }

func triangle(x float64) float64 { return 2 / math.Pi * math.Asin(sine(x)) }

func rectangle(x float64) float64 { return math.Copysign(1, sine(x)) }

// saw is the lopsided wave of a valve that opens fast and closes slowly.
func saw(x float64) float64 {
	x -= math.Floor(x)
	if x < 0.2 {
		return -1 + 10*x
	}
	return 1 - 2.5*(x-0.2)
}

// wave draws n values of a wave on a slope, with noise.
func wave(f shape, n int, period, amplitude, noise float64) []float64 {
	rng := rand.New(rand.NewPCG(3, uint64(n)))
	x := make([]float64, n)
	for i := range x {
		x[i] = 2 - 1e-3*float64(i)/float64(n)*amplitude + amplitude*f(float64(i)/period+0.3) + noise*rng.NormFloat64()
	}
	return x
}

func TestHuntingFindsWhatIsPutIn(t *testing.T) {
	for name, c := range map[string]struct {
		shape               shape
		period, noise       float64
		atPeriod, amplitude float64 // tolerances
	}{
		"sine":              {sine, 90, 0, 0.005, 0.005},
		"triangle":          {triangle, 90, 0, 0.005, 0.025},
		"rectangle":         {rectangle, 90, 0, 0.01, 0.01},
		"saw":               {saw, 90, 0, 0.005, 0.02},
		"sine of 12 values": {sine, 12.3, 0, 0.005, 0.05},
		"sine in noise":     {sine, 90, 0.2, 0.01, 0.05},
		"in more noise":     {sine, 90, 0.4, 0.02, 0.05},
		"saw in noise":      {saw, 90, 0.2, 0.01, 0.1},
		"four slow cycles":  {sine, 800, 0.1, 0.02, 0.05},
	} {
		t.Run(name, func(t *testing.T) {
			s := control.DetectHunting(wave(c.shape, 3600, c.period, 0.8, 0.8*c.noise), 2*time.Second, 0.2)
			require.Equal(t, control.Hunting, s.Verdict, "%+v", s)
			assert.Equal(t, control.NoDoubt, s.Doubt)
			assert.InEpsilon(t, 2*c.period, s.Period.Seconds(), c.atPeriod)
			assert.InEpsilon(t, 0.8, s.Amplitude, c.amplitude)
			assert.InDelta(t, 1, s.Trend, 0.1)
			if c.noise > 0 {
				assert.InEpsilon(t, 0.8*c.noise, s.Noise, 0.05)
			}
		})
	}
}

func TestHuntingRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		period := rapid.Float64Range(20, 300).Draw(t, "period")
		amplitude := rapid.Float64Range(0.3, 10).Draw(t, "amplitude")
		noise := rapid.Float64Range(0, 0.25).Draw(t, "noise")
		s := control.DetectHunting(wave(sine, 3000, period, amplitude, noise*amplitude), time.Second, 0.2)
		require.Equal(t, control.Hunting, s.Verdict, "%+v", s)
		assert.InEpsilon(t, period, s.Period.Seconds(), 0.03)
		assert.InEpsilon(t, amplitude, s.Amplitude, 0.1)
	})
}

// TestHuntingOfShortCycles: cycles of 21 and 22 values leave the same parts of the
// mean cycle out, but for a few.
func TestHuntingOfShortCycles(t *testing.T) {
	for period := 20.0; period < 26; period += 0.02 {
		s := control.DetectHunting(wave(sine, 3000, period, 8, 2), time.Second, 0.2)
		require.Equal(t, control.Hunting, s.Verdict, "%v %+v", period, s)
		require.InEpsilon(t, 8, s.Amplitude, 0.06, "%v %+v", period, s)
	}
}

func TestSteady(t *testing.T) {
	for name, x := range map[string][]float64{
		"nothing":               make([]float64, 100),
		"an offset":             wave(sine, 1000, 90, 0, 0),
		"a small swing":         wave(sine, 1000, 90, 0.15, 0),
		"a small swing, coarse": wave(sine, 1000, 2.1, 0.15, 0),
		"noise":                 wave(sine, 3600, 90, 0, 0.3),
		"small swing in noise":  wave(sine, 36000, 90, 0.1, 0.3),
		"a step that has died":  decay(3600, 0, 5, 300),
		"a ring that has died":  decay(3600, 120, 5, 250),
	} {
		t.Run(name, func(t *testing.T) {
			s := control.DetectHunting(x, time.Second, 0.2)
			assert.Equal(t, control.Steady, s.Verdict, "%+v", s)
			assert.Equal(t, control.NoDoubt, s.Doubt)
			assert.LessOrEqual(t, s.Amplitude, 0.2, "of the part that is judged")
			assert.Equal(t, strings.HasSuffix(name, "died"), s.LastHalf)
		})
	}
}

// A swing of ±0.88 K every 90 s goes on after a shower, which is a hump of the deviation,
// wherever in the record it comes and in which direction; the hump has no part in the figures.
func TestHuntingAfterADisturbance(t *testing.T) {
	for _, hump := range []float64{-10, -5, -2, 2, 5, 10} {
		for _, at := range []int{0, 1000, 1500, 5000, 9000} {
			x := wave(sine, 10800, 90, 0.88, 0.02)
			for i := at; i < len(x); i++ {
				since := float64(i-at) / 200
				x[i] += hump * since * math.Exp(1-since)
			}
			s := control.DetectHunting(x, time.Second, 0.3)
			require.Equal(t, control.Hunting, s.Verdict, "%v at %v: %+v", hump, at, s)
			assert.InEpsilon(t, 90, s.Period.Seconds(), 0.01)
			assert.InEpsilon(t, 0.88, s.Amplitude, 0.04)
			assert.InDelta(t, 1, s.Trend, 0.1)
		}
	}
}

// Stick-slip is never quite even: ±0.5 K every 300 s, each half cycle up to a fifth
// longer or shorter, higher or lower.
func TestHuntingStickSlip(t *testing.T) {
	for seed := range uint64(30) {
		rng := rand.New(rand.NewPCG(seed, 2))
		about := func(x float64) float64 { return x * (1 + 0.2*(2*rng.Float64()-1)) }
		var x []float64
		for way := 1.0; len(x) < 3*3600; way = -way {
			length, height := about(150), about(0.5)
			for i := range int(length) {
				x = append(x, way*height*sine(float64(i)/length/2)+0.03*rng.NormFloat64())
			}
		}
		s := control.DetectHunting(x, time.Second, 0.3)
		require.Equal(t, control.Hunting, s.Verdict, "%+v", s)
		assert.InEpsilon(t, 300, s.Period.Seconds(), 0.06) // four standard deviations of the mean of 72 halves
		assert.InEpsilon(t, 0.5, s.Amplitude, 0.1)
	}
}

// decay is an answer to a step, with a period or, with 0, without.
func decay(n int, period, size, constant float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = size * math.Exp(-float64(i)/constant)
		if period > 0 {
			x[i] *= math.Cos(2 * math.Pi * float64(i) / period)
		}
	}
	return x
}

func TestUndecided(t *testing.T) {
	chirp := make([]float64, 3600)
	burst := wave(sine, 3600, 100, 1, 0)
	for i := range chirp {
		chirp[i] = math.Sin(1e-5 * float64(i*i))
		if i > 2500 {
			burst[i] = 2
		}
		if i < 500 {
			burst[i] = 2
		}
	}
	for name, c := range map[string]struct {
		x     []float64
		doubt control.Doubt
	}{
		"empty":              {nil, control.NoRecord},
		"short":              {make([]float64, 15), control.NoRecord},
		"NaN":                {append(make([]float64, 50), math.NaN()), control.NoRecord},
		"infinite":           {append(make([]float64, 50), math.Inf(-1)), control.NoRecord},
		"one hump":           {wave(sine, 1000, 1500, 1, 0), control.TooFewCycles},
		"two cycles":         {wave(sine, 1000, 400, 1, 0), control.TooFewCycles},
		"a step on its way":  {decay(1000, 0, 5, 600), control.TooFewCycles},
		"alternating":        {wave(sine, 1000, 2.1, 1, 0), control.TooCoarse},
		"six to the cycle":   {wave(sine, 1000, 6.1, 1, 0), control.TooNoisy},
		"under eight":        {wave(sine, 1000, 7.9, 1, 0), control.TooCoarse},
		"noise too strong":   {wave(sine, 1000, 90, 0, 3), control.TooNoisy},
		"swing under noise":  {wave(sine, 3600, 30, 0.5, 1.5), control.TooNoisy},
		"ever faster":        {chirp, control.Irregular},
		"ringing, dying":     {decay(3600, 200, 5, 1500), control.Dying},
		"no longer swinging": {burst, control.Irregular},
	} {
		t.Run(name, func(t *testing.T) {
			s := control.DetectHunting(c.x, time.Second, 0.2)
			assert.Equal(t, control.Undecided, s.Verdict, "%+v", s)
			assert.Equal(t, c.doubt.String(), s.Doubt.String(), "%+v", s)
		})
	}
	for _, step := range []time.Duration{0, -1} {
		assert.Equal(t, control.NoRecord, control.DetectHunting(make([]float64, 100), step, 1).Doubt)
	}
	assert.Equal(t, control.NoRecord, control.DetectHunting(make([]float64, 100), time.Second, 0).Doubt)
}

// A swing that grows is hunting, and says so.
func TestHuntingGrows(t *testing.T) {
	x := decay(3000, 150, 0.5, -2000)
	s := control.DetectHunting(x, time.Second, 0.2)
	assert.Equal(t, control.Hunting, s.Verdict, "%+v", s)
	assert.Greater(t, s.Trend, 2.0)
}

// Units and scale do not matter: the same record in other kelvins and other steps.
func TestHuntingScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := math.Pow(2, float64(rapid.IntRange(-20, 20).Draw(t, "scale")))
		x := wave(saw, 1200, 70, 1, 0.1)
		y := make([]units.TemperatureDifference, len(x))
		for i := range y {
			y[i] = units.TemperatureDifference(scale * x[i])
		}
		a := control.DetectHunting(x, time.Second, 0.2)
		b := control.DetectHunting(y, 30*time.Second, units.TemperatureDifference(0.2*scale))
		assert.Equal(t, a.Verdict, b.Verdict)
		assert.InEpsilon(t, a.Amplitude*scale, float64(b.Amplitude), 1e-12)
		assert.InDelta(t, 30*a.Period.Seconds(), b.Period.Seconds(), 1e-6)
	})
}

// TestDetectorDoesNotCryWolf judges noise of many seeds, white and (much slower) walking
// about a level: none of it may be hunting.
func TestDetectorDoesNotCryWolf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		memory := rapid.SampledFrom([]float64{0, 0.9, 0.99, 0.999}).Draw(t, "memory")
		x := make([]float64, 2000)
		for i := 1; i < len(x); i++ {
			x[i] = memory*x[i-1] + rng.NormFloat64()
		}
		tolerance := rapid.Float64Range(0.01, 2).Draw(t, "tolerance")
		s := control.DetectHunting(x, time.Second, tolerance)
		assert.NotEqual(t, control.Hunting, s.Verdict, "%+v", s)
	})
}

// Loads that come and go at random look even by chance, but in fewer than one record of
// a thousand.
func TestDetectorSeldomTakesLoadsForHunting(t *testing.T) {
	wrong := 0
	x := make([]float64, 2000)
	for seed := range uint64(2000) {
		rng := rand.New(rand.NewPCG(seed, 5))
		tolerance, load := 0.01+2*rng.Float64(), 0.0
		for i := 1; i < len(x); i++ {
			if rng.Float64() < 0.01 {
				load = 2 * rng.NormFloat64()
			}
			x[i] = 0.97*x[i-1] + 0.03*load + 0.01*rng.NormFloat64()
		}
		if control.DetectHunting(x, time.Second, tolerance).Verdict == control.Hunting {
			wrong++
		}
	}
	assert.Less(t, wrong, 2)
}

// Whatever the record holds, there is a verdict, with a doubt if it is undecided.
func TestDetectorTakesAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64(), 0, 60).Draw(t, "record")
		s := control.DetectHunting(x, time.Second, rapid.Float64().Draw(t, "tolerance"))
		assert.Equal(t, s.Verdict == control.Undecided, s.Doubt != control.NoDoubt, "%+v", s)
	})
	assert.Equal(t, control.NoRecord, control.DetectHunting(wave(sine, 100, 20, 1e200, 0), time.Second, 1).Doubt)
}
