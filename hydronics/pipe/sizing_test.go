package pipe_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/units"
)

// steelSizing is 300 Pa/m and 1.0 m/s in steel tube, water at 20 °C.
func steelSizing() pipe.SizingConfig {
	return pipe.SizingConfig{
		Sizes:       pipe.EN10255Medium(),
		Roughness:   pipe.CommercialSteel.Roughness(),
		Density:     998.2 * units.KilogramPerCubicMetre,
		Viscosity:   1.002 * units.MillipascalSecond,
		MaxGradient: 300 * units.PascalPerMetre,
		MaxVelocity: 1 * units.MetrePerSecond,
	}
}

func mustSizing(t testing.TB, cfg pipe.SizingConfig) pipe.Sizing {
	t.Helper()
	s, err := pipe.NewSizing(cfg)
	require.NoError(t, err)
	return s
}

// TestSmallestIsSmallest checks each choice with a pipe of its own: it keeps the
// limits, and the next smaller one breaks the limit it is said to break.
func TestSmallestIsSmallest(t *testing.T) {
	cfg := steelSizing()
	s := mustSizing(t, cfg)
	rapid.Check(t, func(t *rapid.T) {
		q := units.Flow(math.Pow(10, rapid.Float64Range(-3, 1).Draw(t, "log flow"))) * units.LitrePerSecond
		choice, err := s.Smallest(q)
		require.NoError(t, err)
		within := func(size pipe.Size) (gradient, velocity bool) {
			p, err := pipe.New(pipe.Config{Length: units.Metre, Bore: size.Bore(), Roughness: cfg.Roughness,
				Density: cfg.Density, Viscosity: cfg.Viscosity})
			require.NoError(t, err)
			return p.Pressure(q) <= cfg.MaxGradient.Over(units.Metre), p.Velocity(q) <= cfg.MaxVelocity
		}
		gradient, velocity := within(choice.Size)
		assert.True(t, gradient && velocity, "%v", choice)
		assert.Equal(t, pipe.NoLimit, choice.Exceeds)
		if choice.Smaller.Size == (pipe.Size{}) {
			assert.Equal(t, cfg.Sizes[0], choice.Size)
			return
		}
		gradient, velocity = within(choice.Smaller.Size)
		assert.False(t, gradient && velocity, "%v", choice)
		assert.Equal(t, choice.Smaller.Exceeds, choice.Governs)
		assert.False(t, gradient && choice.Governs == pipe.GradientLimit, "%v", choice)
		assert.False(t, velocity && choice.Governs == pipe.VelocityLimit, "%v", choice)
		assert.Less(t, choice.Smaller.Size.Bore(), choice.Size.Bore())
	})
}

func TestEachLimitAlone(t *testing.T) {
	cfg := steelSizing()
	q := 5 * units.LitrePerSecond
	cfg.MaxGradient = 0
	byVelocity, err := mustSizing(t, cfg).Smallest(q)
	require.NoError(t, err)
	assert.Equal(t, pipe.VelocityLimit, byVelocity.Governs)
	cfg = steelSizing()
	cfg.MaxVelocity = 0
	byGradient, err := mustSizing(t, cfg).Smallest(q)
	require.NoError(t, err)
	assert.Equal(t, pipe.GradientLimit, byGradient.Governs)
	assert.Less(t, byGradient.Size.Bore(), byVelocity.Size.Bore())
}

// TestCapacityIsAtTheLimit: at the capacity one limit is met and none broken.
func TestCapacityIsAtTheLimit(t *testing.T) {
	cfg := steelSizing()
	s := mustSizing(t, cfg)
	capacities := s.Capacities()
	require.Len(t, capacities, len(cfg.Sizes))
	limits := map[pipe.Limit]bool{}
	for _, c := range capacities {
		p, err := pipe.New(pipe.Config{Length: units.Metre, Bore: c.Size.Bore(), Roughness: cfg.Roughness,
			Density: cfg.Density, Viscosity: cfg.Viscosity})
		require.NoError(t, err)
		share := map[pipe.Limit]float64{
			pipe.GradientLimit: float64(p.Gradient(c.Flow) / cfg.MaxGradient),
			pipe.VelocityLimit: float64(p.Velocity(c.Flow) / cfg.MaxVelocity),
		}
		assert.InEpsilon(t, 1, share[c.Limit], 1e-12, "%v", c)
		assert.Less(t, max(share[pipe.GradientLimit], share[pipe.VelocityLimit]), 1+1e-12, "%v", c)
		limits[c.Limit] = true
	}
	assert.Len(t, limits, 2, "small pipes are limited by the gradient, large ones by the velocity")
}

func TestTableIsSortedAndCopied(t *testing.T) {
	cfg := steelSizing()
	want, err := mustSizing(t, cfg).Smallest(0.4 * units.LitrePerSecond)
	require.NoError(t, err)
	for i, j := 0, len(cfg.Sizes)-1; i < j; i, j = i+1, j-1 {
		cfg.Sizes[i], cfg.Sizes[j] = cfg.Sizes[j], cfg.Sizes[i]
	}
	reversed := mustSizing(t, cfg)
	clear(cfg.Sizes)
	got, err := reversed.Smallest(0.4 * units.LitrePerSecond)
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(want, got))
}

func TestTooSmall(t *testing.T) {
	s := mustSizing(t, steelSizing())
	_, err := s.Smallest(100 * units.LitrePerSecond)
	require.ErrorIs(t, err, pipe.ErrNoSize)
	assert.EqualError(t, err, "pipe: no size is large enough: EN 10255 medium DN150 carries 18.89 l/s at most, limited by the velocity, and 100 l/s is wanted")
	_, err = pipe.Sizing{}.Smallest(1 * units.LitrePerSecond)
	require.ErrorIs(t, err, pipe.ErrNoSize)
	for _, q := range []units.Flow{0, -1, units.Flow(math.NaN()), units.Flow(math.Inf(1))} {
		_, err = s.Smallest(q)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
}

func TestSizingReportsEveryFault(t *testing.T) {
	_, err := pipe.NewSizing(pipe.SizingConfig{
		Sizes:     []pipe.Size{{Name: "solid", Outside: 10 * units.Millimetre, Wall: 5 * units.Millimetre}, {Name: "thin", Outside: 2 * units.Millimetre}},
		Roughness: 0.2 * units.Millimetre, Density: -1,
	})
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.EqualError(t, err, "pipe: MaxGradient, MaxVelocity: got neither, want one limit at least\n"+
		"pipe: Density: got -1 kg/m³, want a finite value above zero\n"+
		"pipe: Viscosity: got 0 mPa·s, want a finite value above zero\n"+
		"pipe: Sizes[0] bore: got 0 m, want a finite value above zero\n"+
		"pipe: Roughness: got 0.2 mm, want 0.1 mm at most, which is 0.05 of the bore of Sizes[1], thin")
	_, err = pipe.NewSizing(pipe.SizingConfig{})
	assert.ErrorContains(t, err, "pipe: Sizes: got no size")
}

func TestExplain(t *testing.T) {
	s := mustSizing(t, steelSizing())
	explain := func(q units.Flow) string {
		choice, err := s.Smallest(q)
		require.NoError(t, err)
		return s.Explain(choice)
	}
	assert.Equal(t, "EN 10255 medium DN10 is the smallest size of the table; its limit is the gradient", explain(0.01*units.LitrePerSecond))
	assert.Regexp(t, `^EN 10255 medium DN20 would lose \d+ Pa/m, above 300 Pa/m$`, explain(0.4*units.LitrePerSecond))
	assert.Regexp(t, `^EN 10255 medium DN100 would have 1\.\d\d m/s, above 1\.00 m/s$`, explain(10*units.LitrePerSecond))
}

func TestLimitWords(t *testing.T) {
	assert.Equal(t, []string{"none", "gradient", "velocity", "unknown 9"},
		[]string{pipe.NoLimit.String(), pipe.GradientLimit.String(), pipe.VelocityLimit.String(), pipe.Limit(9).String()})
	choice, err := mustSizing(t, steelSizing()).Smallest(0.4 * units.LitrePerSecond)
	require.NoError(t, err)
	data, err := json.Marshal(choice)
	require.NoError(t, err)
	var back pipe.Choice
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Equal(t, choice, back)
	require.ErrorIs(t, back.Governs.UnmarshalText([]byte("wall")), units.ErrInvalid)
	_, err = pipe.Limit(9).MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
}
