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

// The step response in closed form, Gain·(1 − e^(−(t−θ)/τ)), for steps that divide the
// dead time and steps that do not.
func TestPlantStepResponse(t *testing.T) {
	const lag, dead, most = 300.0, 47.0, 12.0
	base := units.Celsius(10)
	for _, step := range []float64{0.5, 1, 7, 13.7, 47, 60, 500} {
		p := newPlant(t, seconds(lag), seconds(dead), linear(most), base)
		for k := 1; k < 100; k++ {
			got := float64(p.Step(seconds(step), 1, base).Sub(base))
			since := float64(k)*step - dead
			if since <= 0 {
				assert.Zero(t, got, "dead time is exact")
				continue
			}
			assert.InDelta(t, most*-math.Expm1(-since/lag), got, 1e-10, "step %v, time %v", step, float64(k)*step)
		}
	}
}

// A change of base acts at once, the heat under way comes out behind it.
func TestPlantBaseHasNoDeadTime(t *testing.T) {
	p := newPlant(t, time.Minute, time.Minute, linear(10), units.Celsius(0))
	p.Settle(0.5, units.Celsius(15))
	assert.InDelta(t, 20, p.Temperature().Celsius(), 1e-9)
	assert.InDelta(t, 20-10*-math.Expm1(-0.5), p.Step(30*time.Second, 0.5, units.Celsius(5)).Celsius(), 1e-9)
	assert.Equal(t, p.Temperature(), p.Step(0, 1, units.Celsius(90)), "no time, no change")
	assert.Equal(t, p.Temperature(), p.Step(-time.Hour, 1, units.Celsius(90)))
}

// A base that the heat depends on acts on the heat at once as well: of a travel, a base
// and a curve f·(60 °C − base) the end is base + f·(60 °C − base)/C.
func TestPlantHeatFollowsItsBase(t *testing.T) {
	heat := control.HeatCurve(func(h float64, base units.Temperature) units.Power {
		return units.Power(h * float64(units.Celsius(60).Sub(base)))
	})
	p := newPlant(t, time.Minute, time.Minute, heat, units.Celsius(10))
	p.Settle(0.4, units.Celsius(10))
	assert.InDelta(t, 30, p.Temperature().Celsius(), 1e-9)
	got := p.Step(30*time.Second, 0.9, units.Celsius(0))
	assert.InDelta(t, 24+6*math.Exp(-0.5), got.Celsius(), 1e-9, "the travel is still under way")
	assert.InDelta(t, 54, p.Step(time.Hour, 0.9, units.Celsius(0)).Celsius(), 1e-6)
}

// However the time is split, the result is the same, even with steps shorter than the
// memory was laid out for as long as the travel stays.
func TestPlantDoesNotMindHowTimeIsSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dead := seconds(rapid.Float64Range(0, 200).Draw(t, "dead"))
		a := newPlant(t, 90*time.Second, dead, linear(25), units.Celsius(15))
		b := newPlant(t, 90*time.Second, dead, linear(25), units.Celsius(15))
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			travel := rapid.Float64Range(0, 1).Draw(t, "travel")
			base := units.Celsius(rapid.Float64Range(5, 20).Draw(t, "base"))
			dt := seconds(rapid.Float64Range(0.2, 60).Draw(t, "dt"))
			a.Step(dt, travel, base)
			parts := time.Duration(rapid.IntRange(1, 20).Draw(t, "parts"))
			for range parts - 1 {
				b.Step(dt/parts, travel, base)
			}
			b.Step(dt-(parts-1)*(dt/parts), travel, base)
			assert.InDelta(t, a.Temperature().Celsius(), b.Temperature().Celsius(), 1e-9)
		}
	})
}

// Steps far shorter than LeastStep are averaged: the temperature is off by no more than
// LeastStep of heat makes, and nothing is lost in the end.
func TestPlantAveragesShortSteps(t *testing.T) {
	plant := func(least time.Duration) *control.Plant {
		p, err := control.NewPlant(control.PlantConfig{
			Conductance: units.WattPerKelvin, TimeConstant: 100 * time.Second, DeadTime: 20 * time.Second, LeastStep: least,
		}, linear(10), 0, units.Celsius(20))
		require.NoError(t, err)
		return p
	}
	rough, exact := plant(time.Second), plant(10*time.Millisecond)
	for i := range 20000 {
		travel := float64(i / 37 % 2)
		a := rough.Step(10*time.Millisecond, travel, units.Celsius(20))
		b := exact.Step(10*time.Millisecond, travel, units.Celsius(20))
		assert.InDelta(t, 0, float64(a.Sub(b)), 10*1.0/100)
	}
	for range 3000 {
		rough.Step(10*time.Millisecond, 0, units.Celsius(20))
		exact.Step(10*time.Millisecond, 0, units.Celsius(20))
	}
	assert.InDelta(t, 0, float64(rough.Temperature().Sub(exact.Temperature())), 2e-3)
}

// Between base and base + the greatest rise, and higher for more travel.
func TestPlantIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dead := seconds(rapid.Float64Range(0, 30).Draw(t, "dead"))
		low := newPlant(t, time.Minute, dead, linear(25), units.Celsius(15))
		high := newPlant(t, time.Minute, dead, linear(25), units.Celsius(15))
		for range rapid.IntRange(1, 50).Draw(t, "steps") {
			dt := seconds(rapid.Float64Range(0.2, 60).Draw(t, "dt"))
			h := rapid.Float64Range(0, 1).Draw(t, "travel")
			a, b := low.Step(dt, h/2, units.Celsius(15)), high.Step(dt, h, units.Celsius(15))
			assert.GreaterOrEqual(t, b.Compare(a), 0)
			assert.GreaterOrEqual(t, a.Celsius(), 15-1e-9)
			assert.LessOrEqual(t, b.Celsius(), 40+1e-9)
		}
	})
}

func TestPlantNaN(t *testing.T) {
	p := newPlant(t, time.Minute, 10*time.Second, linear(25), units.Celsius(15))
	p.Step(time.Second, math.NaN(), units.Celsius(15))
	assert.False(t, math.IsNaN(p.Temperature().Kelvin()), "still under way")
	for range 30 {
		p.Step(time.Second, 0, units.Celsius(15))
	}
	assert.True(t, math.IsNaN(p.Temperature().Kelvin()))
	p.Settle(1, units.Celsius(15))
	assert.InDelta(t, 40, p.Step(time.Second, 1, units.Celsius(15)).Celsius(), 1e-9)
}

func TestPlantRefuses(t *testing.T) {
	good := control.PlantConfig{Conductance: 1, TimeConstant: time.Minute, DeadTime: time.Second}
	heat, base := linear(1), units.Celsius(20)
	refused := func(want string, cfg control.PlantConfig, heat control.HeatCurve, travel float64, base units.Temperature) {
		t.Helper()
		_, err := control.NewPlant(cfg, heat, travel, base)
		require.ErrorIs(t, err, units.ErrInvalid)
		assert.ErrorContains(t, err, "control: "+want+":")
	}
	refused("HeatCurve", good, nil, 0, base)
	refused("Travel", good, heat, 1.1, base)
	refused("Base", good, heat, 0, units.Temperature{})
	refused("Conductance", control.PlantConfig{TimeConstant: time.Minute}, heat, 0, base)
	refused("TimeConstant", control.PlantConfig{Conductance: 1}, heat, 0, base)
	refused("DeadTime", control.PlantConfig{Conductance: 1, TimeConstant: time.Minute, DeadTime: -1}, heat, 0, base)
	refused("LeastStep", control.PlantConfig{Conductance: 1, TimeConstant: time.Minute, DeadTime: time.Hour, LeastStep: 1}, heat, 0, base)
}

func TestTabulatedHeat(t *testing.T) {
	square := control.HeatCurve(func(h float64, _ units.Temperature) units.Power { return units.Power(h * h) })
	cold, warm := units.Celsius(-10), units.Celsius(20)
	table := func(h float64) units.Power { return square.Tabulated(100, cold, warm)(h, units.Celsius(3)) }
	for _, h := range []float64{0, 0.005, 0.3333, 0.7, 1} {
		assert.InDelta(t, h*h, float64(table(h)), 2/(8*100.0*100)+1e-15)
	}
	assert.InDelta(t, 1, float64(table(2)), 1e-15)
	assert.InDelta(t, 0, float64(table(-1)), 1e-15)
	assert.True(t, math.IsNaN(float64(table(math.NaN()))))
	assert.InDelta(t, 0.5, float64(square.Tabulated(-3, cold, cold)(0.5, cold)), 1e-15, "one line")
}

// A law that is straight by base comes back exactly, one that bends within its bound.
func TestTabulatedByBase(t *testing.T) {
	cold, warm := units.Celsius(-10), units.Celsius(20)
	coil := control.HeatCurve(func(h float64, base units.Temperature) units.Power {
		return units.Power(h * h * float64(units.Celsius(60).Sub(base)))
	})
	bent := control.HeatCurve(func(_ float64, base units.Temperature) units.Power {
		return units.Power(math.Pow(float64(base.Sub(cold)), 2))
	})
	for _, ends := range [][2]units.Temperature{{cold, warm}, {warm, cold}} {
		straight, curved := coil.Tabulated(20, ends[0], ends[1]), bent.Tabulated(20, ends[0], ends[1])
		for _, celsius := range []float64{-10, -9.9, 0, 7.3, 20} {
			base := units.Celsius(celsius)
			assert.InDelta(t, float64(coil(0.35, base)), float64(straight(0.35, base)), 1e-9)
			assert.InDelta(t, float64(coil(0.3725, base)), float64(straight(0.3725, base)), 2*70.0/(8*20*20)+1e-9)
			assert.InDelta(t, float64(bent(0.5, base)), float64(curved(0.5, base)), 2*30.0*30/(8*20*20)+1e-9)
		}
		assert.InDelta(t, float64(coil(0.5, cold)), float64(straight(0.5, units.Celsius(-40))), 1e-9)
		assert.InDelta(t, float64(coil(0.5, warm)), float64(straight(0.5, units.Celsius(70))), 1e-9)
		assert.True(t, math.IsNaN(float64(straight(0.5, units.Celsius(math.NaN())))))
	}
	assert.InDelta(t, float64(coil(0.5, cold)), float64(coil.Tabulated(10, cold, cold)(0.5, warm)), 1e-9, "one base")
}
