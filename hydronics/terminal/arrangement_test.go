package terminal_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

var arrangements = []terminal.Arrangement{
	terminal.CounterFlow, terminal.ParallelFlow, terminal.CrossFlow, terminal.CrossFlowApproximate,
	terminal.CrossFlowWaterMixed, terminal.CrossFlowAirMixed, terminal.CrossFlowMixed,
}

// effectiveness has the water on the side of the lower capacity rate.
func effectiveness(a terminal.Arrangement, ntu, ratio float64) float64 {
	return a.Effectiveness(units.ThermalConductance(ntu), 1, units.ThermalConductance(1/ratio))
}

// swapped has the air there.
func swapped(a terminal.Arrangement, ntu, ratio float64) float64 {
	return a.Effectiveness(units.ThermalConductance(ntu), units.ThermalConductance(1/ratio), 1)
}

// Against an independent integration of the equations of each arrangement.
func TestEffectivenessIntegrated(t *testing.T) {
	c := reference.Compare(t, "crossflow")
	for row := range c.Rows() {
		ntu, ratio := row.Float("NTU"), row.Float("Cr")
		for _, test := range []struct {
			got    float64
			column string
		}{
			{effectiveness(terminal.CounterFlow, ntu, ratio), "counter"},
			{swapped(terminal.CounterFlow, ntu, ratio), "counter"},
			{effectiveness(terminal.ParallelFlow, ntu, ratio), "parallel"},
			{swapped(terminal.ParallelFlow, ntu, ratio), "parallel"},
			{effectiveness(terminal.CrossFlow, ntu, ratio), "cross"},
			{swapped(terminal.CrossFlow, ntu, ratio), "cross"},
			{effectiveness(terminal.CrossFlowWaterMixed, ntu, ratio), "cross_min_mixed"},
			{swapped(terminal.CrossFlowWaterMixed, ntu, ratio), "cross_max_mixed"},
			{effectiveness(terminal.CrossFlowAirMixed, ntu, ratio), "cross_max_mixed"},
			{swapped(terminal.CrossFlowAirMixed, ntu, ratio), "cross_min_mixed"},
			{effectiveness(terminal.CrossFlowMixed, ntu, ratio), "cross_mixed"},
			{swapped(terminal.CrossFlowMixed, ntu, ratio), "cross_mixed"},
		} {
			c.Check(row, test.column, test.got)
		}
		approximate := effectiveness(terminal.CrossFlowApproximate, ntu, ratio)
		assert.Lessf(t, reference.RelDiff(approximate, row.Float("cross")), 0.04, "%v", row)
	}
	c.Require(1e-11)
}

// Printed values: Kays & London, Compact Heat Exchangers, tables of chapter 2
// (from memory) and closed forms at NTU 1.
func TestEffectivenessPrinted(t *testing.T) {
	for _, test := range []struct {
		a          terminal.Arrangement
		ntu, ratio float64
		want       float64
	}{
		{terminal.CounterFlow, 1, 1, 0.5},
		{terminal.CounterFlow, 2, 0.5, 0.775},
		{terminal.CrossFlow, 1, 0.25, 0.588},
		{terminal.CrossFlow, 1, 0.5, 0.547},
		{terminal.CrossFlow, 1, 0.75, 0.510},
		{terminal.CrossFlow, 1, 1, 0.476},
		{terminal.CrossFlow, 2, 1, 0.614},
		{terminal.ParallelFlow, 1, 1, 0.432},
	} {
		assert.InDelta(t, test.want, effectiveness(test.a, test.ntu, test.ratio), 0.0005, "%v %v %v", test.a, test.ntu, test.ratio)
	}
	assert.InDelta(t, 0.4762, effectiveness(terminal.CrossFlow, 1, 1), 5e-5)
	assert.InDelta(t, 0.4685, effectiveness(terminal.CrossFlowApproximate, 1, 1), 5e-5)
}

// The printed approximation (Incropera, equation 11.32, from memory) worked out by Python.
func TestCrossFlowApproximation(t *testing.T) {
	for _, test := range []struct{ ntu, ratio, want float64 }{
		{0.25, 1, 0.1910502510612846}, {4, 1, 0.723486657053717}, {2, 0.5, 0.7387584625420098}, {8, 0.25, 0.9893034498036716},
	} {
		assert.InEpsilon(t, test.want, effectiveness(terminal.CrossFlowApproximate, test.ntu, test.ratio), 1e-12, "%+v", test)
	}
}

// Without a second stream that changes, all arrangements are one.
func TestEffectivenessOfEvaporator(t *testing.T) {
	for _, a := range arrangements {
		for _, ntu := range []float64{0.01, 0.7, 3} {
			got := a.Effectiveness(units.ThermalConductance(ntu), 1, units.ThermalConductance(math.Inf(1)))
			assert.InDelta(t, 1-math.Exp(-ntu), got, 1e-15, "%v %v", a, ntu)
		}
		assert.Zero(t, a.Effectiveness(0, 1, 2))
		assert.NotEqual(t, a.Effectiveness(math.MaxFloat64, 1, 2), 0)
		for _, bad := range []float64{math.NaN(), -1} {
			assert.True(t, math.IsNaN(effectiveness(a, bad, 0.5)), "%v", a)
			assert.True(t, math.IsNaN(a.Effectiveness(1, units.ThermalConductance(bad), 1)), "%v", a)
		}
	}
	assert.True(t, math.IsNaN(terminal.Arrangement(99).Effectiveness(1, 1, 1)))
}

// Equal capacity rates and a large NTU: 1 − ε tends to 1/√(π·NTU), from the
// asymptotic series of the Bessel functions in ε = 1 − e^(−2·NTU)·(I0 + I1)(2·NTU).
func TestCrossFlowAsymptote(t *testing.T) {
	for _, ntu := range []float64{50, 199, 201, 1000, 1e4} {
		missing := 1 - effectiveness(terminal.CrossFlow, ntu, 1)
		want := (1 - 1/(16*ntu)) / math.Sqrt(math.Pi*ntu)
		assert.InEpsilon(t, want, missing, 0.03/(ntu*ntu)+1e-11, "%v", ntu)
	}
	assert.InDelta(t, effectiveness(terminal.CrossFlow, 200-1e-9, 1), effectiveness(terminal.CrossFlow, 200+1e-9, 1), 1e-11)
	assert.Greater(t, effectiveness(terminal.CrossFlow, 1e9, 1), 0.998)
	assert.InDelta(t, 1, effectiveness(terminal.CrossFlow, 1e9, 0.5), 1e-11)
	assert.InDelta(t, 1, terminal.CrossFlow.Effectiveness(1, 1e-300, 1), 1e-15)
}

// Incropera, "Fundamentals of Heat and Mass Transfer", example 11.1 (from
// memory): oil 0.1 kg/s, 2131 J/(kg·K), from 100 to 60 °C in counterflow to water
// 0.2 kg/s, 4178 J/(kg·K), from 30 °C; U 38.1 W/(m²·K), tube of 25 mm: 65.9 m.
func TestIncroperaCounterFlow(t *testing.T) {
	oil, water := units.ThermalConductance(0.1*2131), units.ThermalConductance(0.2*4178)
	ua, err := terminal.CounterFlow.Conductance((100.0-60)/(100-30), water, oil)
	require.NoError(t, err)
	assert.InDelta(t, 65.9, float64(ua)/(38.1*math.Pi*0.025), 0.2)
}

// Incropera, examples 11.3 and 11.4 (from memory), finned-tube gas heater, both
// streams unmixed. 11.3: water 1 kg/s, 4197 J/(kg·K), 35 to 125 °C, gas 300 to
// 100 °C, U 100 W/(m²·K): NTU 2.1 read from the figure, 39.7 m². 11.4: 40 m²,
// gas 1.5 kg/s, 1000 J/(kg·K), 250 °C: ε 0.82 read from the figure.
func TestIncroperaCrossFlow(t *testing.T) {
	water := units.ThermalConductance(4197)
	gas := units.ThermalConductance(4197 * (125.0 - 35) / (300 - 100))
	ua, err := terminal.CrossFlow.Conductance((300.0-100)/(300-35), water, gas)
	require.NoError(t, err)
	assert.InDelta(t, 2.1, float64(ua)/float64(gas), 0.06, "figures can be read to about 3 %")
	assert.InDelta(t, 0.82, terminal.CrossFlow.Effectiveness(4000, 4197, 1500), 0.025)
}

// The closed forms of NTU(ε), Incropera, table 11.4.
func TestConductanceClosedForms(t *testing.T) {
	log := math.Log
	rapid.Check(t, func(t *rapid.T) {
		ntu := rapid.Float64Range(0.01, 4).Draw(t, "NTU")
		ratio := rapid.Float64Range(0.01, 0.99).Draw(t, "Cr")
		for a, inverse := range map[terminal.Arrangement]func(e float64) float64{
			terminal.CounterFlow:         func(e float64) float64 { return log((e-1)/(e*ratio-1)) / (ratio - 1) },
			terminal.ParallelFlow:        func(e float64) float64 { return -log(1-e*(1+ratio)) / (1 + ratio) },
			terminal.CrossFlowAirMixed:   func(e float64) float64 { return -log(1 + log(1-e*ratio)/ratio) },
			terminal.CrossFlowWaterMixed: func(e float64) float64 { return -log(ratio*log(1-e)+1) / ratio },
		} {
			e := effectiveness(a, ntu, ratio)
			ua, err := a.Conductance(e, 1, units.ThermalConductance(1/ratio))
			require.NoError(t, err)
			assert.InEpsilon(t, inverse(e), float64(ua), 1e-6, "%v", a)
			assert.InDelta(t, e, a.Effectiveness(ua, 1, units.ThermalConductance(1/ratio)), 1e-14, "%v", a)
		}
	})
}

// Where no closed form exists, and on the rising side where there are two sides.
func TestConductanceUndoesEffectiveness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(arrangements).Draw(t, "arrangement")
		water := units.ThermalConductance(rapid.Float64Range(0.01, 100).Draw(t, "water"))
		ntu := rapid.Float64Range(1e-4, 2.2).Draw(t, "NTU")
		e := a.Effectiveness(units.ThermalConductance(ntu)*min(water, 1), water, 1)
		ua, err := a.Conductance(e, water, 1)
		require.NoError(t, err)
		assert.InDelta(t, e, a.Effectiveness(ua, water, 1), 1e-13)
		assert.LessOrEqual(t, float64(ua/min(water, 1)), ntu*(1+1e-6))
	})
}

func TestConductanceRefuses(t *testing.T) {
	for _, test := range []struct {
		a     terminal.Arrangement
		e     float64
		water units.ThermalConductance
		field string
	}{
		{terminal.ParallelFlow, 0.5, 1, "effectiveness"},
		{terminal.CrossFlowMixed, 0.57, 1, "effectiveness"},
		{terminal.CounterFlow, 1, 0.5, "effectiveness"},
		{terminal.CounterFlow, -0.1, 1, "effectiveness"},
		{terminal.CounterFlow, math.NaN(), 1, "effectiveness"},
		{terminal.CounterFlow, 0.5, 0, "water"},
		{terminal.CounterFlow, 0.5, units.ThermalConductance(math.Inf(1)), "water"},
		{terminal.Arrangement(99), 0.5, 1, "Arrangement"},
	} {
		_, err := test.a.Conductance(test.e, test.water, 1)
		var fault *units.FieldError
		require.True(t, errors.As(err, &fault), "%v", test)
		assert.Equal(t, test.field, fault.Field)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
	_, err := terminal.CrossFlowMixed.Conductance(0.56, 1, 1)
	assert.NoError(t, err)
	_, err = terminal.ParallelFlow.Conductance(0.5, 1, 1)
	assert.ErrorContains(t, err, "0.5000, the most of parallel-flow")
}

func TestArrangementText(t *testing.T) {
	seen := map[string]bool{}
	for _, a := range arrangements {
		data, err := json.Marshal(a)
		require.NoError(t, err)
		var back terminal.Arrangement
		require.NoError(t, json.Unmarshal(data, &back))
		assert.Equal(t, a, back)
		assert.False(t, seen[a.String()], a)
		seen[a.String()] = true
	}
	var a terminal.Arrangement
	assert.ErrorIs(t, a.UnmarshalText([]byte("sideways")), units.ErrInvalid)
	_, err := terminal.Arrangement(99).MarshalText()
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func BenchmarkCrossFlow(b *testing.B) {
	b.ReportAllocs()
	ua := units.ThermalConductance(1.5)
	for b.Loop() {
		ua += 1e-12
		terminal.CrossFlow.Effectiveness(ua, 1, 1.4)
	}
}
