package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

// trapezoid stands still at its ends for half of its period.
func trapezoid(x float64) float64 { return math.Max(-1, math.Min(1, 2*triangle(x))) }

var shapes = map[string]shape{"sine": sine, "triangle": triangle, "trapezoid": trapezoid, "square": rectangle}

// swinging draws n values of a wave on level ground.
func swinging(f shape, n int, period, phase, size float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = size * f(float64(i)/period+phase)
	}
	return x
}

// Whatever the shape, it is the amplitude that decides, by 5 % and more on either side of the
// tolerance. Three cycles counted between turns take up to four and a half.
func TestAmplitudeDecides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := shapes[rapid.SampledFrom([]string{"sine", "triangle", "trapezoid", "square"}).Draw(t, "shape")]
		cycles := math.Pow(10, rapid.Float64Range(math.Log10(4.5), math.Log10(800)).Draw(t, "cycles"))
		period := rapid.Float64Range(60, 140).Draw(t, "period")
		size := rapid.OneOf(rapid.Float64Range(0.3, 0.95), rapid.Float64Range(1.05, 3)).Draw(t, "size")
		x := swinging(f, int(cycles*period), period, rapid.Float64Range(0, 1).Draw(t, "phase"), size)
		s := control.DetectHunting(x, time.Second, 1)
		want := control.Steady
		if size > 1 {
			want = control.Hunting
		}
		require.Equal(t, want, s.Verdict, "%+v", s)
		if s.Cycles > 0 {
			assert.InEpsilon(t, size, s.Amplitude, 0.035)
			assert.InEpsilon(t, period, s.Period.Seconds(), 0.01)
			assert.Greater(t, s.Cycles, cycles-2)
		} else {
			assert.LessOrEqual(t, size, 1.0, "%+v", s)
			assert.LessOrEqual(t, s.Amplitude, 1.0)
		}
	})
}

// A record of three cycles and a little may have too few to count; the power of a sine is rougher then.
func TestAmplitudeOfThreeCycles(t *testing.T) {
	for name, f := range shapes {
		for phase := 0.0; phase < 1; phase += 0.1 {
			for cycles := 3.0; cycles < 4.5; cycles += 0.1 {
				high := control.DetectHunting(swinging(f, int(100.3*cycles), 100.3, phase, 1.4), time.Second, 1)
				assert.NotEqual(t, control.Steady, high.Verdict, "%s %v %v %+v", name, phase, cycles, high)
				low := control.DetectHunting(swinging(f, int(100.3*cycles), 100.3, phase, 0.95), time.Second, 1)
				assert.NotEqual(t, control.Hunting, low.Verdict, "%s %v %v %+v", name, phase, cycles, low)
			}
		}
	}
}

// In noise the amplitude decides, by 15 %.
func TestAmplitudeDecidesInNoise(t *testing.T) {
	for name, f := range shapes {
		for _, noise := range []float64{0.03, 0.1, 0.2} {
			for size, want := range map[float64]control.Verdict{0.85: control.Steady, 1.15: control.Hunting} {
				for _, n := range []int{1500, 3600, 8000} {
					s := control.DetectHunting(wave(f, n, 100.3, size, noise), time.Second, 1)
					assert.Equal(t, want, s.Verdict, "%s %v %v %+v", name, noise, n, s)
				}
			}
		}
	}
}

// A swing that falls below the tolerance in the last half is steady there, of a triangle as well.
func TestAmplitudeOfTheLastHalf(t *testing.T) {
	for name, f := range shapes {
		x := swinging(f, 4000, 100, 0.1, 1)
		for i := range x {
			x[i] *= 1.25
			if i >= 2000 {
				x[i] *= 0.9 / 1.25
			}
		}
		s := control.DetectHunting(x, time.Second, 1)
		assert.Equal(t, control.Steady, s.Verdict, "%s %+v", name, s)
		assert.True(t, s.LastHalf)
		if s.Cycles > 0 {
			assert.InEpsilon(t, 0.9, s.Amplitude, 0.02, name)
		}
	}
}

// The ends of a steady swing have its shape: that noise lifts some of their flat tops beyond the
// tolerance makes none of them hunting or doubtful.
func TestAmplitudeOfEndsInNoise(t *testing.T) {
	for name, f := range shapes {
		for n := 2000; n < 4000; n += 100 {
			s := control.DetectHunting(wave(f, n, 33.3, 0.88, 0.14), time.Second, 1)
			assert.Equal(t, control.Steady, s.Verdict, "%s %v %+v", name, n, s)
		}
	}
}

// Nor does it leave a doubt at the end of a quiet sine, which might be a triangle by its power.
func TestAmplitudeOfQuietEndsInNoise(t *testing.T) {
	for n := 1000; n < 5000; n += 100 {
		s := control.DetectHunting(wave(sine, n, 134.9, 0.8, 0.12), time.Second, 1)
		assert.Equal(t, control.Steady, s.Verdict, "%v %+v", n, s)
	}
}

// In noise a triangle of many values to the cycle loses less than 2 % at its points.
func TestAmplitudeOfPointsInNoise(t *testing.T) {
	s := control.DetectHunting(wave(triangle, 20000, 800.7, 1, 0.03), time.Second, 0.5)
	assert.InEpsilon(t, 1, s.Amplitude, 0.02, "%+v", s)
}

// A late swing of any shape counts by its amplitude.
func TestAmplitudeOfALateSwing(t *testing.T) {
	for name, f := range shapes {
		for size, want := range map[float64]control.Verdict{0.9: control.Steady, 1.15: control.Hunting} {
			x := swinging(f, 4000, 100, 0.1, size)
			clear(x[:3000])
			s := control.DetectHunting(x, time.Second, 1)
			assert.Equal(t, want, s.Verdict, "%s %v %+v", name, size, s)
		}
	}
}

// The limit cycle that a thermal actuator's slow modulation leaves on a plant is a round saw: half
// of what the simulation swings from peak to peak is what decides.
func TestAmplitudeOfARealLimitCycle(t *testing.T) {
	element := newThermal(t, control.ThermalConfig{
		Cycle: time.Minute, OpeningDelay: 50 * time.Second, OpeningTime: 200 * time.Second, TimeConstant: 2 * time.Minute,
	})
	plant := newPlant(t, 150*time.Second, 20*time.Second, linear(30), units.Celsius(5))
	cfg := control.LoopConfig{Element: &element, Plant: plant}
	still := control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(5)}
	process, err := cfg.Process(still, 0.1)
	require.NoError(t, err)
	cfg.Controller = newController(t, control.Config{Tuning: control.SIMC(process, 0)})
	loop, err := control.NewLoop(cfg)
	require.NoError(t, err)
	loop.Settle(still)
	series := control.NewSeries(time.Second, 8*time.Hour)
	loop.Run(stays(still), &series)
	settled := series.Between(4*time.Hour, 8*time.Hour)
	low, high := math.Inf(1), math.Inf(-1)
	for _, d := range settled.Deviation {
		low, high = math.Min(low, float64(d)), math.Max(high, float64(d))
	}
	half := units.TemperatureDifference((high - low) / 2)
	for share, want := range map[units.TemperatureDifference]control.Verdict{1.02: control.Steady, 0.98: control.Hunting} {
		s := control.DetectHunting(settled.Deviation, settled.Step, share*half)
		assert.Equal(t, want, s.Verdict, "%v %+v", half, s)
		assert.InEpsilon(t, float64(half), float64(s.Amplitude), 0.015)
	}
}

// A swing whose peaks are values of the record has their height for its amplitude.
func TestAmplitudeIsHalfTheSwing(t *testing.T) {
	for _, tolerance := range []float64{0.5, 0.8} {
		s := control.DetectHunting(swinging(sine, 4000, 100, 0, 0.7), time.Second, tolerance)
		assert.InEpsilon(t, 0.7, s.Amplitude, 1e-12, "%+v", s)
		assert.Equal(t, 100*time.Second, s.Period)
	}
}

// In a noise that cancels over each two values, the flat parts of the mean cycle are what the
// wave is there.
func TestAmplitudeOfTheMeanCycle(t *testing.T) {
	x := swinging(rectangle, 4000, 96, 0, 0.7)
	for i := range x {
		x[i] += 0.05 * float64(1-i%2*2)
	}
	s := control.DetectHunting(x, time.Second, 0.5)
	assert.Equal(t, control.Hunting, s.Verdict, "%+v", s)
	assert.InEpsilon(t, 0.7, s.Amplitude, 1e-12)
}

// Values that alternate by ±a have second differences of ±4a: the noise is 4a/√6.
func TestNoiseOfAlternatingValues(t *testing.T) {
	x := make([]float64, 100)
	for i := range x {
		x[i] = 0.3 * float64(1-i%2*2)
	}
	s := control.DetectHunting(x, time.Second, 1)
	assert.InEpsilon(t, 4*0.3/math.Sqrt(6), float64(s.Noise), 1e-12)
}

// Of whole cycles of a cosine about the middle, which has no slope, the mean square is a²/2; its
// second differences are −4·sin²(ω/2) times itself. The amplitude of such a steady record is that of
// a sine with the power less the noise; a straight line beneath it is no part of either.
func TestAmplitudeByPower(t *testing.T) {
	const n, cycles, a = 400, 8, 0.2
	w := 2 * math.Pi * cycles / n
	x := make([]float64, n)
	inner := 0.0
	for i := range x {
		x[i] = a * math.Cos(w*(float64(i)-(n-1)/2.0))
		if i > 0 && i < n-1 {
			inner += x[i] * x[i]
		}
	}
	noise := 16 * math.Pow(math.Sin(w/2), 4) * inner / 6 / (n - 2)
	for i := range x {
		x[i] += 50 + 0.5*float64(i)
	}
	s := control.DetectHunting(x, time.Second, 1)
	assert.Equal(t, control.Steady, s.Verdict)
	assert.InEpsilon(t, math.Sqrt(noise), s.Noise, 1e-9)
	assert.InEpsilon(t, math.Sqrt(2*(a*a/2-noise)), s.Amplitude, 1e-9)
}
