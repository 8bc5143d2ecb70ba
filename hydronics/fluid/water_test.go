package fluid

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

func TestWaterMatchesRecordedLibrary(t *testing.T) {
	for _, name := range []string{"water", "water_grid"} {
		t.Run(name, func(t *testing.T) {
			c := reference.Compare(t, name)
			for row := range c.Rows() {
				s, err := Water().At(units.AbsoluteKelvin(row.Float("T_K")), pascal(row.Float("p_Pa")))
				require.NoError(t, err, row)
				sound, ok := s.SpeedOfSound()
				require.True(t, ok)
				c.Check(row, "rho_kg_m3", float64(s.Density()))
				c.Check(row, "cp_J_kgK", float64(s.SpecificHeat()))
				c.Check(row, "w_m_s", float64(sound))
				c.Check(row, "mu_Pa_s", float64(s.DynamicViscosity()))
				c.Check(row, "k_W_mK", float64(s.ThermalConductivity()))
				c.Check(row, "k_plain_W_mK", plainConductivity(row.Float("T_K"), float64(s.Density()))/1e3)
			}
			c.Require(1e-12)
		})
	}
}

func TestWaterBehavesAsALiquid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		T := rapid.Float64Range(4.1, 199).Draw(t, "t")
		p := pascal(rapid.Float64Range(1.7e6, greatestOfWater).Draw(t, "p"))
		cold, err := Water().At(units.Celsius(T), p)
		require.NoError(t, err)
		warm, err := Water().At(units.Celsius(T+0.5), p)
		require.NoError(t, err)
		assert.Less(t, warm.Density(), cold.Density())
		assert.Less(t, warm.DynamicViscosity(), cold.DynamicViscosity())
		assert.Greater(t, warm.VapourPressure().Compare(cold.VapourPressure()), 0)
		assert.Positive(t, float64(cold.SpecificHeat()))
		assert.Positive(t, cold.PrandtlNumber())
		dense, err := Water().At(units.Celsius(T), p.Add(-100*units.Kilopascal))
		require.NoError(t, err)
		assert.Less(t, dense.Density(), cold.Density())
	})
}

// Water is densest at 3.98 °C under atmospheric pressure (a textbook fact).
func TestWaterIsDensestNear4Degrees(t *testing.T) {
	density := func(celsius float64) units.Density {
		s, err := Water().At(units.Celsius(celsius), units.Atmospheric())
		require.NoError(t, err)
		return s.Density()
	}
	assert.Greater(t, density(3.98), density(3.88))
	assert.Greater(t, density(3.98), density(4.08))
	assert.InDelta(t, 999.975, float64(density(3.98)), 0.003)
}

func TestStateGivesRatios(t *testing.T) {
	// 20 °C and 0.3 MPa: ν and Pr of the recorded ρ, cp, µ and λ (iapws).
	s, err := Water().At(units.Celsius(20), units.Absolute(3*units.Bar))
	require.NoError(t, err)
	assert.InEpsilon(t, 1.0015358e-3/998.29695, float64(s.KinematicViscosity()), 1e-7)
	assert.InEpsilon(t, 4184.1758*1.0015358e-3/float64(s.ThermalConductivity()), s.PrandtlNumber(), 1e-7)
	assert.InDelta(t, 7.0, s.PrandtlNumber(), 0.05, "textbooks print 7.0")
	assert.Equal(t, Water(), s.Fluid())
	assert.Equal(t, units.Celsius(20), s.Temperature())
	assert.Equal(t, units.Absolute(3*units.Bar), s.Pressure())
}
