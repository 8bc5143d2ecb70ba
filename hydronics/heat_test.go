package hydronics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

// Outside check: energy balance with the properties of IAPWS R7-97, by a
// general-purpose library.
func TestDesignFlowAgainstRecording(t *testing.T) {
	c := reference.Compare(t, "heat")
	for row := range c.Rows() {
		flow, err := hydronics.Duty{
			Heat: units.Power(row.Float("heat_W")), Pressure: units.Absolute(units.Pressure(row.Float("p_Pa"))),
			Supply: units.AbsoluteKelvin(row.Float("T_supply_K")), Return: units.AbsoluteKelvin(row.Float("T_return_K")),
		}.DesignFlow()
		require.NoError(t, err, row)
		c.Check(row, "cp_J_kgK", float64(flow.SpecificHeat))
		c.Check(row, "m_kg_s", float64(flow.MassFlow))
		c.Check(row, "q_m3_s", float64(flow.Flow))
	}
	c.Require(1e-12)
}

// At 80/60 °C the place of the density makes 1.2 % of the volume (from the
// densities of IAPWS-IF97: 971.89 and 983.30 kg/m³ at 300 kPa).
func TestDensityIsThatOfTheReturn(t *testing.T) {
	flow, err := hydronics.Duty{Heat: units.Kilowatt, Supply: units.Celsius(80), Return: units.Celsius(60)}.DesignFlow()
	require.NoError(t, err)
	assert.InDelta(t, 983.30, float64(flow.Density), 0.005)
	assert.InDelta(t, 1.0117, 983.30/971.89, 1e-4)
}

func TestDesignFlowRefuses(t *testing.T) {
	glycol := fluid.MustParse("ethylene glycol 30 % mass")
	for name, duty := range map[string]hydronics.Duty{
		"no heat":        {Supply: units.Celsius(6), Return: units.Celsius(12)},
		"negative heat":  {Heat: -1, Supply: units.Celsius(6), Return: units.Celsius(12)},
		"NaN heat":       {Heat: units.Power(math.NaN()), Supply: units.Celsius(6), Return: units.Celsius(12)},
		"no difference":  {Heat: 1, Supply: units.Celsius(6), Return: units.Celsius(6)},
		"no supply":      {Heat: 1, Return: units.Celsius(6)},
		"frozen":         {Heat: 1, Supply: units.Celsius(-2), Return: units.Celsius(6)},
		"frozen glycol":  {Heat: 1, Supply: units.Celsius(-30), Return: units.Celsius(6), Fluid: glycol},
		"boiling":        {Heat: 1, Supply: units.Celsius(150), Return: units.Celsius(60)},
		"past its range": {Heat: 1, Supply: units.Celsius(120), Return: units.Celsius(60), Fluid: glycol, Pressure: units.Absolute(units.Bar * 10)},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := duty.DesignFlow()
			assert.ErrorIs(t, err, units.ErrInvalid)
		})
	}
}

func TestHeatFlowAndDifferenceUndoEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := units.Power(rapid.Float64Range(1, 1e7).Draw(t, "heat"))
		cp := units.SpecificHeat(rapid.Float64Range(3000, 4500).Draw(t, "cp"))
		dt := units.TemperatureDifference(rapid.Float64Range(0.5, 100).Draw(t, "difference"))
		m := hydronics.MassFlowFor(p, cp, dt)
		assert.InEpsilon(t, float64(p), float64(hydronics.Heat(m, cp, dt)), 1e-14)
		assert.InEpsilon(t, float64(dt), float64(hydronics.DifferenceFor(p, m, cp)), 1e-14)
	})
}

func TestHeatOfUndoesDesignFlow(t *testing.T) {
	for _, cooling := range []bool{false, true} {
		duty := hydronics.Duty{Heat: 3 * units.Kilowatt, Supply: units.Celsius(70), Return: units.Celsius(55), Fluid: fluid.MustParse("propylene glycol 25 % volume")}
		want := 3000.0
		if cooling {
			duty.Supply, duty.Return, want = units.Celsius(6), units.Celsius(12), -3000
		}
		flow, err := duty.DesignFlow()
		require.NoError(t, err)
		heat, err := hydronics.HeatOf(duty.Fluid, flow.Flow, duty.Supply, duty.Return)
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(heat), 1e-13)
	}
	_, err := hydronics.HeatOf(fluid.Water(), units.LitrePerSecond, units.Celsius(-3), units.Celsius(5))
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = hydronics.HeatOf(fluid.Water(), units.LitrePerSecond, units.Celsius(5), units.Celsius(-3))
	assert.ErrorIs(t, err, units.ErrInvalid)
}
