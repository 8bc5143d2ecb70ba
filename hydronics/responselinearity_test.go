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

// proportional is a terminal of a user's own, whose heat is proportional to its flow
// up to any limit: what remains is the curve of the valve.
type proportional struct{}

func (proportional) Design() terminal.DesignPoint {
	return terminal.DesignPoint{
		Flow: 0.1 * units.LitrePerSecond, Heat: units.Kilowatt, Return: units.Celsius(20), Density: valve.ReferenceDensity,
		Conditions: terminal.Conditions{Supply: units.Celsius(30), Air: units.Celsius(10)},
	}
}

func (p proportional) Heat(q units.Flow) units.Power {
	return p.Design().Heat * units.Power(q/p.Design().Flow)
}

func (p proportional) Output(q units.Flow, _ terminal.Conditions) terminal.Output {
	return terminal.Output{Heat: p.Heat(q)}
}

func (p proportional) FlowFor(heat units.Power, _ terminal.Conditions) (units.Flow, error) {
	return p.Design().Flow * units.Flow(heat/p.Design().Heat), nil
}

func (proportional) HeatShare(flow float64) float64 { return flow }
func (proportional) FlowShare(heat float64) float64 { return heat }

// Closed forms for a terminal in proportion at authority 1: the response is the
// valve's curve, and its gain ratio, deviation and extremes are integrals and
// derivatives of h² and R^(h−1).
func TestLinearityClosedForms(t *testing.T) {
	k := math.Log(50)
	deviation := math.Sqrt((1-math.Exp(-2*k))/(2*k) - 2*(1/k-(1-math.Exp(-k))/(k*k)) + 1.0/3)
	for name, tt := range map[string]struct {
		curve                     valve.Characteristic
		from, to                  float64
		least, greatest, deviates float64
	}{
		"straight":         {valve.Linear(math.Inf(1)), 0.1, 0.9, 1, 1, 0},
		"parabolic":        {valve.Parabolic(), math.Sqrt(0.1), math.Sqrt(0.9), 2 * math.Sqrt(0.1), 2 * math.Sqrt(0.9), math.Sqrt(1.0 / 30)},
		"equal percentage": {valve.EqualPercentage(50), 1 + math.Log(0.1)/k, 1 + math.Log(0.9)/k, 0.1 * k, 0.9 * k, deviation},
	} {
		t.Run(name, func(t *testing.T) {
			unit := newUnit(t, unitConfig{terminal: proportional{}, authority: 1, curve: tt.curve, valve: valve.TwoWayConfig{ClosingTravel: 1e-4}})
			l, err := unit.Linearity(hydronics.HeatRange{})
			require.NoError(t, err)
			assert.Equal(t, hydronics.UsualHeatRange(), l.Controlled)
			assert.InDelta(t, tt.from, l.From, 1e-9)
			assert.InDelta(t, tt.to, l.To, 1e-9)
			assert.InEpsilon(t, tt.least, l.LeastGain, 1e-3, "its chord is off the end of the range by 1e-4 of the signal")
			assert.InEpsilon(t, tt.greatest, l.GreatestGain, 1e-3)
			assert.InDelta(t, tt.deviates, l.Deviation, 1e-4)
			if tt.deviates > 0 {
				assert.InDelta(t, tt.from, l.LeastAt, 2e-4)
				assert.InDelta(t, tt.to, l.GreatestAt, 2e-4)
			}
		})
	}
}

// Gain ratio, deviation and least heat against an independent solution by bisection
// and differences.
func TestLinearityAgainstBisection(t *testing.T) {
	c := reference.Compare(t, "response_linearity")
	for row := range c.Rows() {
		unit := recordedUnit(t, row)
		least, err := unit.LeastLoad(hydronics.Resolution{})
		require.NoError(t, err)
		c.Check(row, "least_heat", least.Share)
		l, err := unit.Linearity(hydronics.HeatRange{})
		require.NoError(t, err)
		c.Check(row, "gain_ratio", l.GainRatio())
		c.CheckAbs(row, "deviation", l.Deviation)
	}
	c.Require(1e-9, "least_heat")
	c.Require(0.02, "gain_ratio")
	c.Require(1e-4, "deviation")
}

// Beside the kink where the flow in a coil turns laminar the gain jumps: its extremes
// are those of a scan as fine as the reach of a gain.
func TestLinearityFindsExtremesBetweenItsPoints(t *testing.T) {
	fan := must(terminal.NewCoil(terminal.CoilConfig{Heat: 5 * units.Kilowatt, Design: degrees(45, 40, 20), LeavingAir: units.Celsius(35), WaterShare: 0.25}))
	heating := must(terminal.NewCoil(terminal.CoilConfig{Heat: 5 * units.Kilowatt, Design: degrees(80, 60, 16), LeavingAir: units.Celsius(35), WaterShare: 0.2}))
	wet := must(terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat: 5 * units.Kilowatt, Design: degrees(6, 12, 27), Humidity: 0.5, AirFlow: 0.28 * units.CubicMetrePerSecond, WaterShare: 0.25,
	}))
	for name, coil := range map[string]terminal.Terminal{"fan coil": fan, "heating coil": heating, "wet coil": wet} {
		for _, curve := range []valve.Characteristic{valve.Linear(50), valve.EqualPercentage(50)} {
			unit := newUnit(t, unitConfig{terminal: coil, authority: 0.7, curve: curve})
			l := must(unit.Linearity(hydronics.HeatRange{}))
			const reach, step = 1e-4, 5e-5
			least, greatest := math.Inf(1), math.Inf(-1)
			for opening := l.From + reach; opening <= l.To-reach; opening += step {
				gain := unit.Gain(opening)
				least, greatest = min(least, gain), max(greatest, gain)
			}
			assert.InEpsilon(t, least, l.LeastGain, 3e-4, "%s %v", name, curve)
			assert.InEpsilon(t, greatest, l.GreatestGain, 3e-4, "%s %v", name, curve)
			assert.InDelta(t, l.LeastGain, unit.Gain(l.LeastAt), 0)
			assert.InDelta(t, l.GreatestGain, unit.Gain(l.GreatestAt), 0)
		}
	}
}

// Where the closing region reaches beyond the range there is nothing to compare.
func TestLinearityWithoutAnythingControlled(t *testing.T) {
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: units.Kilowatt})
	require.NoError(t, err)
	unit := newUnit(t, unitConfig{terminal: radiator, authority: 0.001, curve: valve.Linear(50)})
	l, err := unit.Linearity(hydronics.HeatRange{})
	require.NoError(t, err)
	assert.True(t, math.IsNaN(l.GainRatio()))
	assert.Equal(t, l.Controlled.From, l.Controlled.To)
	assert.Greater(t, l.Deviation, 0.5)
}

func TestLinearityRefusesBadRanges(t *testing.T) {
	unit := newUnit(t, unitConfig{terminal: testCoil(t), authority: 0.5, curve: valve.EqualPercentage(50)})
	for _, r := range []hydronics.HeatRange{{0.9, 0.1}, {0, 0.9}, {0.1, 1}, {math.NaN(), 0.9}, {-1, 2}} {
		_, err := unit.Linearity(r)
		assert.ErrorIs(t, err, units.ErrInvalid, "%v", r)
	}
	l, err := unit.Linearity(hydronics.HeatRange{From: 0.2, To: 0.5})
	require.NoError(t, err)
	assert.InDelta(t, 0.2, unit.HeatShare(l.From), 1e-9)
	assert.InDelta(t, 0.5, unit.HeatShare(l.To), 1e-9)
}

// By hand: a straight valve on a terminal in proportion at authority 1.
func TestLeastLoadByHand(t *testing.T) {
	for name, tt := range map[string]struct {
		resolution            hydronics.Resolution
		closing, rangeability float64
		curve                 valve.Characteristic
		opening, travel, heat float64
	}{
		"closing region":                      {curve: valve.Linear(math.Inf(1)), closing: 0.02, opening: 0.02, travel: 0.02, heat: 0.02},
		"rangeability":                        {curve: valve.Linear(math.Inf(1)), rangeability: 25, opening: 0.04, travel: 0.04, heat: 0.04},
		"signal in steps of 3 %":              {hydronics.Resolution{Signal: 0.03}, 0.02, 0, valve.Linear(math.Inf(1)), 0.03, 0.03, 0.03},
		"signal in finer steps":               {hydronics.Resolution{Signal: 0.0075}, 0.02, 0, valve.Linear(math.Inf(1)), 0.0225, 0.0225, 0.0225},
		"stem in steps of 0.8 %":              {hydronics.Resolution{Stem: 0.008}, 0.02, 0, valve.Linear(math.Inf(1)), 0.024, 0.024, 0.024},
		"signal and stem":                     {hydronics.Resolution{Signal: 0.03, Stem: 0.008}, 0.02, 0, valve.Linear(math.Inf(1)), 0.03, 0.024, 0.024},
		"a step that fits is not rounded up":  {hydronics.Resolution{Signal: 0.01, Stem: 0.01}, 0.03, 0, valve.Linear(math.Inf(1)), 0.03, 0.03, 0.03},
		"Kv0 of a linear valve counts too":    {curve: valve.Linear(50), closing: 0.02, opening: 0.02, travel: 0.02, heat: 0.02 + 0.98*0.02},
		"equal percentage, closing at 1/33.3": {curve: valve.EqualPercentage(50), rangeability: 33.3, opening: 1 - math.Log(33.3)/math.Log(50), travel: 1 - math.Log(33.3)/math.Log(50), heat: 1 / 33.3},
	} {
		t.Run(name, func(t *testing.T) {
			unit := newUnit(t, unitConfig{terminal: proportional{}, authority: 1, curve: tt.curve,
				valve: valve.TwoWayConfig{ClosingTravel: tt.closing, Rangeability: tt.rangeability}})
			l, err := unit.LeastLoad(tt.resolution)
			require.NoError(t, err)
			assert.InEpsilon(t, tt.opening, l.Opening, 1e-9)
			assert.InEpsilon(t, tt.travel, l.Travel, 1e-9)
			assert.InEpsilon(t, tt.heat, l.Share, 1e-9)
			assert.InEpsilon(t, tt.heat*1000, float64(l.Heat), 1e-9)
			assert.InEpsilon(t, tt.heat*0.1, l.Flow.In(units.LitrePerSecond), 1e-9)
		})
	}
}

// A pressure-independent valve has the closing region of its orifice; an actuator
// that closes on a rising signal counts its openings from the closed end too.
func TestLeastLoadOfAPressureIndependentValve(t *testing.T) {
	val, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Stroke: stroke, Curve: valve.Linear(math.Inf(1)), Rangeability: 40, ProportionalBand: 1e-5,
		Settings: []valve.Setting{{Mark: 1, Flow: 0.1 * units.LitrePerSecond, MinPressure: 20 * units.Kilopascal}},
	})
	require.NoError(t, err)
	act, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Action: actuator.Direct, Stroke: stroke})
	require.NoError(t, err)
	chain, err := hydronics.NewChain(act, val)
	require.NoError(t, err)
	unit, err := hydronics.NewHeatChain(chain, proportional{}, 100*units.Kilopascal, terminal.Conditions{})
	require.NoError(t, err)
	l, err := unit.LeastLoad(hydronics.Resolution{Signal: 0.01})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.03, l.Opening, 1e-9)
	assert.InEpsilon(t, 0.03, l.Share, 1e-5)
}

// No resolution gives less than none, and the travel is never in the closing region.
func TestLeastLoadProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := drawUnit(t)
		fine, err := unit.LeastLoad(hydronics.Resolution{})
		require.NoError(t, err)
		l, err := unit.LeastLoad(hydronics.Resolution{Signal: rapid.Float64Range(0, 0.2).Draw(t, "signal"), Stem: rapid.Float64Range(0, 0.2).Draw(t, "stem")})
		require.NoError(t, err)
		require.GreaterOrEqual(t, l.Travel, fine.Travel*(1-1e-9))
		require.GreaterOrEqual(t, l.Share, fine.Share*(1-1e-9))
		require.LessOrEqual(t, l.Share, 1+1e-9)
		require.InEpsilon(t, fine.Share, unit.HeatShare(fine.Opening), 1e-6)
	})
}

func TestLeastLoadRefusesBadResolutions(t *testing.T) {
	unit := newUnit(t, unitConfig{terminal: testCoil(t), authority: 0.5, curve: valve.EqualPercentage(50)})
	for _, r := range []hydronics.Resolution{{Signal: -0.1}, {Stem: 0.3}, {Signal: math.NaN()}, {Stem: math.Inf(1)}} {
		_, err := unit.LeastLoad(r)
		assert.ErrorIs(t, err, units.ErrInvalid, "%v", r)
	}
}
