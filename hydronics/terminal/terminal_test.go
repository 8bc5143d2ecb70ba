package terminal_test

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// must unwraps a constructor's result.
func must[T terminal.Terminal](t require.TestingT, got T, err error) T {
	require.NoError(t, err)
	return got
}

// celsius makes temperatures from a list such as 75/65/20.
func celsius(supply, back, air float64) terminal.Temperatures {
	return terminal.Temperatures{Supply: units.Celsius(supply), Return: units.Celsius(back), Air: units.Celsius(air)}
}

// unit is what all terminals of the package are.
type unit interface {
	terminal.Terminal
	FlowForReturn(units.Temperature, terminal.Conditions) (units.Flow, error)
}

// A drawn is a random terminal with what a test needs to know of it.
type drawn struct {
	unit
	name string
}

// draw makes a random terminal of a random kind; its design can be reached.
func draw(t *rapid.T) drawn {
	kind := rapid.SampledFrom([]string{"radiator", "ceiling", "passive beam", "active beam", "floor", "coil", "wet coil"}).Draw(t, "kind")
	heat := units.Power(math.Exp(rapid.Float64Range(math.Log(50), math.Log(1e6)).Draw(t, "ln heat")))
	switch kind {
	case "coil":
		return drawCoil(t, heat)
	case "wet coil":
		return drawWetCoil(t, heat)
	}
	return drawn{drawEmitter(t, kind, heat), kind}
}

// drawTemperatures has a return between 3 and 97 % of the way.
func drawTemperatures(t *rapid.T, cooling bool) terminal.Temperatures {
	air, supply := rapid.Float64Range(15, 24).Draw(t, "air"), rapid.Float64Range(30, 95).Draw(t, "supply")
	if cooling {
		supply = rapid.Float64Range(4, 14).Draw(t, "chilled supply")
	}
	back := supply + (air-supply)*rapid.Float64Range(0.03, 0.97).Draw(t, "return")
	return celsius(supply, back, air)
}

func drawEmitter(t *rapid.T, kind string, heat units.Power) unit {
	cooling := kind == "passive beam" || kind != "radiator" && rapid.Bool().Draw(t, "cooling")
	rated, design := drawTemperatures(t, cooling), drawTemperatures(t, cooling)
	n := rapid.Float64Range(1, 2).Draw(t, "n")
	share := units.Ratio(rapid.SampledFrom([]float64{0, 0.1, 0.3, 0.9}).Draw(t, "water share"))
	floor := units.Ratio(rapid.Float64Range(0.001, 1).Draw(t, "laminar floor"))
	switch kind {
	case "radiator":
		r, err := terminal.NewRadiator(terminal.RadiatorConfig{
			RatedHeat: heat, Rated: rated, Exponent: n, Design: design,
		})
		return must(t, r, err)
	case "ceiling":
		r, err := terminal.NewCeiling(terminal.CeilingConfig{
			RatedHeat: heat, Rated: rated, Exponent: n, Design: design, WaterShare: share, LaminarFloor: floor,
		})
		return must(t, r, err)
	case "passive beam":
		r, err := terminal.NewPassiveBeam(terminal.PassiveBeamConfig{
			RatedHeat: heat, Rated: rated, Exponent: n, Design: design, WaterShare: share, LaminarFloor: floor,
		})
		return must(t, r, err)
	case "active beam":
		r, err := terminal.NewActiveBeam(terminal.ActiveBeamConfig{
			RatedHeat: heat, Rated: rated, Exponent: n, Design: design, WaterShare: share, LaminarFloor: floor,
			PrimaryFlow: 20 * units.LitrePerSecond, PrimaryAir: units.Celsius(16),
		})
		return must(t, r, err)
	}
	return drawFloor(t, design, share, floor)
}

// drawFloor has K_H from 0.1 to 6.4 W/(m²·K), which no surface is too small for.
func drawFloor(t *rapid.T, design terminal.Temperatures, share, laminar units.Ratio) terminal.Floor {
	area := rapid.Float64Range(1, 1000).Draw(t, "area")
	f, err := terminal.NewFloor(terminal.FloorConfig{
		Conductance: units.ThermalConductance(area * rapid.Float64Range(0.1, 6.4).Draw(t, "K_H")), Area: units.Area(area),
		Design: design, WaterShare: share, LaminarFloor: laminar,
	})
	return must(t, f, err)
}

func drawCoil(t *rapid.T, heat units.Power) drawn {
	c := terminal.CoilConfig{
		Heat: heat, Design: drawTemperatures(t, rapid.Bool().Draw(t, "cooling")),
		Arrangement:  rapid.SampledFrom(arrangements).Draw(t, "arrangement"),
		WaterShare:   units.Ratio(rapid.Float64Range(0, 0.95).Draw(t, "water share")),
		LaminarFloor: units.Ratio(rapid.Float64Range(0.001, 1).Draw(t, "laminar floor")),
	}
	way := rapid.Float64Range(0.02, 0.98).Draw(t, "leaving air")
	c.LeavingAir = c.Design.Air.Add(units.TemperatureDifference(way) * c.Design.Supply.Sub(c.Design.Air))
	coil, err := terminal.NewCoil(c)
	if errors.Is(err, units.ErrInvalid) {
		t.Skip("a design that the arrangement cannot give")
	}
	return drawn{must(t, coil, err), "coil"}
}

func drawWetCoil(t *rapid.T, heat units.Power) drawn {
	supply, air := rapid.Float64Range(1, 14).Draw(t, "supply"), rapid.Float64Range(18, 40).Draw(t, "air")
	c := terminal.WetCoilConfig{
		Heat:         heat,
		Design:       celsius(supply, supply+(air-supply)*rapid.Float64Range(0.05, 0.9).Draw(t, "return"), air),
		Humidity:     units.Ratio(rapid.Float64Range(0.02, 1).Draw(t, "humidity")),
		WaterShare:   units.Ratio(rapid.Float64Range(0, 0.95).Draw(t, "water share")),
		LaminarFloor: units.Ratio(rapid.Float64Range(0.001, 1).Draw(t, "laminar floor")),
	}
	// So much air that its own cooling, latent heat aside, would be a share of
	// the heat.
	c.AirFlow = units.Flow(float64(heat) / (1.2 * 1006 * (air - supply) * rapid.Float64Range(0.1, 2).Draw(t, "share")))
	coil, err := terminal.NewWetCoil(c)
	if errors.Is(err, units.ErrInvalid) {
		t.Skip("a design that the coil cannot give")
	}
	return drawn{must(t, coil, err), "wet coil"}
}

func drawShare(t *rapid.T) float64 {
	return math.Exp(rapid.Float64Range(math.Log(1e-6), math.Log(1e4)).Draw(t, "ln flow share"))
}

// carried is the heat that the water loses or gains by its temperatures.
func carried(d terminal.DesignPoint, q units.Flow, supply, back units.Temperature) float64 {
	return float64(q) * float64(d.Density) * float64(d.SpecificHeat) * math.Abs(float64(supply.Sub(back)))
}

func TestEnergyBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		d := unit.Design()
		q := units.Flow(drawShare(t)) * d.Flow
		c := terminal.Conditions{Supply: d.Conditions.Supply.Add(units.TemperatureDifference(rapid.Float64Range(-0.9, 0.9).Draw(t, "warmer")))}
		o := unit.Output(q, c)
		rounding := carried(d, q, units.AbsoluteKelvin(1e-13), units.AbsoluteKelvin(0)) // of temperatures
		assert.InDelta(t, carried(d, q, c.Supply, o.Return), float64(o.Heat), 1e-9*float64(o.Heat)+rounding*10, unit.name)
		assert.LessOrEqual(t, float64(o.Sensible), float64(o.Heat))
		assert.GreaterOrEqual(t, float64(o.Sensible), 0.0)
	})
}

func TestHeatRisesWithFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		low := drawShare(t)
		high := low * (1 + math.Exp(rapid.Float64Range(-12, 2).Draw(t, "ln step")))
		atLow, atHigh := unit.HeatShare(low), unit.HeatShare(high)
		assert.GreaterOrEqual(t, atHigh, atLow*(1-1e-9), "%s %v %v", unit.name, low, high)
		limit := unit.Output(units.Flow(math.Inf(1)), terminal.Conditions{})
		assert.Less(t, atHigh, float64(limit.Heat/unit.Design().Heat)*(1+1e-9))
		assert.Equal(t, unit.Design().Conditions.Supply, limit.Return)
	})
}

func TestFlowForUndoesHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		limit := unit.Output(units.Flow(math.Inf(1)), terminal.Conditions{}).Heat
		heat := limit * units.Power(rapid.Float64Range(1e-6, 0.999).Draw(t, "share of limit"))
		q, err := unit.FlowFor(heat, terminal.Conditions{})
		require.NoError(t, err)
		assert.InEpsilon(t, float64(heat), float64(unit.Heat(q)), 1e-9, unit.name)
		d := unit.Design()
		assert.InEpsilon(t, float64(q/d.Flow), unit.FlowShare(float64(heat/d.Heat)), 1e-6)
	})
}

func TestEndsAndDesign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		d := unit.Design()
		for _, q := range []units.Flow{0, -1, units.Flow(math.Inf(-1))} {
			o := unit.Output(q, terminal.Conditions{})
			assert.Zero(t, o.Heat)
			assert.Zero(t, unit.Heat(q))
			assert.Equal(t, d.Conditions.Air, o.Return)
		}
		assert.Equal(t, 0.0, unit.HeatShare(0))
		assert.Equal(t, 1.0, unit.HeatShare(1))
		assert.Equal(t, 0.0, unit.FlowShare(0))
		assert.Equal(t, 0.0, unit.FlowShare(-1))
		assert.Equal(t, 1.0, unit.FlowShare(1))
		assert.Equal(t, math.Inf(1), unit.FlowShare(1e12))
		assert.Equal(t, d.Heat, unit.Heat(d.Flow))
		o := unit.Output(d.Flow, terminal.Conditions{})
		assert.Equal(t, o, unit.Output(d.Flow, d.Conditions), "the design by name")
		assert.Equal(t, d.Heat, o.Heat)
		assert.Equal(t, d.Return, o.Return)
		trickle := unit.Output(d.Flow*1e-9, terminal.Conditions{})
		assert.InDelta(t, d.Conditions.Air.Kelvin(), trickle.Return.Kelvin(), 1e-3, unit.name)
	})
}

func TestFlowForRefuses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		d := unit.Design()
		limit := unit.Output(units.Flow(math.Inf(1)), terminal.Conditions{}).Heat
		for _, heat := range []units.Power{limit, 2 * limit, -1, units.Power(math.Inf(1))} {
			q, err := unit.FlowFor(heat, terminal.Conditions{})
			var fault *terminal.UnreachableError
			require.True(t, errors.As(err, &fault), "%v", heat)
			assert.ErrorIs(t, err, terminal.ErrUnreachable)
			assert.Equal(t, limit, fault.Limit)
			assert.True(t, math.IsNaN(float64(q)))
		}
		q, err := unit.FlowFor(0, terminal.Conditions{})
		require.NoError(t, err)
		assert.Zero(t, q)
		_, err = unit.FlowFor(units.Power(math.NaN()), terminal.Conditions{})
		assert.ErrorIs(t, err, units.ErrInvalid)
		_, err = unit.FlowFor(d.Heat, terminal.Conditions{Supply: units.Celsius(math.NaN())})
		assert.ErrorIs(t, err, units.ErrInvalid)
	})
}

// With the supply on the other side of the air, heat and inverse change sign.
func TestReversedConditions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		d := unit.Design()
		c := terminal.Conditions{Supply: d.Conditions.Air.Add(5 * units.Kelvin)}
		if d.Conditions.Supply.Compare(d.Conditions.Air) > 0 {
			c.Supply = d.Conditions.Air.Add(-5 * units.Kelvin)
		}
		o := unit.Output(d.Flow, c)
		assert.Negative(t, float64(o.Heat))
		assert.Less(t, carried(d, d.Flow, c.Supply, o.Return), carried(d, d.Flow, c.Supply, d.Conditions.Air)*(1+1e-9))
		q, err := unit.FlowFor(o.Heat*0.9, c)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(o.Heat)*0.9, float64(unit.Output(q, c).Heat), 1e-9)
		_, err = unit.FlowFor(1, c)
		assert.ErrorIs(t, err, terminal.ErrUnreachable)
		c.Supply = d.Conditions.Air
		assert.Zero(t, unit.Output(d.Flow, c).Heat)
	})
}

// The inverse in the return, at flows that give it, at the design conditions and
// others, those turned round among them.
func TestFlowForReturnUndoesOutput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		c := drawConditions(t, unit.Design())
		supply, air := c.Supply.Kelvin(), c.Air.Kelvin()
		back := units.AbsoluteKelvin(air + (supply-air)*rapid.Float64Range(1e-6, 1-1e-6).Draw(t, "way"))
		q, err := unit.FlowForReturn(back, c)
		require.NoError(t, err)
		assert.Positive(t, float64(q))
		assert.False(t, math.IsInf(float64(q), 0))
		assert.InDelta(t, back.Kelvin(), unit.Output(q, c).Return.Kelvin(), 1e-9, unit.name)
	})
}

// The other way about, where a return tells its flow well. In some wet coils it
// does not.
func TestFlowForReturnFindsTheFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		c := drawConditions(t, unit.Design())
		q := unit.Design().Flow * units.Flow(rapid.Float64Range(0.3, 10).Draw(t, "flow share"))
		o := unit.Output(q, c)
		if unit.name == "wet coil" || math.Abs(float64(o.Return.Sub(c.Air))) < 0.05*math.Abs(float64(c.Supply.Sub(c.Air))) {
			t.Skip("the same at many flows")
		}
		got, err := unit.FlowForReturn(o.Return, c)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(q), float64(got), 1e-6, unit.name)
	})
}

// drawConditions has a supply warmer or colder than the air, whatever the design.
func drawConditions(t *rapid.T, d terminal.DesignPoint) terminal.Conditions {
	c := d.Conditions
	switch rapid.IntRange(0, 2).Draw(t, "conditions") {
	case 0:
		c.Supply = c.Air.Add(units.TemperatureDifference(rapid.Float64Range(2, 60).Draw(t, "warmer")))
	case 1:
		c.Supply = c.Air.Add(units.TemperatureDifference(-rapid.Float64Range(2, 14).Draw(t, "colder")))
	}
	return c
}

// Beyond the supply or the air there is no flow, and at the air it is none.
func TestFlowForReturnRefuses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		c := drawConditions(t, unit.Design())
		beyond := c.Supply.Sub(c.Air)
		for _, back := range []units.Temperature{
			c.Supply, c.Supply.Add(beyond), c.Air.Add(-beyond), units.Celsius(math.Inf(1)), units.Celsius(-300),
		} {
			q, err := unit.FlowForReturn(back, c)
			var fault *terminal.UnreachableReturnError
			require.True(t, errors.As(err, &fault), "%v", back)
			assert.ErrorIs(t, err, terminal.ErrUnreachable)
			assert.Equal(t, terminal.UnreachableReturnError{Wanted: back, Supply: c.Supply, Air: c.Air}, *fault)
			assert.True(t, math.IsNaN(float64(q)))
		}
		q, err := unit.FlowForReturn(c.Air, c)
		require.NoError(t, err)
		assert.Zero(t, q)
		for _, back := range []units.Temperature{{}, units.Celsius(math.NaN())} {
			q, err = unit.FlowForReturn(back, c)
			assert.ErrorIs(t, err, units.ErrInvalid)
			assert.True(t, math.IsNaN(float64(q)))
		}
		middle := c.Supply.Mean(c.Air)
		_, err = unit.FlowForReturn(middle, terminal.Conditions{Supply: units.Celsius(math.NaN())})
		assert.ErrorIs(t, err, units.ErrInvalid)
		if unit.name == "wet coil" {
			_, err = unit.FlowForReturn(middle, terminal.Conditions{Humidity: units.Ratio(math.NaN())})
			assert.ErrorIs(t, err, units.ErrInvalid)
		}
		c.Supply = c.Air
		_, err = unit.FlowForReturn(middle, c)
		assert.ErrorIs(t, err, terminal.ErrUnreachable, "no difference, one return")
	})
}

// A return however close to the air or to the supply has a flow.
func TestFlowForReturnAtTheEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		c := drawConditions(t, unit.Design())
		toSupply := math.Copysign(math.Inf(1), float64(c.Supply.Sub(c.Air)))
		for _, back := range []units.Temperature{
			units.AbsoluteKelvin(math.Nextafter(c.Air.Kelvin(), toSupply)), units.AbsoluteKelvin(math.Nextafter(c.Supply.Kelvin(), -toSupply)),
		} {
			q, err := unit.FlowForReturn(back, c)
			require.NoError(t, err)
			assert.InDelta(t, back.Kelvin(), unit.Output(q, c).Return.Kelvin(), 1e-9, unit.name)
		}
	})
}

func TestNaN(t *testing.T) {
	nan := math.NaN()
	isNaN := func(t *rapid.T, values ...float64) {
		for i, v := range values {
			assert.True(t, math.IsNaN(v), "%d: %v", i, v)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		unit := draw(t)
		d := unit.Design()
		isNaN(t, float64(unit.Heat(units.Flow(nan))), unit.HeatShare(nan), unit.FlowShare(nan))
		for _, o := range []terminal.Output{
			unit.Output(units.Flow(nan), terminal.Conditions{}),
			unit.Output(d.Flow, terminal.Conditions{Supply: units.Celsius(nan)}),
			unit.Output(d.Flow, terminal.Conditions{Air: units.Celsius(nan)}),
		} {
			isNaN(t, float64(o.Heat), float64(o.Sensible), o.Return.Kelvin())
		}
		if unit.name == "wet coil" {
			isNaN(t, float64(unit.Output(d.Flow, terminal.Conditions{Humidity: units.Ratio(nan)}).Heat))
		}
	})
}

// The zero value of each type is no terminal.
func TestZeroValues(t *testing.T) {
	for _, unit := range []unit{
		terminal.Radiator{}, terminal.Ceiling{}, terminal.PassiveBeam{}, terminal.ActiveBeam{}, terminal.Floor{},
		terminal.Coil{}, terminal.WetCoil{},
	} {
		for _, q := range []units.Flow{-1, 0, 1, units.Flow(math.Inf(1))} {
			assert.True(t, math.IsNaN(float64(unit.Heat(q))), "%T %v", unit, q)
			assert.True(t, math.IsNaN(float64(unit.Output(q, terminal.Conditions{}).Heat)))
		}
		assert.True(t, math.IsNaN(unit.HeatShare(0.5)))
		assert.True(t, math.IsNaN(unit.FlowShare(0.5)))
		_, err := unit.FlowFor(1, terminal.Conditions{})
		assert.ErrorContains(t, err, "the zero terminal")
		_, err = unit.FlowForReturn(units.Celsius(30), terminal.Conditions{Supply: units.Celsius(40), Air: units.Celsius(20)})
		assert.ErrorIs(t, err, units.ErrInvalid)
		assert.Zero(t, unit.Design())
	}
	assert.True(t, math.IsNaN(terminal.Floor{}.SurfaceTemperature(1, terminal.Conditions{}).Kelvin()))
}

func TestEqual(t *testing.T) {
	make := func(heat units.Power) []any {
		r, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: heat})
		require.NoError(t, err)
		c, err := terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: heat, Rated: celsius(15, 17, 24)})
		require.NoError(t, err)
		p, err := terminal.NewPassiveBeam(terminal.PassiveBeamConfig{RatedHeat: heat, Rated: celsius(15, 17, 24)})
		require.NoError(t, err)
		a, err := terminal.NewActiveBeam(terminal.ActiveBeamConfig{RatedHeat: heat, Rated: celsius(15, 17, 24), PrimaryFlow: 1, PrimaryAir: units.Celsius(18)})
		require.NoError(t, err)
		f, err := terminal.NewFloor(terminal.FloorConfig{Conductance: units.ThermalConductance(heat), Area: 300, Design: celsius(40, 35, 20)})
		require.NoError(t, err)
		k, err := terminal.NewCoil(terminal.CoilConfig{Heat: heat, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(35)})
		require.NoError(t, err)
		w, err := terminal.NewWetCoil(terminal.WetCoilConfig{Heat: heat, Design: celsius(6, 12, 27), Humidity: 0.5, AirFlow: units.Flow(heat / 15000)})
		require.NoError(t, err)
		return []any{r, c, p, a, f, k, w}
	}
	one, same, other := make(1000), make(1000), make(1001)
	for i := range one {
		assert.True(t, cmp.Equal(one[i], same[i]), "%T", one[i])
		assert.False(t, cmp.Equal(one[i], other[i]), "%T", one[i])
	}
	assert.True(t, terminal.Radiator{}.Equal(terminal.Radiator{}))
}

// Glycol carries less: the flow for the same heat is larger by the heat
// capacities, 3.92 MJ/(m³·K) by Melinder's series at 30 % mass against 4.13 of
// water (ρ at 50 °C, cp at 60 °C, by a pocket calculator).
func TestFluid(t *testing.T) {
	config := terminal.CoilConfig{Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(35)}
	water, err := terminal.NewCoil(config)
	require.NoError(t, err)
	config.Fluid = fluid.MustParse("ethylene glycol 30 % mass")
	glycol, err := terminal.NewCoil(config)
	require.NoError(t, err)
	assert.InEpsilon(t, 4.13/3.92, float64(glycol.Design().Flow/water.Design().Flow), 0.005)
	// The curve is the same: UA is from the same temperatures.
	assert.InDelta(t, water.HeatShare(0.4), glycol.HeatShare(0.4), 1e-12)
}

func TestNoAllocations(t *testing.T) {
	for name, unit := range samples(t) {
		q, c := unit.Design().Flow*0.6, terminal.Conditions{Supply: unit.Design().Conditions.Supply.Add(-1 * units.Kelvin)}
		var sink float64
		assert.Zero(t, testing.AllocsPerRun(100, func() { sink += float64(unit.Heat(q)) }), name)
		assert.Zero(t, testing.AllocsPerRun(100, func() { sink += float64(unit.Output(q, c).Heat) }), name)
		assert.Zero(t, testing.AllocsPerRun(100, func() { sink += unit.HeatShare(0.3) }), name)
		assert.Zero(t, testing.AllocsPerRun(100, func() { sink += unit.FlowShare(0.3) }), name)
		assert.Zero(t, testing.AllocsPerRun(100, func() { q, _ := unit.FlowFor(unit.Design().Heat/2, c); sink += float64(q) }), name)
		assert.Zero(t, testing.AllocsPerRun(100, func() { q, _ := unit.FlowForReturn(unit.Design().Return, c); sink += float64(q) }), name)
		assert.False(t, math.IsNaN(sink), name)
	}
}

// samples holds one terminal of each kind.
func samples(t testing.TB) map[string]unit {
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1200 * units.Watt})
	require.NoError(t, err)
	ceiling, err := terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: 800 * units.Watt, Rated: celsius(15, 17, 24), WaterShare: 0.1})
	require.NoError(t, err)
	floor, err := terminal.NewFloor(terminal.FloorConfig{Conductance: 100, Area: 20, Design: celsius(40, 35, 20)})
	require.NoError(t, err)
	config := terminal.CoilConfig{
		Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(35), WaterShare: 0.25,
	}
	coil, err := terminal.NewCoil(config)
	require.NoError(t, err)
	config.Arrangement = terminal.CrossFlow
	cross, err := terminal.NewCoil(config)
	require.NoError(t, err)
	wet, err := terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat: 4 * units.Kilowatt, Design: celsius(6, 12, 27), Humidity: 0.5,
		AirFlow: 0.22 * units.CubicMetrePerSecond, WaterShare: 0.25,
	})
	require.NoError(t, err)
	return map[string]unit{
		"radiator": radiator, "ceiling": ceiling, "floor": floor,
		"coil": coil, "cross-flow coil": cross, "wet coil": wet,
	}
}

// Budget of Heat: 0 allocations and 0.7 µs, of the 1 µs that the static chain
// from signal to heat has.
func BenchmarkHeat(b *testing.B) {
	for name, unit := range samples(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			q := unit.Design().Flow * 0.6
			for b.Loop() {
				q += 1e-12
				unit.Heat(q)
			}
		})
	}
}

func BenchmarkOutput(b *testing.B) {
	for name, unit := range samples(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			q, c := unit.Design().Flow*0.6, terminal.Conditions{Supply: unit.Design().Conditions.Supply.Add(-1 * units.Kelvin)}
			for b.Loop() {
				q += 1e-12
				unit.Output(q, c)
			}
		})
	}
}

func BenchmarkFlowFor(b *testing.B) {
	for name, unit := range samples(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			heat := unit.Design().Heat * 0.6
			for b.Loop() {
				heat += 1e-12
				_, _ = unit.FlowFor(heat, terminal.Conditions{})
			}
		})
	}
}

func BenchmarkFlowForReturn(b *testing.B) {
	for name, unit := range samples(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			back := unit.Design().Return.Mean(unit.Design().Conditions.Air)
			for b.Loop() {
				_, _ = unit.FlowForReturn(back, terminal.Conditions{})
			}
		})
	}
}
