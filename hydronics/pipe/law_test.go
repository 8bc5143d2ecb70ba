package pipe_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/units"
)

// water20 fills in a config: water at 20 °C in 24 m of DN25 steel pipe.
func water20() pipe.Config {
	return pipe.Config{
		Length:    24 * units.Metre,
		Bore:      27.3 * units.Millimetre,
		Roughness: pipe.CommercialSteel.Roughness(),
		Density:   998.2 * units.KilogramPerCubicMetre,
		Viscosity: 1.002 * units.MillipascalSecond,
	}
}

func mustNew(t testing.TB, cfg pipe.Config) pipe.Pipe {
	t.Helper()
	p, err := pipe.New(cfg)
	require.NoError(t, err)
	return p
}

// flowAt returns the flow that has a Reynolds number in p.
func flowAt(p pipe.Pipe, re float64) units.Flow {
	return units.Flow(re/p.Reynolds(units.CubicMetrePerSecond)) * units.CubicMetrePerSecond
}

var roughnesses = []float64{0, 1e-7, 1e-6, 1e-5, 5e-5, 1e-4, 3e-4, 1e-3, 3e-3, 0.01, 0.02, 0.03, 0.04, 0.05}

// TestMonotoneAcrossRegimes walks densely through the three regimes.
func TestMonotoneAcrossRegimes(t *testing.T) {
	for _, roughness := range roughnesses {
		cfg := water20()
		cfg.Roughness = units.Length(roughness) * cfg.Bore
		p := mustNew(t, cfg)
		before, _ := p.PressureAndSlope(flowAt(p, 100))
		for re := 100.5; re < 20000; re += 0.5 {
			dp, slope := p.PressureAndSlope(flowAt(p, re))
			if !(dp > before && slope > 0) {
				t.Fatalf("Δp %v after %v, slope %v at Re %v, roughness %v", dp, before, slope, re, roughness)
			}
			before = dp
		}
	}
}

// TestNoJumps compares both sides of each joint: value and slope.
func TestNoJumps(t *testing.T) {
	for _, roughness := range roughnesses {
		cfg := water20()
		cfg.Roughness = units.Length(roughness) * cfg.Bore
		cfg.Losses = pipe.Loss{Constant: 3, Laminar: 2000}
		p := mustNew(t, cfg)
		for _, joint := range []float64{2000, 4000} {
			below, slopeBelow := p.PressureAndSlope(flowAt(p, joint*(1-1e-9)))
			above, slopeAbove := p.PressureAndSlope(flowAt(p, joint*(1+1e-9)))
			assert.InEpsilon(t, float64(below), float64(above), 1e-7, "Δp at Re %v, roughness %v", joint, roughness)
			assert.InEpsilon(t, slopeBelow, slopeAbove, 1e-7, "slope at Re %v, roughness %v", joint, roughness)
		}
	}
}

// TestSlopeIsTheDerivative compares with a central difference.
func TestSlopeIsTheDerivative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPipe(t)
		re := math.Pow(10, rapid.Float64Range(0, 7).Draw(t, "log Re"))
		if math.Abs(re-2000) < 20 || math.Abs(re-4000) < 40 {
			t.Skip("the second derivative jumps at the joints")
		}
		q := flowAt(p, re)
		h := 1e-4 * q
		difference := float64(p.Pressure(q+h)-p.Pressure(q-h)) / float64(2*h)
		assert.InEpsilon(t, difference, p.PressureSlope(q), 1e-6)
		dp := p.Pressure(q)
		assert.InEpsilon(t, 1, p.PressureSlope(q)*p.Slope(dp), 1e-11)
		both, slope := p.PressureAndSlope(q)
		assert.Equal(t, [2]float64{float64(dp), p.PressureSlope(q)}, [2]float64{float64(both), slope})
	})
}

// drawPipe makes any pipe that a building may have, and some that none has.
func drawPipe(t *rapid.T) pipe.Pipe {
	bore := math.Pow(10, rapid.Float64Range(-3, 0).Draw(t, "log bore"))
	p, err := pipe.New(pipe.Config{
		Length:    units.Length(math.Pow(10, rapid.Float64Range(-2, 4).Draw(t, "log length"))) * units.Metre,
		Bore:      units.Length(bore) * units.Metre,
		Roughness: units.Length(bore*rapid.Float64Range(0, 0.05).Draw(t, "roughness")) * units.Metre,
		Losses: pipe.Loss{
			Constant: rapid.Float64Range(0, 1000).Draw(t, "K"),
			Laminar:  rapid.Float64Range(0, 1e5).Draw(t, "K1"),
		},
		Density:   units.Density(rapid.Float64Range(700, 1300).Draw(t, "density")) * units.KilogramPerCubicMetre,
		Viscosity: units.DynamicViscosity(math.Pow(10, rapid.Float64Range(-4, -1).Draw(t, "log viscosity"))) * units.PascalSecond,
	})
	require.NoError(t, err)
	return p
}

func TestFlowInvertsPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPipe(t)
		re := math.Pow(10, rapid.Float64Range(-6, 9).Draw(t, "log Re"))
		q := flowAt(p, re)
		assert.InEpsilon(t, float64(q), float64(p.Flow(p.Pressure(q))), 1e-12)
		assert.InEpsilon(t, float64(-q), float64(p.Flow(p.Pressure(-q))), 1e-12)
	})
}

// TestFlowInvertsPressureDensely walks through the joints of the inverse.
func TestFlowInvertsPressureDensely(t *testing.T) {
	var worst float64
	for _, roughness := range roughnesses {
		for _, losses := range []pipe.Loss{{}, {Constant: 5}, {Constant: 500, Laminar: 1e5}} {
			cfg := water20()
			cfg.Roughness = units.Length(roughness) * cfg.Bore
			cfg.Losses = losses
			p := mustNew(t, cfg)
			for re := 1.0; re < 1e8; re *= 1.003 {
				q := flowAt(p, re)
				worst = max(worst, math.Abs(float64(p.Flow(p.Pressure(q))/q)-1))
			}
		}
	}
	t.Logf("worst relative difference: %.2g", worst)
	assert.Less(t, worst, 1e-12)
}

// TestLaminarPipe compares with the law of Hagen and Poiseuille in its own form.
func TestLaminarPipe(t *testing.T) {
	cfg := water20()
	p := mustNew(t, cfg)
	q := 0.02 * units.LitrePerSecond
	require.Less(t, p.Reynolds(q), 2000.0)
	r := float64(cfg.Bore) / 2
	want := 8 * float64(cfg.Viscosity) * float64(cfg.Length) * float64(q) / (math.Pi * r * r * r * r)
	assert.InEpsilon(t, want, float64(p.Pressure(q)), 1e-14)
}

// TestLossesAdd: a pipe with losses differs from one without by K·ρv²/2.
func TestLossesAdd(t *testing.T) {
	cfg := water20()
	plain := mustNew(t, cfg)
	cfg.Losses = pipe.Loss{Constant: 2.5, Laminar: 4000}
	fitted := mustNew(t, cfg)
	for _, q := range []units.Flow{0.01 * units.LitrePerSecond, 0.06 * units.LitrePerSecond, 0.4 * units.LitrePerSecond} {
		v := float64(plain.Velocity(q))
		want := cfg.Losses.At(plain.Reynolds(q)) * float64(cfg.Density) * v * v / 2
		assert.InEpsilon(t, want, float64(fitted.Pressure(q)-plain.Pressure(q)), 1e-10)
		assert.InEpsilon(t, float64(plain.Gradient(q)), float64(fitted.Gradient(q)), 1e-12)
	}
}

// TestRebaseKeepsPressure: the same fitting stated by another bore, at one flow.
func TestRebaseKeepsPressure(t *testing.T) {
	const narrow, wide = 20 * units.Millimetre, 32 * units.Millimetre
	loss := pipe.Loss{Constant: 1.4, Laminar: 800}
	q := 0.05 * units.LitrePerSecond
	pressure := func(loss pipe.Loss, bore units.Length) float64 {
		cfg := water20()
		cfg.Bore = bore
		p := mustNew(t, cfg)
		v := float64(p.Velocity(q))
		return loss.At(p.Reynolds(q)) * v * v
	}
	assert.InEpsilon(t, pressure(loss, narrow), pressure(loss.Rebase(narrow, wide), wide), 1e-14)
}

func TestLossArithmetic(t *testing.T) {
	got := pipe.Loss{Constant: 0.5, Laminar: 100}.Times(3).Plus(pipe.Loss{Constant: 1, Laminar: 50})
	assert.Equal(t, pipe.Loss{Constant: 2.5, Laminar: 350}, got)
	assert.Equal(t, 6.0, got.At(100))
}

// TestZeroAndBeyond: the ends of the argument's range.
func TestZeroAndBeyond(t *testing.T) {
	smooth := water20()
	smooth.Roughness = 0
	for _, p := range []pipe.Pipe{mustNew(t, water20()), mustNew(t, smooth)} {
		assert.Zero(t, p.Pressure(0))
		assert.Zero(t, p.Flow(0))
		assert.Positive(t, p.PressureSlope(0))
		assert.InEpsilon(t, 1, p.PressureSlope(0)*p.Slope(0), 1e-14)
		assert.True(t, math.IsInf(p.FrictionFactor(0), 1))
		assert.True(t, math.IsNaN(float64(p.Pressure(units.Flow(math.NaN())))))
		assert.True(t, math.IsNaN(float64(p.Flow(units.Pressure(math.NaN())))))
		assert.True(t, math.IsNaN(p.PressureSlope(units.Flow(math.NaN()))))
		assert.True(t, math.IsInf(float64(p.Pressure(units.Flow(math.Inf(-1)))), -1))
		assert.True(t, math.IsInf(float64(p.Flow(units.Pressure(math.Inf(1)))), 1))
		assert.Equal(t, -p.Pressure(units.LitrePerSecond), p.Pressure(-units.LitrePerSecond))
		assert.InEpsilon(t, 1e100, float64(p.Flow(p.Pressure(1e100))), 1e-12)
	}
	assert.Zero(t, pipe.Pipe{}.Pressure(0))
	assert.True(t, math.IsNaN(float64(pipe.Pipe{}.Flow(0))))
}

func TestFrictionOfPipe(t *testing.T) {
	p := mustNew(t, water20())
	for _, re := range []float64{500, 2000, 3000, 4000, 1e5} {
		want, err := pipe.FrictionFactor(re, float64(p.Config().Roughness/p.Config().Bore))
		require.NoError(t, err)
		assert.InEpsilon(t, want, p.FrictionFactor(flowAt(p, re)), 1e-12)
	}
}

func TestNewReportsEveryFault(t *testing.T) {
	_, err := pipe.New(pipe.Config{Bore: -1, Losses: pipe.Loss{Constant: -1, Laminar: math.Inf(1)}, Viscosity: units.DynamicViscosity(math.NaN())})
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{"Length", "Bore", "Losses.Constant", "Losses.Laminar", "Density", "Viscosity"} {
		assert.ErrorContains(t, err, "pipe: "+field+": got")
	}
	cfg := water20()
	cfg.Roughness = 2 * units.Millimetre
	_, err = pipe.New(cfg)
	assert.EqualError(t, err, "pipe: Roughness: got 2 mm, want 0 m … 1.365 mm")
	assert.Equal(t, water20(), mustNew(t, water20()).Config())
	assert.True(t, mustNew(t, water20()).Equal(mustNew(t, water20())))
	assert.False(t, mustNew(t, water20()).Equal(pipe.Pipe{}))
}

// TestExtremeReynolds: numbers all over, up to the ends that the doc states.
func TestExtremeReynolds(t *testing.T) {
	for _, roughness := range []float64{0, 5e-324, 1e-300, 1e-100, 1e-9, 0.05} {
		before := 1.0
		for re := 1e4; re <= pipe.MaxReynolds; re *= 10 {
			f, err := pipe.Colebrook(re, roughness)
			require.NoError(t, err)
			// Back into the formula as it is written.
			root := 1 / math.Sqrt(f)
			require.InEpsilon(t, root, -2*math.Log10(roughness/3.7+2.51*root/re), 1e-13, "Re %v, ε/D %v", re, roughness)
			require.LessOrEqual(t, f, before)
			before = f
		}
		for _, re := range []float64{1.01 * pipe.MaxReynolds, 1e158, math.MaxFloat64} {
			_, err := pipe.Colebrook(re, roughness)
			require.ErrorContains(t, err, "want a Reynolds number of 2000 … 1e150")
			_, err = pipe.FrictionFactor(re, roughness)
			require.ErrorContains(t, err, "want a Reynolds number of 1e-150 … 1e150")
		}
	}
	least, err := pipe.FrictionFactor(pipe.MinReynolds, 0.01)
	require.NoError(t, err)
	assert.InEpsilon(t, 64e150, least, 1e-15)
	_, err = pipe.FrictionFactor(5e-324, 0.01)
	require.ErrorIs(t, err, units.ErrInvalid)
}

// TestExtremeFlows: a pipe has no error to return, and infinity beyond its range; it
// never has NaN.
func TestExtremeFlows(t *testing.T) {
	smooth := water20()
	smooth.Roughness = 0
	for _, p := range []pipe.Pipe{mustNew(t, water20()), mustNew(t, smooth)} {
		before := units.Pressure(0)
		for q := 1e-300; q < 1e306; q *= 7 {
			dp, slope := p.PressureAndSlope(units.Flow(q))
			require.True(t, dp >= before && slope > 0, "%v", q)
			require.True(t, p.FrictionFactor(units.Flow(q)) > 0, "%v", q)
			require.False(t, math.IsNaN(float64(p.Gradient(units.Flow(q)))))
			before = dp
		}
		assert.True(t, math.IsInf(float64(p.Pressure(1e150)), 1))
		assert.True(t, math.IsInf(float64(p.Pressure(-1e150)), -1))
	}
}

func TestFrictionDomain(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name          string
		re, roughness float64
		laminar       bool // accepted by FrictionFactor, refused by Colebrook
	}{
		{"zero Re", 0, 1e-3, false},
		{"negative Re", -1e5, 1e-3, false},
		{"infinite Re", math.Inf(1), 1e-3, false},
		{"no Re", nan, 1e-3, false},
		{"negative roughness", 1e5, -1e-9, false},
		{"roughness of the diameter", 1e5, 1, false},
		{"no roughness", 1e5, nan, false},
		{"laminar", 1999, 1e-3, true},
	} {
		_, err := pipe.Colebrook(c.re, c.roughness)
		assert.ErrorIs(t, err, units.ErrInvalid, c.name)
		_, err = pipe.FrictionFactor(c.re, c.roughness)
		assert.Equal(t, c.laminar, err == nil, c.name)
	}
}

func TestNoAllocations(t *testing.T) {
	cfg := water20()
	cfg.Losses = pipe.Loss{Constant: 4, Laminar: 3000}
	p := mustNew(t, cfg)
	var sum float64
	q, dp := 0.4*units.LitrePerSecond, 5*units.Kilopascal
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		f, _ := pipe.Colebrook(1e5, 1e-4)
		g, _ := pipe.FrictionFactor(3e3, 1e-4)
		both, slope := p.PressureAndSlope(q)
		sum += f + g + slope + float64(both) + float64(p.Pressure(q)) + float64(p.Flow(dp)) + p.Slope(dp) + float64(p.Gradient(q))
	}))
	assert.NotZero(t, sum)
}

// The ends of the transition, which are this package's: beside them the factor is that
// of the laminar law and of Colebrook, and within no longer.
func TestEndsOfTheTransition(t *testing.T) {
	const roughness = 1e-3
	factor := func(re float64) float64 {
		f, err := pipe.FrictionFactor(re, roughness)
		require.NoError(t, err)
		return f
	}
	turbulent := func(re float64) float64 {
		f, err := pipe.Colebrook(re, roughness)
		require.NoError(t, err)
		return f
	}
	assert.InEpsilon(t, 64/(2000-1e-3), factor(2000-1e-3), 1e-14)
	assert.Greater(t, math.Abs(factor(2000+1e-2)*(2000+1e-2)/64-1), 1e-12)
	assert.InEpsilon(t, turbulent(4000+1e-3), factor(4000+1e-3), 1e-14)
	assert.Greater(t, math.Abs(factor(4000-2e-2)/turbulent(4000-2e-2)-1), 1e-12)
}
