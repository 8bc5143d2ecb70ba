package terminal_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// The rating of EN 442-1, 75/65/20: computed independently, 49.833 K.
func TestLogMean(t *testing.T) {
	assert.InDelta(t, 49.833, float64(celsius(75, 65, 20).LogMean()), 5e-4)
	assert.InDelta(t, 49.833, float64(celsius(-35, -25, 20).LogMean()), 5e-4, "cooling has the same")
	assert.InDelta(t, 10, float64(celsius(30, 30, 20).LogMean()), 1e-12)
	assert.InDelta(t, 7.958, float64(celsius(15, 17, 24).LogMean()), 5e-4)
	for _, bad := range []terminal.Temperatures{celsius(75, 20, 20), celsius(75, 10, 20), celsius(20, 20, 20), celsius(math.NaN(), 65, 20)} {
		assert.True(t, math.IsNaN(float64(bad.LogMean())), "%v", bad)
	}
	// Where the two forms of the code meet.
	for _, back := range []float64{71, 72, 72.4, 72.6, 74.9999, 75 - 1e-9} {
		a, b := 55.0, back-20
		series := (a + b) / 2 * (1 - math.Pow((a-b)/(a+b), 2)/3 - 4*math.Pow((a-b)/(a+b), 4)/45) // Taylor series of the logarithmic mean
		assert.InEpsilon(t, series, float64(celsius(75, back, 20).LogMean()), 1e-9, "%v", back)
	}
}

// Φ/Φn at n = 1.3 for a mean difference of 60, 40, 30, 20 against 50 K, values
// of common rating tables, computed independently. The spread is kept small, so
// that the mean is the same by any definition.
func TestRadiatorExponent(t *testing.T) {
	rated := celsius(70+1e-6, 70-1e-6, 20)
	for _, test := range []struct{ difference, want float64 }{{60, 1.2675}, {40, 0.7482}, {30, 0.5148}, {20, 0.3039}} {
		mean := 20 + test.difference
		r, err := terminal.NewRadiator(terminal.RadiatorConfig{
			RatedHeat: 1000 * units.Watt, Rated: rated, Exponent: 1.3, Design: celsius(mean+1e-6, mean-1e-6, 20),
		})
		require.NoError(t, err)
		assert.InDelta(t, test.want, r.Design().Heat.In(units.Kilowatt), 5e-5, "%v K", test.difference)
	}
}

// Output against flow, computed independently.
func TestRadiatorAgainstFlow(t *testing.T) {
	r, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1000 * units.Watt, Exponent: 1.3})
	require.NoError(t, err)
	assert.InDelta(t, 1000, r.Design().Heat.In(units.Watt), 1e-9, "the rating comes out at the rating")
	assert.InDelta(t, 65, r.Design().Return.Celsius(), 1e-9)
	assert.InDelta(t, 0.8892, r.HeatShare(0.5), 5e-5)

	r, err = terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1000 * units.Watt, Exponent: 1.3, Design: celsius(90, 70, 20)})
	require.NoError(t, err)
	assert.InDelta(t, 0.324, r.HeatShare(0.1), 5e-4)
	assert.InDelta(t, 0.350, arithmeticShare(90, 70, 20, 1.3, 0.1), 5e-4)
}

// arithmeticShare is the same law with the arithmetic mean, by bisection, with
// a return no colder than the room.
func arithmeticShare(supply, back, room, n, flow float64) float64 {
	lo, hi := room, supply
	for range 100 {
		tr := (lo + hi) / 2
		law := math.Pow(((supply+tr)/2-room)/((supply+back)/2-room), n)
		if carried := flow * (supply - tr) / (supply - back); carried < law {
			hi = tr // the surface gives more: a colder return
		} else {
			lo = tr
		}
	}
	return flow * (supply - lo) / (supply - back)
}

// For n = 1 the balance has a closed form, the e-function of ε-NTU.
func TestLinearEmitterClosedForm(t *testing.T) {
	f, err := terminal.NewFloor(terminal.FloorConfig{Conductance: 90 * units.WattPerKelvin, Area: 18 * units.SquareMetre, Design: celsius(40, 34, 20)})
	require.NoError(t, err)
	d := f.Design()
	capacity := float64(d.Density) * float64(d.SpecificHeat)
	// K_H·A·ΔT at the design temperatures: 90 W/K × 6/ln(20/14) K.
	assert.InEpsilon(t, 90*6/math.Log(20.0/14), float64(d.Heat), 1e-12)
	for _, share := range []float64{1e-6, 0.01, 0.3, 1, 4, 1e6} {
		c := capacity * float64(d.Flow) * share
		assert.InEpsilon(t, -c*20*math.Expm1(-90/c), float64(f.Heat(units.Flow(share)*d.Flow)), 1e-12, "%v", share)
	}
	assert.InEpsilon(t, 1800, float64(f.Heat(units.Flow(math.Inf(1)))), 1e-12)
}

// The inverse has a closed form too: the heat tells the mean difference, the
// mean tells the return, both tell the flow; and the return tells the mean, which tells
// heat and flow.
func TestRadiatorInverseClosedForm(t *testing.T) {
	r, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1000 * units.Watt, Exponent: 1.25, Design: celsius(70, 50, 21)})
	require.NoError(t, err)
	d := r.Design()
	for _, back := range []float64{22, 30, 45, 60, 69} {
		heat := 1000 * math.Pow(float64(celsius(70, back, 21).LogMean()/celsius(75, 65, 20).LogMean()), 1.25)
		want := heat / (float64(d.Density) * float64(d.SpecificHeat) * (70 - back))
		q, err := r.FlowFor(units.Power(heat), terminal.Conditions{})
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(q), 1e-10, "%v", back)
		assert.InDelta(t, back, r.Output(q, terminal.Conditions{}).Return.Celsius(), 1e-9)
		q, err = r.FlowForReturn(units.Celsius(back), terminal.Conditions{})
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(q), 1e-10, "%v", back)
	}
}

// EN 1264-2: at 9 K above the room, 29 °C, a floor gives 100 W/m², at 15 K
// 175 W/m², the limits of the zones (from memory).
func TestFloorSurface(t *testing.T) {
	for _, test := range []struct{ watt, difference float64 }{{100, 9}, {175, 15}} {
		f, err := terminal.NewFloor(terminal.FloorConfig{
			Conductance: units.ThermalConductance(test.watt / 20), Area: 1 * units.SquareMetre, Design: celsius(40+1e-6, 40-1e-6, 20),
		})
		require.NoError(t, err)
		assert.InDelta(t, test.watt, float64(f.Design().Heat), 1e-4)
		assert.InDelta(t, 20+test.difference, f.SurfaceTemperature(f.Design().Flow, terminal.Conditions{}).Celsius(), 0.05)
		assert.Equal(t, units.Celsius(20), f.SurfaceTemperature(0, terminal.Conditions{}))
	}
	cooled, err := terminal.NewFloor(terminal.FloorConfig{Conductance: 5, Area: 1, Design: celsius(16, 18, 25)})
	require.NoError(t, err)
	want := 25 - float64(cooled.Design().Heat)/6.5
	assert.InDelta(t, want, cooled.SurfaceTemperature(cooled.Design().Flow, terminal.Conditions{}).Celsius(), 1e-9)
}

// No pipes give more than the surface does with water for a floor: by hand, EN
// 1264-2 passes 8.92·49.326^0.1 W/(m²·K) = 13.17 at 80/60/20 (mean 20/ln 1.5 K),
// EN 1264-5 passes 6.5 in cooling, 65 W/K on 10 m².
func TestFloorBeyondItsSurface(t *testing.T) {
	for _, test := range []struct {
		conductance units.ThermalConductance
		design      terminal.Temperatures
		most        string
	}{
		{5000, celsius(80, 60, 20), "131.7 W/K"},
		{131.8, celsius(80, 60, 20), "131.7 W/K"},
		{90, celsius(16, 19, 26), "65 W/K"},
		{65, celsius(16, 19, 26), "65 W/K"},
	} {
		config := terminal.FloorConfig{Conductance: test.conductance, Area: 10 * units.SquareMetre, Design: test.design}
		_, err := terminal.NewFloor(config)
		assert.EqualError(t, err, "terminal: Conductance: got "+test.conductance.String()+", want less than "+test.most+
			", all that a surface of 10 m² passes at these temperatures (EN 1264)")
		config.Conductance = 0.999 * units.ThermalConductance(map[string]float64{"131.7 W/K": 131.7, "65 W/K": 65}[test.most])
		f, err := terminal.NewFloor(config)
		require.NoError(t, err)
		between(t, f, f.Design().Flow, f.Design().Conditions)
	}
}

// The surface lies between water and room, at any flow and conditions.
func TestFloorSurfaceIsBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share, laminar := rapid.Float64Range(0, 0.95).Draw(t, "water share"), rapid.Float64Range(0.001, 1).Draw(t, "laminar floor")
		f := drawFloor(t, drawTemperatures(t, rapid.Bool().Draw(t, "cooling")), units.Ratio(share), units.Ratio(laminar))
		between(t, f, units.Flow(drawShare(t))*f.Design().Flow, drawConditions(t, f.Design()))
	})
}

// between requires a surface between the room and the mean of the water.
func between(t require.TestingT, f terminal.Floor, q units.Flow, c terminal.Conditions) {
	water := terminal.Temperatures{Supply: c.Supply, Return: f.Output(q, c).Return, Air: c.Air}
	direction := math.Copysign(1, float64(c.Supply.Sub(c.Air)))
	excess := direction * float64(f.SurfaceTemperature(q, c).Sub(c.Air))
	assert.GreaterOrEqual(t, excess, 0.0)
	most := float64(water.LogMean())
	if math.IsNaN(most) || most > direction*float64(c.Supply.Sub(c.Air)) { // the return has the air's temperature, to rounding
		most = direction * float64(c.Supply.Sub(c.Air))
	}
	assert.LessOrEqual(t, excess, most*(1+1e-9)+1e-12)
}

// With a water share the two resistances are in series: K_H·A falls from 90 W/K
// to 90/(0.9 + 0.1·2^0.8) at half the flow, and to 90/(0.9 + 0.1/0.5) at a tenth,
// where the floor of 50 % holds. The heat is the closed form with that.
func TestFloorWaterShare(t *testing.T) {
	f, err := terminal.NewFloor(terminal.FloorConfig{
		Conductance: 90 * units.WattPerKelvin, Area: 18 * units.SquareMetre, Design: celsius(40, 34, 20), WaterShare: 0.1, LaminarFloor: 0.5,
	})
	require.NoError(t, err)
	d := f.Design()
	assert.InEpsilon(t, 90*6/math.Log(20.0/14), float64(d.Heat), 1e-12, "at design as without")
	for share, conductance := range map[float64]float64{1: 90, 0.5: 90 / (0.9 + 0.1*math.Pow(2, 0.8)), 0.1: 90 / (0.9 + 0.1/0.5)} {
		c := float64(d.Density) * float64(d.SpecificHeat) * float64(d.Flow) * share
		assert.InEpsilon(t, -c*20*math.Expm1(-conductance/c), float64(f.Heat(units.Flow(share)*d.Flow)), 1e-12, "%v", share)
	}
	assert.Equal(t, units.Celsius(20), f.SurfaceTemperature(-1, terminal.Conditions{}))
}

// The air's part of an active beam: 1.2 kg/m³ × 1006 J/(kg·K) × 20 l/s × 8 K.
func TestActiveBeamPrimaryAir(t *testing.T) {
	b, err := terminal.NewActiveBeam(terminal.ActiveBeamConfig{
		RatedHeat: 600 * units.Watt, Rated: celsius(14, 17, 24), PrimaryFlow: 20 * units.LitrePerSecond, PrimaryAir: units.Celsius(16),
	})
	require.NoError(t, err)
	for _, q := range []units.Flow{0, b.Design().Flow} {
		assert.InDelta(t, 193.152, float64(b.Output(q, terminal.Conditions{}).Primary), 1e-9)
	}
	o := b.Output(b.Design().Flow, terminal.Conditions{PrimaryAir: units.Celsius(26)})
	assert.InDelta(t, -48.288, float64(o.Primary), 1e-9, "warm air works against cooling")
	assert.InDelta(t, 600, float64(o.Heat), 1e-9)
}

// The water side's share makes the curve of a beam steeper at low flow.
func TestBeamWaterShare(t *testing.T) {
	config := terminal.PassiveBeamConfig{RatedHeat: 500 * units.Watt, Rated: celsius(14, 17, 24)}
	plain, err := terminal.NewPassiveBeam(config)
	require.NoError(t, err)
	config.WaterShare = 0.3
	real, err := terminal.NewPassiveBeam(config)
	require.NoError(t, err)
	assert.InDelta(t, 500, float64(real.Design().Heat), 1e-9, "the rating comes out at the rating")
	assert.Less(t, real.HeatShare(0.3), plain.HeatShare(0.3)-0.02)
	limit := float64(real.Heat(units.Flow(math.Inf(1))) / plain.Heat(units.Flow(math.Inf(1))))
	assert.InDelta(t, 1/0.7, limit, 1e-12)
}
