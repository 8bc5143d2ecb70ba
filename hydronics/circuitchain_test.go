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
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// opener is an actuator whose rising signal opens a push-to-close valve.
func opener(t require.TestingT, shaping actuator.Shaping, full units.Length) actuator.Actuator {
	act, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Action: actuator.Reverse, Shaping: shaping, Stroke: full})
	require.NoError(t, err)
	return act
}

func circuitChain(t require.TestingT, c hydronics.Circuit, unit terminal.Terminal) hydronics.CircuitChain {
	full := 15 * units.Millimetre
	for _, stroke := range []units.Length{full, 5 * units.Millimetre} { // that of the pressure-independent valve
		act := opener(t, actuator.Linear(), stroke)
		if u, err := hydronics.NewCircuitChain(act, c, unit, terminal.Conditions{}); err == nil {
			return u
		}
	}
	u, err := hydronics.NewCircuitChain(opener(t, actuator.Linear(), full), c, unit, terminal.Conditions{})
	require.NoError(t, err)
	return u
}

// coilCircuits are circuits for the flow, and with the liquid, of a terminal whose
// valve drops own and all else that carries the valve's flow alone rest.
type coilCircuit struct {
	unit      terminal.Terminal
	own, rest units.Pressure
	curve     valve.Characteristic
}

func (c coilCircuit) resistance(t require.TestingT, dp units.Pressure) hydronics.Resistance {
	r, err := hydronics.ResistanceAt(c.unit.Design().Flow, dp)
	require.NoError(t, err)
	return r
}

func (c coilCircuit) port() valve.PortConfig {
	d := c.unit.Design()
	return valve.PortConfig{Kvs: valve.CoefficientFor(d.Flow, c.own, d.Density), Curve: c.curve}
}

func (c coilCircuit) threeWay(t require.TestingT) valve.ThreeWay {
	val, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Control: c.port(), Bypass: valve.PortConfig{Curve: valve.Linear(50)},
		Stroke: 15 * units.Millimetre, Density: c.unit.Design().Density,
	})
	require.NoError(t, err)
	return val
}

// throttled has pumps that do not feel each other: the consumer's flow stays.
func (c coilCircuit) throttled(t require.TestingT) hydronics.Circuit {
	circuit, err := hydronics.NewThrottledInjectionCircuit(c.threeWay(t).Control(), hydronics.ThrottledInjectionConfig{
		Header: c.own + c.rest, Pump: 20 * units.Kilopascal, Primary: c.resistance(t, c.rest),
		Consumer: c.resistance(t, 20*units.Kilopascal), SpecificHeat: c.unit.Design().SpecificHeat,
	})
	require.NoError(t, err)
	return circuit
}

// diverting has no resistance in what carries the whole flow: the way through the
// consumer always has the same pressure.
func (c coilCircuit) diverting(t require.TestingT) hydronics.Circuit {
	circuit, err := hydronics.NewDivertingCircuit(c.threeWay(t), hydronics.DivertingConfig{
		Header: c.own + c.rest, Consumer: c.resistance(t, c.rest), Bypass: c.resistance(t, c.rest),
		SpecificHeat: c.unit.Design().SpecificHeat,
	})
	require.NoError(t, err)
	return circuit
}

// A consumer of constant flow, of which the share i comes from the source: with ε for
// the effectiveness of the water side, (80 − 60)/(80 − 16), the balance of the
// junction and Φ = ε·C·(θ_supply − θ_air) give Φ/Φ_full = i/(ε + i·(1 − ε)). The
// shares i are the installed ones of equal percentage 50 at an authority of 0.5 that
// DESIGN has from a two-resistor solve: 0.0418, 0.1980 and 0.7922.
func TestCircuitChainByHand(t *testing.T) {
	c := coilCircuit{testCoil(t), 10 * units.Kilopascal, 10 * units.Kilopascal, valve.EqualPercentage(50)}
	u := circuitChain(t, c.throttled(t), c.unit)
	const effectiveness = 20.0 / 64
	for opening, injected := range map[float64]float64{0.1: 0.0418, 0.5: 0.1980, 0.9: 0.7922, 1: 1} {
		assert.InDelta(t, injected/(effectiveness+injected*(1-effectiveness)), u.HeatShare(opening), 2e-4, "%v", opening)
	}
	assert.InDelta(t, 12, u.FullHeat().In(units.Kilowatt), 1e-6)
}

// In a mixing circuit with 20 of the pump's 40 kPa over the valve and none in the
// primary circuit, the consumer's flow is q² = 2/(1 + 1/S²), S = φA + φB, and the
// part φA/S of it is the source's. The coil's effectiveness at that flow follows from
// its heat at full supply temperature. Taking the control port for a two-way valve
// that throttles the coil is another thing.
func TestMixingCircuitIsNoThrottledBranch(t *testing.T) {
	coil := testCoil(t)
	c := coilCircuit{coil, 20 * units.Kilopascal, 0, valve.EqualPercentage(50)}
	circuit, err := hydronics.NewMixingCircuit(c.threeWay(t), hydronics.MixingConfig{
		Pump: 40 * units.Kilopascal, Consumer: c.resistance(t, 20*units.Kilopascal), SpecificHeat: coil.Design().SpecificHeat,
	})
	require.NoError(t, err)
	u := circuitChain(t, circuit, coil)
	chain, err := hydronics.NewChain(opener(t, actuator.Linear(), 15*units.Millimetre), c.threeWay(t).Control())
	require.NoError(t, err)
	chain, err = chain.InBranch(c.resistance(t, 20*units.Kilopascal))
	require.NoError(t, err)
	branch, err := hydronics.NewHeatChain(chain, coil, 40*units.Kilopascal, terminal.Conditions{})
	require.NoError(t, err)
	const design = 20.0 / 64
	for _, point := range []struct{ h, mixing, throttled float64 }{{0.1, 0.092, 0.128}, {0.5, 0.394, 0.470}, {0.75, 0.729, 0.786}} {
		control, bypass := math.Pow(50, point.h-1), 0.02+0.98*(1-point.h)
		sum := control + bypass
		flow, injected := math.Sqrt(2/(1+1/(sum*sum))), control/sum
		effectiveness := coil.HeatShare(flow) * design / flow
		want := flow * effectiveness / design * injected / (effectiveness + injected*(1-effectiveness))
		assert.InDelta(t, want, u.HeatShare(point.h), 1e-6)
		assert.InDelta(t, point.mixing, u.HeatShare(point.h), 5e-4)
		assert.InDelta(t, point.throttled, branch.HeatShare(point.h), 5e-4)
	}
}

// Where a diverting circuit keeps its pressure, the terminal is throttled as in a
// branch, and all that is told of it must be the same.
func TestDivertingUnderConstantPressureIsAThrottledBranch(t *testing.T) {
	for _, unit := range []terminal.Terminal{testCoil(t), must(terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: units.Kilowatt, Rated: degrees(16, 18, 26)}))} {
		c := coilCircuit{unit, 8 * units.Kilopascal, 12 * units.Kilopascal, valve.EqualPercentage(50)}
		u := circuitChain(t, c.diverting(t), unit)
		h := newUnit(t, unitConfig{terminal: unit, authority: 0.4, curve: c.curve})
		for _, opening := range []float64{0, 0.005, 0.3, 0.77, 1} {
			assert.InDelta(t, h.HeatShare(opening), u.HeatShare(opening), 1e-8)
			assert.InDelta(t, h.Gain(opening), u.Gain(opening), 1e-5)
		}
		a, b := must(h.Linearity(hydronics.HeatRange{})), must(u.Linearity(hydronics.HeatRange{}))
		assert.InDelta(t, a.Deviation, b.Deviation, 1e-8)
		assert.InDelta(t, a.GainRatio(), b.GainRatio(), 1e-4)
		assert.InDelta(t, a.From, b.From, 1e-7)
		steps := hydronics.Resolution{Signal: 0.02, Stem: 0.03}
		x, y := must(h.LeastLoad(steps)), must(u.LeastLoad(steps))
		assert.InDelta(t, x.Share, y.Share, 1e-8)
		assert.InDelta(t, x.Travel, y.Travel, 0)
		assert.InDelta(t, x.Opening, y.Opening, 0)
		ranking := rank(t, hydronics.PairingConfig{Terminal: unit, Circuit: c.diverting(t), Resolution: steps})
		for i, r := range rank(t, hydronics.PairingConfig{Terminal: unit, Authority: 0.4, Resolution: steps}) {
			assert.Equal(t, r.Pairing.String(), ranking[i].Pairing.String())
			assert.InDelta(t, r.Deviation, ranking[i].Deviation, 1e-8)
			assert.InDelta(t, r.LeastLoad.Share, ranking[i].LeastLoad.Share, 1e-8)
		}
	}
}

// All kinds of circuits and of terminals: what Respond tells is what the circuit tells
// at that travel, heat counts as the terminal counts, and SignalForHeat undoes it.
func TestCircuitChainAgreesWithItself(t *testing.T) {
	coil := testCoil(t)
	cooling := must(terminal.NewCoil(terminal.CoilConfig{Heat: 12 * units.Kilowatt, Design: degrees(6, 12, 26), LeavingAir: units.Celsius(15), WaterShare: 0.25}))
	radiator := must(terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 20 * units.Kilowatt}))
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]terminal.Terminal{coil, cooling, radiator}).Draw(t, "terminal")
		name := rapid.SampledFrom([]string{"mixing", "diverting", "injection", "throttled", "regulated"}).Draw(t, "circuit")
		c := circuitsOf(testingTB, unit.Design().Density, unit.Design().SpecificHeat)[name]
		u := circuitChain(t, c, unit)
		opening := rapid.Float64Range(0, 1).Draw(t, "opening")
		r := u.Respond(u.SignalAt(opening))
		state := c.WithTerminal(r.Travel, unit, terminal.Conditions{})
		require.Equal(t, state, r.State)
		require.InDelta(t, math.Abs(float64(state.Heat)), float64(r.Heat), 0)
		require.InDelta(t, float64(r.Heat), float64(u.Heat(u.SignalAt(opening))), 0)
		require.InDelta(t, float64(r.Heat/u.FullHeat()), u.HeatShare(opening), 1e-12)
		s, err := u.SignalForHeat(r.Heat)
		require.NoError(t, err)
		require.InDelta(t, 0, float64((u.Heat(s)-r.Heat)/u.FullHeat()), 1e-9)
		require.InDelta(t, opening, u.OpeningForShare(u.HeatShare(opening)), 1e-6)
		later := min(opening+0.05, 1)
		require.GreaterOrEqual(t, u.HeatShare(later), u.HeatShare(opening))
		require.Equal(t, c, u.Circuit())
	})
}

// testingTB is for helpers that only report what cannot be.
var testingTB testing.TB = &testing.T{}

func TestCircuitChainReachesBothEnds(t *testing.T) {
	c := coilCircuit{testCoil(t), 10 * units.Kilopascal, 10 * units.Kilopascal, valve.EqualPercentage(50)}
	u := circuitChain(t, c.throttled(t), c.unit)
	for heat, want := range map[units.Power]float64{0: 0, u.FullHeat(): 10, u.FullHeat() * (1 + 1e-12): 10} {
		s, err := u.SignalForHeat(heat)
		require.NoError(t, err)
		assert.InDelta(t, want, s.Number(), 1e-9)
	}
	assert.InDelta(t, 0, u.OpeningForShare(-1), 0)
	assert.True(t, math.IsNaN(u.OpeningForShare(1.1)))
	for _, heat := range []units.Power{13 * units.Kilowatt, 500 * units.Kilowatt, -units.Watt, units.Power(math.NaN())} {
		_, err := u.SignalForHeat(heat)
		var unreachable *hydronics.UnreachableHeatError
		require.ErrorAs(t, err, &unreachable, "%v", heat)
		assert.InDelta(t, float64(u.FullHeat()), float64(unreachable.Greatest), 0)
		assert.ErrorIs(t, err, terminal.ErrUnreachable)
	}
	_, err := u.SignalForHeat(13 * units.Kilowatt)
	assert.ErrorIs(t, err, valve.ErrUnreachable, "more water would do")
	_, err = u.SignalForHeat(500 * units.Kilowatt)
	assert.NotErrorIs(t, err, valve.ErrUnreachable, "no water would do")
}

// A push-to-open valve whose signal falls, and an actuator that holds.
func TestCircuitChainActions(t *testing.T) {
	val, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Control: valve.PortConfig{Kvs: 1 * units.Kv, Curve: valve.EqualPercentage(50)}, Bypass: valve.PortConfig{Curve: valve.Linear(50)},
		Stroke: 15 * units.Millimetre, Stem: valve.PushToOpen,
	})
	require.NoError(t, err)
	c, err := hydronics.NewMixingCircuit(val, mixingConfig())
	require.NoError(t, err)
	cfg := actuator.Config{
		Input: signal.Range2To10V(), Action: actuator.Reverse, ClosingEnd: actuator.Retracted,
		Stroke: 15 * units.Millimetre, BelowLiveZero: actuator.HoldBelowLiveZero,
	}
	act, err := actuator.New(cfg)
	require.NoError(t, err)
	u, err := hydronics.NewCircuitChain(act, c, testCoil(t), terminal.Conditions{})
	require.NoError(t, err)
	assert.InDelta(t, 10, u.SignalAt(0).Number(), 1e-12)
	assert.Greater(t, u.Heat(signal.Volts(4)), u.Heat(signal.Volts(8)))
	assert.InDelta(t, 0.4, u.OpeningForShare(u.HeatShare(0.4)), 1e-9)
	held := u.Respond(signal.Volts(0.1))
	assert.True(t, held.Held)
	for _, x := range []float64{held.Coefficient, float64(held.Heat), float64(held.State.Consumer), held.State.ConsumerReturn.Kelvin(), float64(u.Heat(signal.Volts(0.1)))} {
		assert.True(t, math.IsNaN(x))
	}
	drive := u.Drive()
	assert.Equal(t, 15*units.Millimetre, drive.Stroke())
	// The ranking mounts what fits, and its best is straighter than what is there.
	there := must(u.Linearity(hydronics.HeatRange{}))
	best := rank(t, hydronics.PairingConfig{Terminal: testCoil(t), Circuit: c})[0]
	assert.LessOrEqual(t, best.Deviation, there.Deviation+1e-9)
}

func TestCircuitChainAtOtherConditions(t *testing.T) {
	c := coilCircuit{testCoil(t), 10 * units.Kilopascal, 10 * units.Kilopascal, valve.EqualPercentage(50)}
	u := circuitChain(t, c.throttled(t), c.unit)
	mild, err := u.With(terminal.Conditions{Supply: units.Celsius(48)})
	require.NoError(t, err)
	assert.InDelta(t, 0.5, float64(mild.FullHeat()/u.FullHeat()), 1e-9, "half the distance from the air, half the heat")
	turned, err := u.With(terminal.Conditions{Supply: units.Celsius(6)})
	require.NoError(t, err)
	assert.Negative(t, turned.FullHeat())
	for _, at := range []terminal.Conditions{{Supply: units.Celsius(16)}, {Supply: units.Celsius(math.NaN())}, {Humidity: 2}} {
		_, err := u.With(at)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
}

func TestCircuitChainRefusesWhatMakesNoUnit(t *testing.T) {
	c := coilCircuit{testCoil(t), 10 * units.Kilopascal, 10 * units.Kilopascal, valve.EqualPercentage(50)}
	_, err := hydronics.NewCircuitChain(actuator.Actuator{}, hydronics.Circuit{}, nil, terminal.Conditions{})
	assert.ErrorContains(t, err, "Circuit")
	assert.ErrorContains(t, err, "Terminal")
	_, err = hydronics.NewCircuitChain(opener(t, actuator.Linear(), 50*units.Millimetre), c.throttled(t), c.unit, terminal.Conditions{})
	assert.ErrorContains(t, err, "Stroke")
	_, err = hydronics.NewCircuitChain(opener(t, actuator.Linear(), 15*units.Millimetre), c.throttled(t), terminal.Coil{}, terminal.Conditions{})
	assert.ErrorIs(t, err, units.ErrInvalid)

	var zero hydronics.CircuitChain
	r := zero.Respond(signal.Volts(5))
	for _, x := range []float64{float64(r.Heat), float64(zero.Heat(signal.Volts(5))), float64(zero.HeatAtTravel(0.5)), zero.HeatShare(0.5), zero.Gain(0.5), zero.OpeningForShare(0.5)} {
		assert.True(t, math.IsNaN(x))
	}
	_, err = zero.With(terminal.Conditions{})
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = zero.SignalForHeat(units.Kilowatt)
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = zero.Linearity(hydronics.HeatRange{From: 2})
	assert.ErrorContains(t, err, "HeatRange")
	_, err = zero.LeastLoad(hydronics.Resolution{Stem: 1})
	assert.ErrorContains(t, err, "Resolution.Stem")
}

// A ranking in a circuit tries the characteristic on the control port and leaves the
// rest: what it says of the circuit's own is what the chain says.
func TestRankingInACircuitLeavesTheRest(t *testing.T) {
	coil := testCoil(t)
	all := circuitsOf(t, coil.Design().Density, coil.Design().SpecificHeat)
	limited := must(valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Settings:    []valve.Setting{{Mark: 1, Flow: circuitFlow / 2, MinPressure: 5 * units.Kilopascal}, {Mark: 2, Flow: circuitFlow, MinPressure: 8 * units.Kilopascal}},
		SettingKind: valve.LiftLimiting, Stroke: 5 * units.Millimetre, Curve: valve.EqualPercentage(50), Rangeability: 40, Density: 1040,
	}))
	limited = must(limited.WithFlow(0.8 * circuitFlow))
	all["limited"] = must(hydronics.NewThrottledInjectionCircuit(limited, throttledConfig()))
	for name, c := range all {
		u := circuitChain(t, c, coil)
		want := must(u.Linearity(hydronics.HeatRange{}))
		r := ranked(t, rank(t, hydronics.PairingConfig{Terminal: coil, Circuit: c}), actuator.Linear(), valve.EqualPercentage(50))
		assert.InDelta(t, want.Deviation, r.Deviation, 1e-9, name)
		assert.InDelta(t, want.GainRatio(), r.GainRatio(), 1e-6, name)
	}
	_, err := hydronics.RankPairings(hydronics.PairingConfig{
		Terminal: coil, Circuit: all["mixing"], Authority: 0.5, Rangeability: 30, Leakage: 0.01,
	})
	for _, field := range []string{"Authority", "Rangeability", "Leakage"} {
		assert.ErrorContains(t, err, field)
	}
}

func TestCircuitChainDoesNotAllocate(t *testing.T) {
	coil := testCoil(t)
	for name, c := range circuitsOf(t, coil.Design().Density, coil.Design().SpecificHeat) {
		u := circuitChain(t, c, coil)
		sink := 0.0
		require.Zero(t, testing.AllocsPerRun(20, func() {
			r := u.Respond(signal.Volts(4))
			back, _ := u.SignalForHeat(u.FullHeat() / 2)
			least, _ := u.LeastLoad(hydronics.Resolution{Signal: 0.01})
			again, _ := u.With(terminal.Conditions{})
			sink += float64(r.Heat+u.Heat(signal.Volts(5))+least.Heat+again.FullHeat()) + u.Gain(0.5) + back.Number()
		}), name)
		require.NotZero(t, sink)
	}
}

// BenchmarkCircuitChain has no budget of its own: a circuit is solved, not written
// down. What it takes is told beside [hydronics.CircuitChain].
func BenchmarkCircuitChain(b *testing.B) {
	signals := benchSignals()
	for what, unit := range map[string]terminal.Terminal{
		"coil": testCoil(b), "radiator": must(terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 20 * units.Kilowatt})),
	} {
		for name, c := range circuitsOf(b, unit.Design().Density, unit.Design().SpecificHeat) {
			u := circuitChain(b, c, unit)
			b.Run(what+"/"+name, func(b *testing.B) {
				b.ReportAllocs()
				for i := 0; b.Loop(); i++ {
					u.Heat(signals[i%len(signals)])
				}
			})
		}
	}
}
