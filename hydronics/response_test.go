package hydronics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

func degrees(supply, back, air float64) terminal.Temperatures {
	return terminal.Temperatures{Supply: units.Celsius(supply), Return: units.Celsius(back), Air: units.Celsius(air)}
}

// unitConfig is a unit whose open valve passes the design flow at 1 bar.
type unitConfig struct {
	terminal  terminal.Terminal
	authority float64
	curve     valve.Characteristic
	actuator  actuator.Config // its stroke is set
	valve     valve.TwoWayConfig
}

// newUnit builds it; the zero actuator and valve are those of a rising signal that opens.
func newUnit(t require.TestingT, c unitConfig) hydronics.HeatChain {
	design, own := c.terminal.Design(), units.Pressure(c.authority)*units.Bar
	if c.actuator == (actuator.Config{}) || c.actuator.Input.IsZero() {
		c.actuator.Input, c.actuator.Action = signal.Range0To10V(), actuator.Reverse
	}
	c.actuator.Stroke, c.valve.Stroke = stroke, stroke
	act, err := actuator.New(c.actuator)
	require.NoError(t, err)
	c.valve.Kvs, c.valve.Curve, c.valve.Density = valve.CoefficientFor(design.Flow, own, design.Density), c.curve, design.Density
	val, err := valve.NewTwoWay(c.valve)
	require.NoError(t, err)
	chain, err := hydronics.NewChain(act, val)
	require.NoError(t, err)
	rest, err := hydronics.ResistanceAt(design.Flow, units.Bar-own)
	require.NoError(t, err)
	chain, err = chain.InBranch(rest)
	require.NoError(t, err)
	unit, err := hydronics.NewHeatChain(chain, c.terminal, units.Bar, terminal.Conditions{})
	require.NoError(t, err)
	return unit
}

// recordedTerminal makes the terminal of a row of the table "response".
func recordedTerminal(t require.TestingT, row reference.Row) (unit terminal.Terminal) {
	design := degrees(row.Float("supply_C"), row.Float("return_C"), row.Float("air_C"))
	parameter := row.Float("parameter_C_or_1")
	var err error
	switch {
	case row.Text("terminal") == "coil":
		unit, err = terminal.NewCoil(terminal.CoilConfig{
			Heat: 5 * units.Kilowatt, Design: design, LeavingAir: units.Celsius(parameter), WaterShare: units.Ratio(row.Float("water_share")),
		})
	case row.Text("terminal") == "floor":
		unit, err = terminal.NewFloor(terminal.FloorConfig{Conductance: 90 * units.WattPerKelvin, Area: 18 * units.SquareMetre, Design: design})
	case design.Supply.Compare(design.Air) > 0:
		unit, err = terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1000 * units.Watt, Rated: design, Exponent: parameter})
	default:
		unit, err = terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: 1000 * units.Watt, Rated: design, Exponent: parameter})
	}
	require.NoError(t, err)
	return unit
}

func recordedUnit(t require.TestingT, row reference.Row) hydronics.HeatChain {
	c := unitConfig{terminal: recordedTerminal(t, row), authority: row.Float("authority"), curve: valve.Linear(row.Float("ratio"))}
	if row.Text("curve") == "equal-percentage" {
		c.curve = valve.EqualPercentage(row.Float("ratio"))
	}
	if ratio := row.Float("shaping"); ratio != 0 {
		c.actuator.Shaping = actuator.ZeroBasedEqualPercentage(ratio)
	}
	return newUnit(t, c)
}

// Whole chains against an independent solution that finds every step by bisection
// (internal/reference/gen/response.py).
func TestResponseAgainstBisection(t *testing.T) {
	c := reference.Compare(t, "response")
	for row := range c.Rows() {
		unit := recordedUnit(t, row)
		full := unit.Terminal().Design()
		r := unit.Respond(unit.SignalAt(row.Float("demand")))
		c.Check(row, "travel", r.Travel)
		c.Check(row, "phi", r.Coefficient)
		c.Check(row, "flow", float64(r.Flow/full.Flow))
		c.Check(row, "heat", float64(r.Heat/full.Heat))
		c.CheckAbs(row, "after_C", r.Return.Celsius())
		c.Check(row, "gain", unit.Gain(row.Float("demand")))
		least, err := unit.LeastLoad(hydronics.Resolution{Signal: row.Float("signal_step"), Stem: row.Float("stem_step")})
		require.NoError(t, err)
		c.Check(row, "least_travel", least.Travel)
		c.Check(row, "least_heat", least.Share)
	}
	c.Require(1e-9, "travel", "phi", "flow", "heat", "least_travel", "least_heat")
	c.Require(1e-7, "after_C")
	c.Require(1e-5, "gain")
}

// A heat emitter designed for a drop of 20 °F from 200 °F in a room of 70 °F gives
// about 90 % of its heat at half the flow and about half of it at a tenth of the flow
// (ASHRAE Handbook, HVAC Systems and Equipment, chapter on hydronic system design,
// figure of heat emission against flow; from memory).
func TestHandbookHeatAgainstFlow(t *testing.T) {
	f := func(t float64) units.Temperature { return units.Celsius((t - 32) / 1.8) }
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{
		RatedHeat: units.Kilowatt, Rated: terminal.Temperatures{Supply: f(200), Return: f(180), Air: f(70)},
	})
	require.NoError(t, err)
	unit := newUnit(t, unitConfig{terminal: radiator, authority: 1, curve: valve.Linear(math.Inf(1))})
	for flow, heat := range map[float64]float64{0.5: 0.9, 0.1: 0.5} {
		assert.InDelta(t, heat, unit.HeatShare(flow), 0.01, "a straight valve at authority 1: opening = flow")
		assert.InDelta(t, flow, unit.OpeningForShare(heat), 0.02)
	}
}

// Radiators at half and at a tenth of their flow, computed independently of the
// project (EN 442 with the logarithmic mean): 0.8892 and 0.324.
func TestRadiatorsThroughTheChain(t *testing.T) {
	for _, tt := range []struct {
		design     terminal.Temperatures
		flow, heat float64
		digit      float64
	}{{degrees(75, 65, 20), 0.5, 0.8892, 5e-5}, {degrees(90, 70, 20), 0.1, 0.324, 5e-4}} {
		radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: units.Kilowatt, Design: tt.design})
		require.NoError(t, err)
		unit := newUnit(t, unitConfig{terminal: radiator, authority: 1, curve: valve.Linear(math.Inf(1))})
		assert.InDelta(t, tt.heat, unit.HeatShare(tt.flow), tt.digit)
	}
}

// drawTerminal draws any terminal, of a temperature drop from small to large.
func drawTerminal(t *rapid.T) terminal.Terminal {
	fraction := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	air, excess := fraction("air", 0, 25), fraction("excess", 15, 60)
	cooling := rapid.Bool().Draw(t, "cooling")
	if cooling {
		air, excess = fraction("air", 22, 32), -fraction("excess", 8, 20)
	}
	design := degrees(air+excess, air+excess*(1-fraction("drop", 0.05, 0.8)), air)
	heat, share := units.Power(fraction("heat", 100, 50_000)), units.Ratio(fraction("water share", 0, 0.5))
	var unit terminal.Terminal
	var err error
	switch kind := rapid.IntRange(0, 3).Draw(t, "kind"); {
	case kind == 0 && !cooling:
		unit, err = terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: heat, Rated: design, Exponent: fraction("n", 1, 1.5)})
	case kind <= 1:
		unit, err = terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: heat, Rated: design, WaterShare: share})
	case kind == 2:
		unit, err = terminal.NewFloor(terminal.FloorConfig{Conductance: units.ThermalConductance(heat / 50), Area: units.Area(heat / 200), Design: design})
	default:
		leaving := units.Celsius(air + excess*(1-fraction("water drop", 0.1, 0.9))*0.9)
		arrangement := rapid.SampledFrom([]terminal.Arrangement{terminal.CounterFlow, terminal.CrossFlow}).Draw(t, "arrangement")
		unit, err = terminal.NewCoil(terminal.CoilConfig{Heat: heat, Design: design, LeavingAir: leaving, WaterShare: share, Arrangement: arrangement})
		if err != nil { // this arrangement cannot do it
			unit, err = terminal.NewFloor(terminal.FloorConfig{Conductance: 90, Area: 18, Design: design})
		}
	}
	require.NoError(t, err)
	return unit
}

// drawUnit draws a chain of any kind with a terminal, and for a part of them
// conditions other than the design's.
func drawUnit(t *rapid.T) hydronics.HeatChain {
	chain, dp := drawChain(t)
	terminalUnit := drawTerminal(t)
	at := terminal.Conditions{}
	if rapid.Bool().Draw(t, "other conditions") {
		at.Air = terminalUnit.Design().Conditions.Air.Add(units.TemperatureDifference(rapid.Float64Range(-6, 6).Draw(t, "air")))
	}
	unit, err := hydronics.NewHeatChain(chain, terminalUnit, dp, at)
	require.NoError(t, err)
	return unit
}

func TestHeatRisesWithTheOpening(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := drawUnit(t)
		last := unit.HeatShare(0)
		require.GreaterOrEqual(t, last, 0.0)
		for i := 1; i <= 40; i++ {
			share := unit.HeatShare(float64(i) / 40)
			require.GreaterOrEqual(t, share, last*(1-2e-9))
			last = share
		}
		require.InDelta(t, 1, last, 1e-12)
		require.GreaterOrEqual(t, unit.Gain(rapid.Float64Range(0, 1).Draw(t, "opening")), -1e-5)
	})
}

// The balance of the water, with density and heat capacity of the design.
func TestResponseKeepsTheEnergyBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := drawUnit(t)
		r := unit.Respond(unit.SignalAt(rapid.Float64Range(0, 1).Draw(t, "opening")))
		d, supply := unit.Terminal().Design(), unit.Conditions().Supply
		carried := float64(d.Density) * float64(d.SpecificHeat) * float64(r.Flow) * math.Abs(float64(supply.Sub(r.Return)))
		limit := float64(d.Density) * float64(d.SpecificHeat) * float64(r.Flow) * math.Abs(float64(supply.Sub(unit.Conditions().Air)))
		require.InDelta(t, carried, math.Abs(float64(r.Heat)), 1e-9*limit)
	})
}

func TestSignalForHeatUndoesRespond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := drawUnit(t)
		opening := rapid.Float64Range(0, 1).Draw(t, "opening")
		heat := unit.Heat(unit.SignalAt(opening))
		s, err := unit.SignalForHeat(heat)
		require.NoError(t, err)
		require.InDelta(t, float64(heat), float64(unit.Heat(s)), 1e-9*math.Abs(float64(unit.FullHeat())))
		share := unit.HeatShare(opening)
		require.InDelta(t, share, unit.HeatShare(unit.OpeningForShare(share)), 1e-9)
	})
}

// Respond, Heat, HeatAtTravel and the chain below say the same.
func TestHeatResponseAgreesWithItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := drawUnit(t)
		s := unit.SignalAt(rapid.Float64Range(0, 1).Draw(t, "opening"))
		r := unit.Respond(s)
		chain := unit.Chain()
		require.Equal(t, chain.Respond(s, unit.Pressure()), r.Response)
		require.InEpsilon(t, float64(r.Heat), float64(unit.Heat(s)), 1e-12)
		require.InEpsilon(t, float64(r.Heat), float64(unit.HeatAtTravel(r.Travel)), 1e-9)
	})
}

// Rounding must not put the ends out of reach.
func TestSignalForHeatReachesBothEnds(t *testing.T) {
	for name, unit := range benchUnits(t) {
		s, err := unit.SignalForHeat(unit.FullHeat())
		require.NoError(t, err, name)
		assert.Equal(t, signal.Volts(10), s, name)
		assert.Equal(t, 1.0, unit.OpeningForShare(1), name)
		s, err = unit.SignalForHeat(0)
		require.NoError(t, err, name)
		assert.Equal(t, signal.Volts(0), s, name)
		_, err = unit.SignalForHeat(unit.FullHeat() * 1.0001)
		assert.ErrorIs(t, err, valve.ErrUnreachable, name)
	}
}

func testCoil(t require.TestingT) terminal.Coil {
	coil, err := terminal.NewCoil(terminal.CoilConfig{
		Heat: 12 * units.Kilowatt, Design: degrees(80, 60, 16), LeavingAir: units.Celsius(35), WaterShare: 0.2,
	})
	require.NoError(t, err)
	return coil
}

func TestUnreachableHeatSaysWhatCanBeHad(t *testing.T) {
	unit := newUnit(t, unitConfig{terminal: testCoil(t), authority: 0.5, curve: valve.EqualPercentage(50)})
	for name, tt := range map[string]struct {
		heat  units.Power
		cause error
	}{
		"more than the open valve gives": {12.5 * units.Kilowatt, valve.ErrUnreachable},
		"more than any flow gives":       {40 * units.Kilowatt, terminal.ErrUnreachable},
		"the wrong way":                  {-1 * units.Kilowatt, terminal.ErrUnreachable},
		"not a number":                   {units.Power(math.NaN()), units.ErrInvalid},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := unit.SignalForHeat(tt.heat)
			var unreachable *hydronics.UnreachableHeatError
			require.ErrorAs(t, err, &unreachable)
			assert.ErrorIs(t, err, terminal.ErrUnreachable)
			assert.ErrorIs(t, err, tt.cause)
			assert.InEpsilon(t, 12_000, float64(unreachable.Greatest), 1e-9)
			assert.Less(t, float64(unreachable.Least), 1.0)
			assert.ErrorContains(t, err, "12 kW")
		})
	}
	s, err := unit.SignalForHeat(0)
	require.NoError(t, err)
	assert.Equal(t, signal.Volts(0), s)
}

// Cooling, glycol or change-over: the heat keeps the sign that the terminal gives it.
func TestConditionsThatTurnTheHeatRound(t *testing.T) {
	unit := newUnit(t, unitConfig{terminal: testCoil(t), authority: 1, curve: valve.Linear(50)})
	cold, err := unit.With(units.Bar, terminal.Conditions{Supply: units.Celsius(6), Air: units.Celsius(26)})
	require.NoError(t, err)
	assert.Negative(t, float64(cold.FullHeat()))
	assert.Greater(t, cold.HeatShare(0.5), 0.5, "shares count from the full heat, whatever its sign")
	s, err := cold.SignalForHeat(cold.FullHeat() / 2)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(cold.FullHeat()/2), float64(cold.Heat(s)), 1e-9)
}

// A falling signal that opens: openings keep their meaning, the gain its sign.
func TestFallingSignalThatOpens(t *testing.T) {
	c := unitConfig{terminal: testCoil(t), authority: 0.5, curve: valve.EqualPercentage(50)}
	rising := newUnit(t, c)
	c.actuator = actuator.Config{Input: signal.Range4To20mA(), Action: actuator.Direct}
	falling := newUnit(t, c)
	assert.Equal(t, signal.Milliamps(20), falling.SignalAt(0))
	for _, opening := range []float64{0.1, 0.5, 0.9} {
		assert.InEpsilon(t, rising.HeatShare(opening), falling.HeatShare(opening), 1e-12)
		assert.InEpsilon(t, rising.Gain(opening), falling.Gain(opening), 1e-9)
		assert.InEpsilon(t, opening, falling.OpeningForShare(falling.HeatShare(opening)), 1e-9)
	}
}

func TestHoldingActuatorDoesNotTellTheHeat(t *testing.T) {
	unit := newUnit(t, unitConfig{terminal: testCoil(t), authority: 1, curve: valve.Linear(50),
		actuator: actuator.Config{Input: signal.Range4To20mA(), Action: actuator.Reverse, OpenWire: actuator.HoldOnOpenWire}})
	r := unit.Respond(signal.Signal{})
	assert.True(t, r.Held)
	assert.Equal(t, signal.NoSignal, r.Status)
	assert.True(t, math.IsNaN(float64(r.Heat)) && math.IsNaN(r.Return.Kelvin()) && math.IsNaN(float64(unit.Heat(signal.Signal{}))))
	assert.False(t, math.IsNaN(float64(unit.Heat(signal.Milliamps(3)))), "below the live zero is the lowest signal")
}

func TestHeatChainRefusesWhatMakesNoUnit(t *testing.T) {
	unit := newUnit(t, unitConfig{terminal: testCoil(t), authority: 0.5, curve: valve.EqualPercentage(50)})
	nan := math.NaN()
	for name, tt := range map[string]struct {
		make  func() (hydronics.HeatChain, error)
		wants string
	}{
		"no chain": {func() (hydronics.HeatChain, error) {
			return hydronics.NewHeatChain(hydronics.Chain{}, testCoil(t), units.Bar, terminal.Conditions{})
		}, "Chain"},
		"no terminal": {func() (hydronics.HeatChain, error) {
			return hydronics.NewHeatChain(unit.Chain(), nil, units.Bar, terminal.Conditions{})
		}, "Terminal"},
		"zero terminal": {func() (hydronics.HeatChain, error) {
			return hydronics.NewHeatChain(unit.Chain(), terminal.Radiator{}, units.Bar, terminal.Conditions{})
		}, "Terminal"},
		"zero chain": {func() (hydronics.HeatChain, error) {
			return hydronics.HeatChain{}.With(units.Bar, terminal.Conditions{})
		}, "NewHeatChain"},
		"no pressure":      {func() (hydronics.HeatChain, error) { return unit.With(0, terminal.Conditions{}) }, "Pressure"},
		"pressure unknown": {func() (hydronics.HeatChain, error) { return unit.With(units.Pressure(nan), terminal.Conditions{}) }, "Pressure"},
		"supply unknown": {func() (hydronics.HeatChain, error) {
			return unit.With(units.Bar, terminal.Conditions{Supply: units.Celsius(nan)})
		}, "Supply"},
		"air unknown": {func() (hydronics.HeatChain, error) {
			return unit.With(units.Bar, terminal.Conditions{Air: units.Celsius(nan)})
		}, "Air"},
		"primary air unknown": {func() (hydronics.HeatChain, error) {
			return unit.With(units.Bar, terminal.Conditions{PrimaryAir: units.Celsius(nan)})
		}, "PrimaryAir"},
		"humidity": {func() (hydronics.HeatChain, error) { return unit.With(units.Bar, terminal.Conditions{Humidity: 45}) }, "Humidity"},
		"no difference": {func() (hydronics.HeatChain, error) {
			return unit.With(units.Bar, terminal.Conditions{Supply: units.Celsius(16)})
		}, "no heat flows"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := tt.make()
			require.ErrorIs(t, err, units.ErrInvalid)
			assert.ErrorContains(t, err, tt.wants)
		})
	}
}

func TestZeroHeatChainIsHarmless(t *testing.T) {
	var unit hydronics.HeatChain
	r := unit.Respond(signal.Volts(5))
	for i, x := range []float64{float64(r.Heat), float64(r.Flow), r.Return.Kelvin(), unit.HeatShare(0.5), unit.Gain(0.5), unit.OpeningForShare(0.5), float64(unit.HeatAtTravel(1))} {
		assert.True(t, math.IsNaN(x), "%d", i)
	}
	_, err := unit.SignalForHeat(1)
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = unit.Linearity(hydronics.HeatRange{})
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = unit.LeastLoad(hydronics.Resolution{})
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestHeatChainTakesNaN(t *testing.T) {
	unit := newUnit(t, unitConfig{terminal: testCoil(t), authority: 0.5, curve: valve.EqualPercentage(50)})
	nan := math.NaN()
	assert.True(t, math.IsNaN(unit.HeatShare(nan)) && math.IsNaN(unit.Gain(nan)) && math.IsNaN(unit.OpeningForShare(nan)) && math.IsNaN(float64(unit.HeatAtTravel(nan))))
	assert.True(t, math.IsNaN(unit.OpeningForShare(1.1)))
	assert.Equal(t, 1.0, unit.HeatShare(7))
}
