package terminal

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

// coilOf is a coil of known resistances, as the recorded integration has it.
func coilOf(row reference.Row) model {
	outside, inside := row.Float("R_air_K_W"), row.Float("R_water_K_W")
	return newWetModel(
		moistAir{flow: row.Float("m_air_kg_s"), pressure: row.Float("p_Pa")},
		exchanger{resistance: outside + inside, side: waterSide{share: inside / (outside + inside), floor: 1, per: 1}},
		liquid{density: 1, specificHeat: units.SpecificHeat(row.Float("C_water_W_K"))},
		Conditions{
			Supply:   units.AbsoluteKelvin(row.Float("T_supply_K")),
			Air:      units.AbsoluteKelvin(row.Float("T_air_K")),
			Humidity: units.Ratio(row.Float("RH")),
		})
}

// The error of the method in the heat at given resistances, as the comment of
// WetCoil states it.
const leastError, mostError = -0.06, 0.45

// Against an integration along the surface of the unsimplified equations, at
// given resistances: a check of the method's own error.
func TestWetCoilIntegrated(t *testing.T) {
	var square float64
	c := reference.Compare(t, "wetcoil")
	for row := range c.Rows() {
		m := coilOf(row)
		o, part := m.output(1, &m.design), m.condense(1, &m.design)
		want, change := row.Float("Q_W"), row.Float("T_air_K")-row.Float("T_leaving_K")
		off := float64(o.Heat)/want - 1
		square += off * off
		c.Check(row, "Q_W", float64(o.Heat))
		assert.Greater(t, off, leastError, row)
		assert.InDelta(t, row.Float("wet_share"), part.share, 0.15, row)
		assert.InDelta(t, row.Float("T_leaving_K"), o.Leaving.Kelvin(), 1, row)
		sensible := row.Float("m_air_kg_s") * (1006 + 1860*row.Float("W_air")) * change
		assert.InDelta(t, sensible, float64(o.Sensible), 0.05*want, row)
		if row.Float("wet_share") == 0 {
			assert.InDelta(t, 0, off, 1e-3, row) // the integration's own error
		}
	}
	assert.Less(t, math.Sqrt(square/float64(c.Len())), 0.03)
	c.Require(mostError)
}

// Against the same method by an independent solver, at given resistances: what the
// polynomial for the slope of the saturation enthalpy leaves.
func TestWetCoilByEffectiveness(t *testing.T) {
	c := reference.Compare(t, "wetcoil_method")
	for row := range c.Rows() {
		m := coilOf(row)
		o, part := m.output(1, &m.design), m.condense(1, &m.design)
		c.Check(row, "Q_W", float64(o.Heat))
		c.Check(row, "Q_sensible_W", float64(o.Sensible))
		c.CheckAbs(row, "wet_share", part.share)
	}
	c.Require(1e-5, "Q_W", "Q_sensible_W")
	c.Require(5e-5, "wet_share")
}

// The corners of the range of those random coils where the method is worst, which
// they do not come to: air of 36 °C and 90 % on a supply of 4 °C, 1 kg/s, five times
// its capacity in water. The heat is that of coil() in gen/wetcoil.py.
func TestWetCoilAtItsWorst(t *testing.T) {
	for _, test := range []struct{ pressure, ntu, share, flow, heat float64 }{
		{80000, 0.5, 0.4, 0.15, 6756.2665},
		{103000, 0.5, 0.4, 0.15, 6683.4217},
		{80000, 2.5, 0.05, 0.6, 83322.379},
		{103000, 2.5, 0.05, 0.6, 76137.247},
	} {
		all := 1 / (test.ntu * 1020)
		outside, inside := all*(1-test.share), all*test.share*math.Pow(test.flow, -0.8)
		m := newWetModel(moistAir{flow: 1, pressure: test.pressure},
			exchanger{resistance: outside + inside, side: waterSide{share: inside / (outside + inside), floor: 1, per: 1}},
			liquid{density: 1, specificHeat: units.SpecificHeat(5 * 1020 * test.flow)},
			Conditions{Supply: units.Celsius(4), Air: units.Celsius(36), Humidity: 0.9})
		off := float64(m.output(1, &m.design).Heat)/test.heat - 1
		assert.Greater(t, math.Abs(off), 0.04, "%+v: a corner no longer", test)
		assert.Greater(t, off, leastError, "%+v", test)
		assert.Less(t, off, mostError, "%+v", test)
	}
}

// What a valve sees: with the conductance found from the design point, the
// share of the design heat at a share of the flow.
func TestWetCoilShareIntegrated(t *testing.T) {
	var coil WetCoil
	var design, square float64
	table := reference.Must(t, "wetcoil")
	for row := range table.Rows() {
		if row.Float("flow_share") == 1 {
			design = row.Float("Q_W")
			coil = designedAt(t, row)
			continue
		}
		off := coil.HeatShare(row.Float("flow_share")) - row.Float("Q_W")/design
		square += off * off
		assert.InDelta(t, 0, off, 0.07, row)
	}
	assert.Less(t, math.Sqrt(square/float64(table.Len())), 0.01)
}

func designedAt(t *testing.T, row reference.Row) WetCoil {
	outside, inside := row.Float("R_air_K_W"), row.Float("R_water_K_W")
	coil, err := NewWetCoil(WetCoilConfig{
		Heat: units.Power(row.Float("Q_W")),
		Design: Temperatures{
			Supply: units.AbsoluteKelvin(row.Float("T_supply_K")),
			Return: units.AbsoluteKelvin(row.Float("T_return_K")),
			Air:    units.AbsoluteKelvin(row.Float("T_air_K")),
		},
		Humidity:    units.Ratio(row.Float("RH")),
		AirFlow:     units.MassFlow(row.Float("m_air_kg_s")).Flow(StandardAirDensity),
		AirPressure: units.Absolute(units.Pressure(row.Float("p_Pa"))),
		WaterShare:  units.Ratio(inside / (outside + inside)),
	})
	require.NoError(t, err, row)
	return coil
}

// Ideal humid air against real humid air by IAPWS G8-10.
func TestSaturatedAir(t *testing.T) {
	for row := range reference.Must(t, "wetcoil").Rows() {
		T, p := row.Float("T_air_K"), row.Float("p_Pa")
		humidity := humidityRatio(saturationPressure(T), p)
		assert.InEpsilon(t, row.Float("W_saturated"), humidity, 0.0055, row)
		assert.Less(t, humidity, row.Float("W_saturated"), row)
		assert.InEpsilon(t, row.Float("h_saturated_J_kg"), saturatedEnthalpy(T, p), 0.004, row)
	}
}

// ASHRAE Handbook Fundamentals, table of moist air at 101.325 kPa (from memory):
// the printed values are those of real air.
func TestSaturatedAirPrinted(t *testing.T) {
	for _, test := range []struct{ celsius, humidity, enthalpy float64 }{
		{10, 0.007661, 29.35e3}, {20, 0.01476, 57.55e3}, {25, 0.02017, 76.5e3},
	} {
		T := freezing + test.celsius
		assert.InEpsilon(t, test.humidity, humidityRatio(saturationPressure(T), 101325), 0.005)
		assert.InEpsilon(t, test.enthalpy, saturatedEnthalpy(T, 101325), 0.004)
	}
	assert.InDelta(t, freezing+20, dewPoint(saturationPressure(freezing+20)), 1e-6)
	assert.Zero(t, dewPoint(100), "frost, not dew")
}

// By hand, from the printed formulas of the same book: h = 1.006·t + W·(2501 + 1.86·t)
// in kJ/kg and W = 0.621945·pw/(p − pw), that constant being the quotient of the molar
// masses.
func TestHumidAirByHand(t *testing.T) {
	assert.InEpsilon(t, 45502.0, enthalpy(freezing+20, 0.01), 1e-12) // 20120 + 0.01·(2501000 + 37200)
	assert.InEpsilon(t, 3.325e6, enthalpy(freezing+100, 1.2), 1e-12) // 100600 + 1.2·(2501000 + 186000)
	assert.InEpsilon(t, 0.00621945, humidityRatio(1000, 101000), 1e-12)
	assert.InEpsilon(t, 18.015268/28.966, humidityRatio(1000, 101000)*100, 1e-6)
}

// The polynomial for cs against the quotient that it stands for.
func TestSlope(t *testing.T) {
	for _, span := range []float64{10, 20, 30} {
		air := moistAir{flow: 1, pressure: 101325}
		supply := units.Celsius(5)
		s := air.state(Conditions{Supply: supply, Air: supply.Add(units.TemperatureDifference(span)), Humidity: 1})
		cold := saturatedEnthalpy(supply.Kelvin(), air.pressure)
		for z := 0.01; z <= 1; z += 0.01 {
			T := supply.Kelvin() + z*span
			want := (saturatedEnthalpy(T, air.pressure) - cold) / (T - supply.Kelvin())
			assert.InEpsilon(t, want, s.slope.at(z), 1e-5, "%v %v", span, z)
		}
	}
}

// Dry and wet laws meet: no jump in heat where a coil begins to condense, nor
// where it is all wet.
func TestWetCoilIsContinuous(t *testing.T) {
	regimes := map[string]int{}
	for row := range reference.Must(t, "wetcoil").Rows() {
		if row.Float("flow_share") != 1 {
			continue
		}
		coil := designedAt(t, row)
		before := coil.HeatShare(0.01)
		for x := 0.0102; x < 3; x *= 1.02 {
			now := coil.HeatShare(x)
			require.GreaterOrEqual(t, now, before, "%v %v", row, x)
			require.Less(t, now, before*1.0201, "%v %v", row, x) // never faster than the flow
			before = now
			switch share := coil.m.condense(x*float64(coil.Design().Flow), &coil.m.design).share; share {
			case 0:
				regimes["dry"]++
			case 1:
				regimes["wet"]++
			default:
				regimes["partly wet"]++
			}
		}
	}
	assert.Len(t, regimes, 3, "the test met all of them")
}

func TestCounterFlowConductance(t *testing.T) {
	for _, ua := range []float64{1e-9, 0.3, 1, 7} {
		for _, air := range []float64{0.7, 1, 1 + 1e-12, 5} {
			assert.InEpsilon(t, ua, counterFlowConductance(counterFlow(ua, 1, air), 1, air), 1e-8, "%v %v", ua, air)
		}
	}
	assert.Equal(t, math.Inf(1), counterFlowConductance(1, 1, 2))
}

func TestRoot(t *testing.T) {
	for name, test := range map[string]struct {
		f      func(float64) float64
		lo, hi float64
		want   float64
	}{
		"line":      {func(x float64) float64 { return x - 0.3 }, 0, 1, 0.3},
		"cubic":     {func(x float64) float64 { return x*x*x - 8 }, 0, 100, 2},
		"steep":     {func(x float64) float64 { return math.Exp(50*x) - 2 }, -1, 1, math.Ln2 / 50},
		"flat":      {func(x float64) float64 { return math.Pow(x-1, 9) }, 0, 3, 1},
		"kink":      {func(x float64) float64 { return max(x-0.5, 1e-6*(x-0.5)) }, 0, 1, 0.5},
		"jump":      {func(x float64) float64 { return math.Copysign(1, x-0.7) }, 0, 1, 0.7},
		"low end":   {func(x float64) float64 { return x }, 0, 1, 0},
		"high end":  {func(x float64) float64 { return x - 1 }, 0, 1, 1},
		"no change": {func(x float64) float64 { return 1 + x }, 0, 1, 0},
	} {
		calls := 0
		counted := func(x float64) float64 { calls++; return test.f(x) }
		got := root(counted, test.lo, test.hi, test.f(test.lo), test.f(test.hi), tiny)
		assert.InDelta(t, test.want, got, 0.01*math.Abs(got)+1e-15, name)
		assert.LessOrEqual(t, math.Abs(test.f(got)), 1.0, name)
		assert.Less(t, calls, 80, name)
	}
	nan := func(float64) float64 { return math.NaN() }
	assert.NotPanics(t, func() { root(nan, 0, 1, -1, 1, tiny) })
}
