package pump_test

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/pump"
	"github.com/indexrun/indexrun/units"
)

// circulator is an invented heating pump.
func circulator() pump.Config {
	return pump.Config{
		Points: []pump.Point{
			{Flow: 0, Head: 62 * units.Kilopascal},
			{Flow: 0.5 * units.LitrePerSecond, Head: 60.5 * units.Kilopascal},
			{Flow: 1 * units.LitrePerSecond, Head: 56 * units.Kilopascal},
			{Flow: 1.5 * units.LitrePerSecond, Head: 49 * units.Kilopascal},
			{Flow: 2 * units.LitrePerSecond, Head: 39 * units.Kilopascal},
		},
		EfficiencyPoints: []pump.EfficiencyPoint{
			{Flow: 0.5 * units.LitrePerSecond, Efficiency: 0.31},
			{Flow: 1 * units.LitrePerSecond, Efficiency: 0.48},
			{Flow: 1.5 * units.LitrePerSecond, Efficiency: 0.54},
			{Flow: 2 * units.LitrePerSecond, Efficiency: 0.5},
		},
		Drive: 0.8,
	}
}

func mustPump(t require.TestingT, cfg pump.Config) pump.Pump {
	p, err := pump.New(cfg)
	require.NoError(t, err)
	return p
}

func mustSystem(t require.TestingT, static units.Pressure, q units.Flow, loss units.Pressure) pump.System {
	s, err := pump.NewSystem(pump.SystemConfig{Static: static, Loss: pump.Point{Flow: q, Head: loss}})
	require.NoError(t, err)
	return s
}

// drawPump makes any pump with a shut-off head of 1 … 1000 kPa; one in three has
// a flat start, one in three is a straight line.
func drawPump(t *rapid.T, label string) pump.Pump {
	a := math.Pow(10, rapid.Float64Range(0, 3).Draw(t, label+" log a"))
	q := math.Pow(10, rapid.Float64Range(-2, 3).Draw(t, label+" log q"))
	linear := []float64{0, 1, rapid.Float64Range(0, 1).Draw(t, label+" linear")}[rapid.IntRange(0, 2).Draw(t, label+" kind")]
	var points []pump.Point
	for _, x := range []float64{0, 0.3, 0.7, 1} {
		head := a * (1 - 0.8*(linear*x+(1-linear)*x*x))
		points = append(points, pump.Point{Flow: litres(q * x), Head: units.Pressure(head) * units.Kilopascal})
	}
	p, err := pump.New(pump.Config{Points: points, Efficiency: 0.6, Drive: 0.85})
	require.NoError(t, err)
	return p
}

func TestHeadFallsStrictly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPump(t, "pump")
		runout := p.Runout()
		for _, scale := range []units.Flow{1e-6, 1e-4, 1e-2, 1} {
			before := p.Head(-1.2 * scale * runout)
			for x := -1.15; x < 1.2; x += 0.05 {
				q := units.Flow(x) * scale * runout
				assert.Less(t, p.Head(q), before)
				assert.Negative(t, p.HeadSlope(q))
				before = p.Head(q)
			}
		}
		assert.InDelta(t, 0, float64(p.Head(runout)/p.ShutOff()), 1e-14)
		assert.Equal(t, p.ShutOff(), p.Head(0))
	})
}

func TestFlowInvertsHead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPump(t, "pump")
		q := units.Flow(rapid.Float64Range(-2, 2).Draw(t, "share")) * p.Runout()
		// A head near shut-off is rounded to 1e-16 of itself: that rounding is
		// what the flow can be off by.
		allowed := 1e-12*math.Abs(float64(q)) + 4e-16*math.Abs(float64(p.Head(q))/p.HeadSlope(q))
		assert.InDelta(t, float64(q), float64(p.Flow(p.Head(q))), allowed)
	})
}

func TestSlopesAreDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPump(t, "pump")
		x := rapid.Float64Range(0.01, 1.5).Draw(t, "share")
		q, h := units.Flow(x)*p.Runout(), 1e-3*p.Runout()
		difference := float64(p.Head(q+h)-p.Head(q-h)) / float64(2*h)
		assert.InEpsilon(t, difference, p.HeadSlope(q), 1e-8)
		assert.InEpsilon(t, 1, p.HeadSlope(q)*p.Slope(p.Head(q)), 1e-9)
	})
}

// TestSmoothedStart: within a ten-thousandth of the runout flow the curve may
// differ from the parabola by 1e-9 of the shut-off head, and its slope meets the
// parabola's at the end.
func TestSmoothedStart(t *testing.T) {
	p := mustPump(t, pump.Config{ShutOff: 40 * units.Kilopascal, Duty: pump.Point{Flow: 2 * units.LitrePerSecond, Head: 10 * units.Kilopascal}})
	c := 30e3 / 4e-6
	q0 := float64(p.Runout()) * 1e-4
	for x := -1.5; x <= 1.5; x += 0.01 {
		q := x * q0
		assert.InDelta(t, 40e3-c*q*math.Abs(q), float64(p.Head(units.Flow(q))), 40e3*1e-9)
	}
	for _, side := range []float64{-1, 1} {
		inside, outside := p.HeadSlope(units.Flow(side*q0*(1-1e-9))), p.HeadSlope(units.Flow(side*q0*(1+1e-9)))
		assert.InEpsilon(t, -2*c*q0, inside, 1e-8)
		assert.InEpsilon(t, inside, outside, 1e-8)
	}
	assert.InEpsilon(t, -c*q0/2, p.HeadSlope(0), 1e-12)
	assert.InEpsilon(t, -2/(c*q0), p.Slope(p.ShutOff()), 1e-12)
}

func TestAffinityLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := mustPump(t, circulator())
		n := rapid.Float64Range(0.05, 2).Draw(t, "speed")
		slow, err := p.AtSpeed(n)
		require.NoError(t, err)
		q := litres(rapid.Float64Range(0, 2.5).Draw(t, "flow"))
		nq := units.Flow(n) * q
		assert.InEpsilon(t, n*n*float64(p.Head(q)), float64(slow.Head(nq)), 1e-12)
		assert.InEpsilon(t, n*p.HeadSlope(q), slow.HeadSlope(nq), 1e-12)
		assert.InDelta(t, p.Efficiency(q), slow.Efficiency(nq), 1e-12)
		assert.InEpsilon(t, n*n*n*float64(p.ShaftPower(q)), float64(slow.ShaftPower(nq)), 1e-10)
		assert.InEpsilon(t, n*n*n*float64(p.ElectricPower(q)), float64(slow.ElectricPower(nq)), 1e-10)
		again, err := slow.AtSpeed(1)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(p.Head(q)), float64(again.Head(q)), 1e-12)
		assert.Equal(t, 1.0, again.Speed())
	})
}

func TestSpeedDomain(t *testing.T) {
	p := mustPump(t, circulator())
	for _, n := range []float64{0, -1, 2.1, math.NaN(), math.Inf(1)} {
		_, err := p.AtSpeed(n)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
}

// TestOperatingPoint: at the operating point the pump gives what the system
// takes.
func TestOperatingPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPump(t, "pump")
		static := units.Pressure(rapid.Float64Range(-0.5, 0.999999).Draw(t, "static")) * p.ShutOff()
		loss := units.Pressure(math.Pow(10, rapid.Float64Range(-6, 12).Draw(t, "log loss"))) * p.ShutOff()
		system := mustSystem(t, static, p.Runout(), loss)
		got := p.Operate(system)
		assert.NotEqual(t, pump.NoFlow, got.Status)
		assert.Positive(t, got.Flow)
		assert.InDelta(t, 0, float64(got.Head-system.Pressure(got.Flow)), 1e-12*float64(max(p.ShutOff(), got.Head)))
	})
}

// TestPowerBalance: what the water gets, the shaft and the supply give.
func TestPowerBalance(t *testing.T) {
	p := mustPump(t, circulator())
	for _, q := range []float64{0.2, 0.5, 1, 1.5, 2, 2.4} {
		s := p.State(litres(q))
		assert.InEpsilon(t, float64(s.Head)*float64(s.Flow), float64(s.Hydraulic()), 1e-15)
		assert.InEpsilon(t, float64(s.Hydraulic()), s.Efficiency*float64(s.Shaft), 1e-12)
		assert.InEpsilon(t, float64(s.Shaft), 0.8*float64(s.Electric), 1e-12)
		assert.Equal(t, q > 2, s.Status == pump.BeyondCurve, "%v l/s", q)
	}
	for _, point := range circulator().EfficiencyPoints {
		assert.InDelta(t, point.Efficiency, p.Efficiency(point.Flow), 0.01)
	}
}

// TestPowerAtZeroFlow is the limit of the powers beside it.
func TestPowerAtZeroFlow(t *testing.T) {
	p := mustPump(t, circulator())
	assert.InEpsilon(t, float64(p.ShaftPower(1e-9*units.LitrePerSecond)), float64(p.ShaftPower(0)), 1e-6)
	assert.Positive(t, p.ShaftPower(0))
	assert.Zero(t, p.Efficiency(0))
	cfg := circulator()
	cfg.EfficiencyPoints, cfg.Efficiency = nil, 0.5
	assert.Zero(t, mustPump(t, cfg).ShaftPower(0))
}

func TestUnknownPowersAreNaN(t *testing.T) {
	cfg := circulator()
	cfg.EfficiencyPoints, cfg.Drive = nil, 0
	p := mustPump(t, cfg)
	s := p.State(1 * units.LitrePerSecond)
	for _, x := range []float64{s.Efficiency, float64(s.Shaft), float64(s.Electric),
		float64(mustPump(t, circulator()).ShaftPower(-1 * units.LitrePerSecond)),
		float64(mustPump(t, circulator()).ShaftPower(10 * units.LitrePerSecond))} {
		assert.True(t, math.IsNaN(x))
	}
	assert.True(t, p.Equal(mustPump(t, cfg)))
	assert.False(t, p.Equal(mustPump(t, circulator())))
	assert.True(t, mustPump(t, circulator()).Equal(mustPump(t, circulator())))
}

// TestNoEfficiencyWithoutPumping: in reverse flow and beyond runout there is none, as
// there is no power.
func TestNoEfficiencyWithoutPumping(t *testing.T) {
	constant := circulator()
	constant.EfficiencyPoints, constant.Efficiency = nil, 0.5
	for _, cfg := range []pump.Config{circulator(), constant} {
		p := mustPump(t, cfg)
		bank := mustParallel(t, p, p)
		for _, q := range []units.Flow{litres(-1e-9), litres(-0.5), 1.01 * p.Runout()} {
			assert.True(t, math.IsNaN(p.Efficiency(q)), "%v", q)
			assert.True(t, math.IsNaN(p.State(q).Efficiency), "%v", q)
			assert.True(t, math.IsNaN(bank.State(2*q).Efficiency), "%v", q)
		}
		assert.GreaterOrEqual(t, p.Efficiency(0), 0.0)
		assert.Positive(t, p.Efficiency(p.Runout()*0.999))
	}
}

func TestNoFlowAgainstStaticPressure(t *testing.T) {
	p := mustPump(t, circulator())
	s := p.Operate(mustSystem(t, p.ShutOff(), litres(1), 10*units.Kilopascal))
	assert.Equal(t, pump.NoFlow, s.Status)
	assert.Zero(t, s.Flow)
	assert.Equal(t, p.ShutOff(), s.Head)
}

// TestPointsSurvive: New copies, and reports how far the fit is off.
func TestPointsSurvive(t *testing.T) {
	cfg := circulator()
	p := mustPump(t, cfg)
	assert.Less(t, p.Deviation(), 0.5*units.Kilopascal)
	assert.Positive(t, p.Deviation())
	want := p.Head(1 * units.LitrePerSecond)
	clear(cfg.Points)
	clear(cfg.EfficiencyPoints)
	assert.Equal(t, want, p.Head(1*units.LitrePerSecond))
}

func TestBadCurvesAreRefused(t *testing.T) {
	at := func(pairs ...float64) []pump.Point {
		var points []pump.Point
		for i := 0; i < len(pairs); i += 2 {
			points = append(points, pump.Point{Flow: litres(pairs[i]), Head: units.Pressure(pairs[i+1]) * units.Kilopascal})
		}
		return points
	}
	eff := func(pairs ...float64) []pump.EfficiencyPoint {
		var points []pump.EfficiencyPoint
		for i := 0; i < len(pairs); i += 2 {
			points = append(points, pump.EfficiencyPoint{Flow: litres(pairs[i]), Efficiency: pairs[i+1]})
		}
		return points
	}
	good := at(0, 60, 1, 50, 2, 30)
	nan := math.NaN()
	for _, c := range []struct {
		name string
		cfg  pump.Config
		want string
	}{
		{"nothing", pump.Config{}, "pump: Points: got 0, want three points or more (or ShutOff and Duty)"},
		{"two points", pump.Config{Points: at(0, 60, 1, 50)}, "pump: Points: got 2, want three points or more"},
		{"rising head", pump.Config{Points: at(0, 60, 1, 61, 2, 40)}, "pump: Points[1].Head: got 61 kPa, want a head no higher than at the point before: a rising curve has two flows for one head"},
		{"flow goes back", pump.Config{Points: at(0, 60, 2, 50, 1, 40)}, "pump: Points[2].Flow: got 1 l/s, want a flow above that of the point before"},
		{"negative flow", pump.Config{Points: at(-1, 60, 1, 50, 2, 40)}, "pump: Points[0].Flow: got -1 l/s"},
		{"negative head", pump.Config{Points: at(0, 60, 1, 50, 2, -40)}, "pump: Points[2].Head: got -40 kPa"},
		{"no number", pump.Config{Points: at(0, 60, nan, 50, 2, 40)}, "pump: Points[1].Flow: got NaN"},
		{"flat", pump.Config{Points: at(0, 60, 1, 60, 2, 60)}, "pump: Points: got 60 kPa at both ends, want a head that falls"},
		{"no pump curve", pump.Config{Points: at(0, 60, 1, 5, 2, 4, 3, 3, 4, 2)}, "want points within "},
		{"extrapolated shut-off", pump.Config{Points: at(1, 50, 1.2, 40, 1.3, 20)}, "want points within 5 kPa of a falling curve"},
		{"both forms", pump.Config{Points: good, ShutOff: 60 * units.Kilopascal}, "pump: Points: got 3 points besides ShutOff and Duty, want either"},
		{"duty above shut-off", pump.Config{ShutOff: 60 * units.Kilopascal, Duty: pump.Point{Flow: litres(1), Head: 61 * units.Kilopascal}}, "pump: Duty.Head: got 61 kPa, want a head below ShutOff"},
		{"duty at no flow", pump.Config{ShutOff: 60 * units.Kilopascal, Duty: pump.Point{Head: 50 * units.Kilopascal}}, "pump: Duty.Flow: got 0 l/s"},
		{"no shut-off", pump.Config{Duty: pump.Point{Flow: litres(1), Head: 50 * units.Kilopascal}}, "pump: ShutOff: got 0 kPa"},
		{"negative end", pump.Config{Points: good, End: -1}, "pump: End: got"},
		{"efficiency above one", pump.Config{Points: good, Efficiency: 1.2}, "pump: Efficiency: got 1.2, want above 0 and at most 1"},
		{"negative drive", pump.Config{Points: good, Drive: -0.5}, "pump: Drive: got -0.5"},
		{"two efficiencies", pump.Config{Points: good, Efficiency: 0.5, EfficiencyPoints: eff(1, 0.5, 2, 0.4)}, "pump: Efficiency: got 0.5, want either"},
		{"one efficiency point", pump.Config{Points: good, EfficiencyPoints: eff(1, 0.5)}, "pump: EfficiencyPoints: got 1, want two points or more"},
		{"efficiency of percent", pump.Config{Points: good, EfficiencyPoints: eff(1, 50, 2, 40)}, "pump: EfficiencyPoints[0].Efficiency: got 50"},
		{"efficiency flows", pump.Config{Points: good, EfficiencyPoints: eff(1, 0.5, 1, 0.4)}, "pump: EfficiencyPoints[1].Flow: got 1 l/s"},
		{"efficiency scatter", pump.Config{Points: good, EfficiencyPoints: eff(0.5, 0.5, 1, 0.1, 1.5, 0.6, 2, 0.1)}, "of the fitted curve's"},
		{"efficiency below zero between", pump.Config{Points: good, EfficiencyPoints: eff(0.9, 0.02, 1, 0.05, 2, 0.6)}, "pump: EfficiencyPoints: got a fit of -"},
	} {
		_, err := pump.New(c.cfg)
		require.ErrorIs(t, err, units.ErrInvalid, c.name)
		assert.ErrorContains(t, err, c.want, c.name)
	}
	_, err := pump.New(pump.Config{Points: at(0, 60, 1, 61, 0.5, 40), Drive: 2})
	for _, field := range []string{"Points[1].Head", "Points[2].Flow", "Drive"} {
		assert.ErrorContains(t, err, "pump: "+field+": got")
	}
}

func TestSystemDomain(t *testing.T) {
	_, err := pump.NewSystem(pump.SystemConfig{Static: units.Pressure(math.NaN())})
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{"Static", "Loss.Flow", "Loss.Head"} {
		assert.ErrorContains(t, err, "pump: "+field+": got")
	}
	s := mustSystem(t, 5*units.Kilopascal, litres(2), 20*units.Kilopascal)
	assert.InDelta(t, 25e3, float64(s.Pressure(litres(2))), 1e-9)
	assert.InDelta(t, 10e3, float64(s.Pressure(litres(1))), 1e-9)
	assert.InDelta(t, -15e3, float64(s.Pressure(litres(-2))), 1e-9)
	assert.True(t, s.Equal(mustSystem(t, 5*units.Kilopascal, litres(2), 20*units.Kilopascal)))
}

func TestNaN(t *testing.T) {
	p := mustPump(t, circulator())
	nan := units.Flow(math.NaN())
	bank, err := pump.Parallel(p, mustPump(t, pump.Config{ShutOff: 50 * units.Kilopascal, Duty: pump.Point{Flow: litres(1), Head: 20 * units.Kilopascal}}))
	require.NoError(t, err)
	for _, x := range []float64{float64(p.Head(nan)), p.HeadSlope(nan), float64(p.Flow(units.Pressure(nan))), float64(p.ShaftPower(nan)),
		float64(bank.Head(nan)), float64(bank.Flow(units.Pressure(nan)))} {
		assert.True(t, math.IsNaN(x))
	}
}

// TestConfigJSON: configurations survive JSON without loss.
func TestConfigJSON(t *testing.T) {
	for _, want := range []any{circulator(), setLines()["index"], pump.SystemConfig{Static: 3 * units.Kilopascal, Loss: pump.Point{Flow: litres(1)}}} {
		data, err := json.Marshal(want)
		require.NoError(t, err)
		got := reflect.New(reflect.TypeOf(want))
		require.NoError(t, json.Unmarshal(data, got.Interface()))
		assert.Equal(t, want, got.Elem().Interface())
	}
}

func TestColumns(t *testing.T) {
	const glycol = 1052 * units.KilogramPerCubicMetre
	dp := pump.Head(12*units.Metre, glycol)
	assert.InDelta(t, 1052*9.80665*12, float64(dp), 1e-9)
	assert.InDelta(t, 12, pump.Column(dp, glycol).In(units.Metre), 1e-12)
	assert.InDelta(t, float64(10*units.MetreOfWater), float64(metres(10)), 1e-9)
}

func TestSuctionDomain(t *testing.T) {
	_, err := pump.Suction{Height: units.Length(math.NaN()), Velocity: -1, Loss: -1}.NPSH(0)
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{"Pressure", "Vapour", "Height", "Velocity", "Loss", "Density", "required NPSH"} {
		assert.ErrorContains(t, err, "pump: "+field+": got")
	}
}

// TestSuctionOfGauge: a gauge at the inlet and the surface upstream give the
// same NPSH.
func TestSuctionOfGauge(t *testing.T) {
	const v, loss, level = 1.8, 4e3, 3.0
	rho := 998.2
	surface := pump.Suction{Pressure: units.Atmospheric(), Height: level * units.Metre, Loss: loss * units.Pascal,
		Vapour: units.Absolute(2339 * units.Pascal), Density: units.Density(rho)}
	gauge := surface
	gauge.Height, gauge.Loss, gauge.Velocity = 0, 0, v*units.MetrePerSecond
	gauge.Pressure = surface.Pressure.Add(units.Pressure(rho*9.80665*level - loss - rho*v*v/2))
	a, err := surface.NPSH(2 * units.Metre)
	require.NoError(t, err)
	b, err := gauge.NPSH(2 * units.Metre)
	require.NoError(t, err)
	assert.InDelta(t, float64(a.Available), float64(b.Available), 1e-12)
	assert.InDelta(t, float64(a.Available)-2, float64(a.Margin), 1e-12)
	assert.InDelta(t, float64(a.Available)/2, a.Ratio, 1e-12)
}

func TestWords(t *testing.T) {
	for s := pump.Normal; s <= pump.NoFlow; s++ {
		text, err := s.MarshalText()
		require.NoError(t, err)
		back := pump.Status(99)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, s, back)
		assert.Equal(t, string(text), s.String())
	}
	for m := pump.FixedSpeed; m <= pump.IndexUnit; m++ {
		text, err := m.MarshalText()
		require.NoError(t, err)
		back := pump.Mode(99)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, m, back)
		assert.Equal(t, string(text), m.String())
	}
	var m pump.Mode
	assert.EqualError(t, m.UnmarshalText([]byte("auto")), `pump: Mode: got "auto", want one of fixed-speed, constant-pressure, proportional-pressure, index-unit`)
	_, err := pump.Status(99).MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.Equal(t, "unknown 99", pump.Status(99).String())
	assert.Equal(t, "unknown 99", pump.Mode(99).String())
}

// TestZeroValues do not panic, and have no number where there is none.
func TestZeroValues(t *testing.T) {
	var p pump.Pump
	var b pump.Bank
	var c pump.Controlled
	var s pump.System
	assert.True(t, math.IsNaN(float64(b.Head(1))))
	assert.Zero(t, p.Head(0))
	assert.NotPanics(t, func() {
		p.State(1)
		p.Operate(s)
		b.State(1)
		b.Operate(s)
		c.State(1)
		c.Operate(s)
	})
}

func TestNoAllocations(t *testing.T) {
	p := mustPump(t, circulator())
	weak, err := p.AtSpeed(0.9)
	require.NoError(t, err)
	bank := mustParallel(t, p, weak)
	c := mustControl(t, setLines()["index"], p, weak)
	s := mustSystem(t, 0, litres(1.5), 30*units.Kilopascal)
	q, head := litres(1.2), 30*units.Kilopascal
	var sum float64
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		sum += float64(p.Head(q)) + p.HeadSlope(q) + float64(p.Flow(head)) + p.Slope(head) + float64(p.ShaftPower(q))
		sum += float64(p.Operate(s).Flow) + float64(bank.Head(q)) + float64(bank.Flow(head)) + float64(bank.Operate(s).Flow)
		sum += float64(c.Head(q)) + c.Speed(q) + float64(c.State(q).Shaft) + float64(c.Operate(s).Flow)
	}))
	assert.NotZero(t, sum)
}
