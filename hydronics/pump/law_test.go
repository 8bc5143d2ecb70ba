package pump_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/hydronics/pump"
	"github.com/indexrun/indexrun/units"
)

// TestOperateOnAgreesWithTheClosedForm: a system as any law gives what it gives as
// itself.
func TestOperateOnAgreesWithTheClosedForm(t *testing.T) {
	p := mustPump(t, circulator())
	weak, err := p.AtSpeed(0.9)
	require.NoError(t, err)
	bank := mustParallel(t, p, weak)
	rapid.Check(t, func(t *rapid.T) {
		static := units.Pressure(rapid.Float64Range(0, 0.99).Draw(t, "static")) * p.ShutOff()
		loss := units.Pressure(math.Pow(10, rapid.Float64Range(-2, 3).Draw(t, "log loss"))) * p.ShutOff()
		system := mustSystem(t, static, litres(1.5), loss)
		compare := func(want, got pump.State, err error) {
			require.NoError(t, err)
			assert.InDelta(t, float64(want.Flow), float64(got.Flow), 1e-11*float64(p.Runout()))
			assert.InDelta(t, float64(want.Head), float64(got.Head), 1e-10*float64(p.ShutOff()))
			assert.Equal(t, want.Status, got.Status)
		}
		one, err := p.OperateOn(system)
		compare(p.Operate(system), one, err)
		both, err := bank.OperateOn(system)
		compare(bank.Operate(system), both, err)
		for _, mode := range []string{"fixed", "constant", "proportional"} {
			c := mustControl(t, setLines()[mode], p, weak)
			held, err := c.OperateOn(system)
			compare(c.Operate(system), held, err)
		}
	})
}

// TestOperateOnPipe: a run of pipe and a resistance, of which no closed form is
// known; the answer is checked by what both ends say of it.
func TestOperateOnPipe(t *testing.T) {
	run, err := pipe.New(pipe.Config{
		Length: 80 * units.Metre, Bore: pipe.EN10255Medium()[4].Bore(), Roughness: pipe.CommercialSteel.Roughness(),
		Density: 998.2 * units.KilogramPerCubicMetre, Viscosity: 1.002 * units.MillipascalSecond,
	})
	require.NoError(t, err)
	rest, err := hydronics.ResistanceAt(litres(1), 20*units.Kilopascal)
	require.NoError(t, err)
	circuit := pump.LawFunc(func(q units.Flow) units.Pressure { return run.Pressure(q) + rest.Pressure(q) })
	p := mustPump(t, circulator())
	c := mustControl(t, setLines()["index"], p)
	for _, operate := range []func(pump.Law) (pump.State, error){p.OperateOn, c.OperateOn} {
		got, err := operate(circuit)
		require.NoError(t, err)
		assert.Greater(t, got.Flow, litres(0.5))
		assert.InEpsilon(t, float64(circuit(got.Flow)), float64(got.Head), 1e-12)
	}
	alone, err := p.OperateOn(run)
	require.NoError(t, err)
	assert.Equal(t, p.Head(alone.Flow), alone.Head)
	assert.InEpsilon(t, float64(run.Pressure(alone.Flow)), float64(alone.Head), 1e-12)
}

func TestNoFunctionIsNoPressure(t *testing.T) {
	assert.True(t, math.IsNaN(float64(pump.LawFunc(nil).Pressure(litres(1)))))
}

func TestOperateOnRefusesWhatIsNoLaw(t *testing.T) {
	p := mustPump(t, circulator())
	c := mustControl(t, setLines()["constant"], p)
	constant := func(dp float64) pump.Law {
		return pump.LawFunc(func(units.Flow) units.Pressure { return units.Pressure(dp) })
	}
	for _, law := range []pump.Law{nil, pump.LawFunc(nil), constant(math.NaN())} {
		_, err := p.OperateOn(law)
		require.ErrorContains(t, err, "pump: Law: got")
		_, err = c.OperateOn(law)
		require.ErrorContains(t, err, "pump: Law: got")
	}
	for _, dp := range []float64{math.Inf(1), float64(p.ShutOff())} {
		stopped, err := p.OperateOn(constant(dp))
		require.NoError(t, err)
		assert.Equal(t, pump.NoFlow, stopped.Status)
		assert.Zero(t, stopped.Flow)
	}
	free, err := p.OperateOn(constant(0))
	require.NoError(t, err)
	assert.InEpsilon(t, float64(p.Runout()), float64(free.Flow), 1e-12)
}
