package control_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/control"
)

// hour is a record of 3600 values at 1 s with a sine of a size that changes with time, and
// noise.
func hour(period float64, size func(t float64) float64, noise float64) []float64 {
	rng := rand.New(rand.NewPCG(7, 11))
	x := make([]float64, 3600)
	for i := range x {
		t := float64(i)
		x[i] = size(t)*sine(t/period) + noise*rng.NormFloat64()
	}
	return x
}

// since is a size that is there from a share of the record on.
func since(share, size float64) func(float64) float64 {
	return func(t float64) float64 {
		if t < 3600*share {
			return 0
		}
		return size
	}
}

// growing is a size that comes to its end with a time constant.
func growing(end, constant float64) func(float64) float64 {
	return func(t float64) float64 { return end * math.Exp((t-3600)/constant) }
}

// A swing that has come late, or grows, is found, though the power of the whole record is
// below that of a sine of the tolerance.
func TestHuntingThatBeganLate(t *testing.T) {
	for name, c := range map[string]struct {
		size      func(float64) float64
		amplitude float64 // 0: that of a growing swing has no one figure
	}{
		"last 25 %":             {since(0.75, 0.5), 0.5},
		"last 12 %":             {since(0.88, 0.8), 0.8},
		"last 10 %":             {since(0.9, 0.9), 0.9},
		"last 9 %":              {since(0.91, 0.9), 0.9},
		"just beyond":           {since(0.75, 0.33), 0.33},
		"grows in 300 s":        {growing(0.9, 300), 0},
		"grows in 600 s":        {growing(0.7, 600), 0},
		"grows in 900 s":        {growing(0.6, 900), 0},
		"grows beyond in 300 s": {growing(3, 300), 0},
		"after a ring":          {func(t float64) float64 { return 5*math.Exp(-t/150) + since(0.85, 0.6)(t) }, 0.6},
	} {
		for _, noise := range []float64{0, 0.02, 0.1} {
			t.Run(name, func(t *testing.T) {
				s := control.DetectHunting(hour(60, c.size, noise), time.Second, 0.3)
				require.Equal(t, control.Hunting, s.Verdict, "noise %v: %+v", noise, s)
				assert.GreaterOrEqual(t, s.Cycles, 3.0)
				assert.InEpsilon(t, 60, s.Period.Seconds(), 0.05)
				assert.Greater(t, s.Amplitude, 0.3)
				if c.amplitude > 0 {
					assert.True(t, s.LastHalf)
					assert.InEpsilon(t, c.amplitude, s.Amplitude, 0.1)
				}
			})
		}
	}
}

// A late swing of too few cycles, one that grows to e times its size in each of them, a fast
// one and one that has just ended are in doubt, not steady.
func TestLateSwingInDoubt(t *testing.T) {
	ended := func(t float64) float64 { return since(0.8, 0.9)(t) - since(0.9, 0.9)(t) }
	ring := func(t float64) float64 { return since(0.9, 1.5)(t) * math.Exp((3600*0.9-t)/200) }
	step := make([]float64, 3600)
	for i := 3570; i < len(step); i++ {
		step[i] = 1.5
	}
	for name, c := range map[string]struct {
		x     []float64
		doubt control.Doubt
	}{
		"two cycles":        {hour(60, since(1-120.0/3600, 1.5), 0), control.TooFewCycles},
		"e times a cycle":   {hour(60, growing(2, 60), 0), control.TooFewCycles},
		"a late step":       {step, control.TooFewCycles},
		"a late ring":       {hour(60, ring, 0), control.Dying},
		"has just ended":    {hour(60, ended, 0), control.Irregular},
		"alternating, late": {hour(2.1, since(0.92, 0.9), 0), control.TooCoarse},
	} {
		t.Run(name, func(t *testing.T) {
			s := control.DetectHunting(c.x, time.Second, 0.3)
			assert.Equal(t, control.Undecided, s.Verdict, "%+v", s)
			assert.Equal(t, c.doubt.String(), s.Doubt.String(), "%+v", s)
			assert.True(t, s.LastHalf)
		})
	}
}

// Ends of a swing within the tolerance stay steady, wherever they begin.
func TestSwingWithinToleranceStaysSteady(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		period := rapid.Float64Range(20, 3600).Draw(t, "period")
		phase := rapid.Float64Range(0, 1).Draw(t, "phase")
		x := make([]float64, 3600)
		for i := range x {
			x[i] = 0.28 * sine(float64(i)/period+phase)
		}
		s := control.DetectHunting(x, time.Second, 0.3)
		assert.Equal(t, control.Steady, s.Verdict, "%+v", s)
	})
}

// Noise stays steady, white noise of the tolerance as well as slow noise within it, but for one
// record in a hundred that leaves a doubt.
func TestNoiseStaysSteady(t *testing.T) {
	for name, c := range map[string]struct{ memory, size float64 }{"white": {0, 1}, "strong": {0, 2}, "slow": {0.9, 0.4}} {
		t.Run(name, func(t *testing.T) {
			const records = 100
			doubts := 0
			for seed := range uint64(records) {
				rng := rand.New(rand.NewPCG(seed, 9))
				x := make([]float64, 3600)
				for i := 1; i < len(x); i++ {
					x[i] = c.memory*x[i-1] + c.size*math.Sqrt(1-c.memory*c.memory)*rng.NormFloat64()
				}
				s := control.DetectHunting(x, time.Second, 1)
				require.NotEqual(t, control.Hunting, s.Verdict, "%+v", s)
				if s.Verdict == control.Undecided {
					doubts++
				}
			}
			assert.LessOrEqual(t, doubts, records/100)
		})
	}
}

// Whenever a swing beyond the tolerance begins, the record is not steady; with five cycles and
// more, by then or growing for as long, it is hunting.
func TestLateSwingIsNeverSteady(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		period := rapid.Float64Range(30, 300).Draw(t, "period")
		cycles := rapid.Float64Range(2, 12).Draw(t, "cycles")
		amplitude := rapid.Float64Range(0.45, 1.5).Draw(t, "amplitude")
		size := since(1-cycles*period/3600, amplitude)
		if rapid.Bool().Draw(t, "growing") {
			size = growing(amplitude, cycles*period/math.Log(amplitude/0.3))
		}
		s := control.DetectHunting(hour(period, size, rapid.Float64Range(0, 0.05).Draw(t, "noise")), time.Second, 0.3)
		assert.NotEqual(t, control.Steady, s.Verdict, "%+v", s)
		if cycles >= 5 {
			assert.Equal(t, control.Hunting, s.Verdict, "%+v", s)
		}
	})
}

func TestLookingForALateSwingDoesNotAllocate(t *testing.T) {
	for _, x := range [][]float64{hour(60, since(0.9, 0.9), 0.02), hour(60, growing(2, 60), 0), hour(60, growing(3, 300), 0)} {
		assert.Zero(t, testing.AllocsPerRun(10, func() { control.DetectHunting(x, time.Second, 0.3) }))
	}
}
