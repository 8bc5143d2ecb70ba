package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// service reads the columns that the sizing tables share.
func service(row reference.Row) sizing.Case {
	return sizing.Case{
		Liquid: sizing.Liquid{
			Density:          units.Density(row.Float("relative_density") * 999.10),
			VapourPressure:   absolute(row, "pv_Pa"),
			CriticalPressure: absolute(row, "pc_Pa"),
			Viscosity:        units.KinematicViscosity(row.Float("nu_m2_s")),
		},
		Inlet:  absolute(row, "p1_Pa"),
		Outlet: absolute(row, "p2_Pa"),
		Valve: sizing.Valve{
			Diameter: units.Length(row.Float("d_m")),
			FL:       row.Float("FL"), Fd: row.Float("Fd"),
		},
	}
}

func absolute(row reference.Row, column string) units.AbsolutePressure {
	return units.Absolute(units.Pressure(row.Float(column)))
}

func kvOf(row reference.Row) units.FlowCoefficient {
	return units.FlowCoefficient(row.Float("Kv")) * units.Kv
}

// worst keeps the greatest relative difference of a table.
type worst struct {
	t        *testing.T
	greatest float64
}

// near requires a relative difference of 1e-12 at most.
func (w *worst) near(row reference.Row, column string, got float64) {
	w.t.Helper()
	diff := reference.RelDiff(got, row.Float(column))
	w.greatest = max(w.greatest, diff)
	assert.LessOrEqual(w.t, diff, 1e-12, "%s: got %v in %v", column, got, row)
}

func (w *worst) log() { w.t.Logf("worst relative difference %.2g", w.greatest) }

func TestTurbulentSizingIsTheReferences(t *testing.T) {
	for _, choked := range []bool{false, true} {
		name := map[bool]string{false: "sizing_turbulent", true: "sizing_choked"}[choked]
		t.Run(name, func(t *testing.T) {
			w := worst{t: t}
			for row := range reference.Must(t, name).Rows() {
				got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), service(row))
				require.NoError(t, err, row)
				w.near(row, "Kv", got.Kv.In(units.Kv))
				w.near(row, "FF", got.FF)
				w.near(row, "Rev", got.Rev)
				assert.Equal(t, choked, got.Choked, row)
				assert.Equal(t, sizing.Turbulent, got.Regime, row)

				back, err := sizing.Flow(kvOf(row), service(row))
				require.NoError(t, err, row)
				w.near(row, "q_m3_s", back.Flow.In(units.CubicMetrePerSecond))
			}
			w.log()
		})
	}
}

func fittedService(row reference.Row) sizing.Case {
	c := service(row)
	c.InletPipe = units.Length(row.Float("D1_m"))
	c.OutletPipe = units.Length(row.Float("D2_m"))
	return c
}

func TestSizingBetweenReducersIsTheFixedPoint(t *testing.T) {
	w := worst{t: t}
	for row := range reference.Must(t, "sizing_fitted").Rows() {
		got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), fittedService(row))
		require.NoError(t, err, row)
		w.near(row, "Kv", got.Kv.In(units.Kv))
		w.near(row, "FP", got.FP)
		w.near(row, "FLP", got.FLP)
		w.near(row, "Rev", got.Rev)
		assert.Equal(t, row.Bool("choked"), got.Choked, row)

		back, err := sizing.Flow(kvOf(row), fittedService(row))
		require.NoError(t, err, row)
		w.near(row, "q_m3_s", back.Flow.In(units.CubicMetrePerSecond))
	}
	w.log()
}

func TestViscousFlowIsTheIndependentSolvers(t *testing.T) {
	w := worst{t: t}
	for row := range reference.Must(t, "sizing_nonturbulent").Rows() {
		got, err := sizing.Flow(kvOf(row), service(row))
		require.NoError(t, err, row)
		w.near(row, "q_m3_s", got.Flow.In(units.CubicMetrePerSecond))
		w.near(row, "Rev", got.Rev)
		w.near(row, "FR", got.FR)
		assert.Equal(t, row.Bool("full_trim"), !got.ReducedTrim, row)

		sized, err := sizing.Size(units.Flow(row.Float("q_m3_s")), service(row))
		require.NoError(t, err, row)
		if row.Bool("unique_Kv") { // less sharp: near its peak the flow hardly depends on Kv
			assert.InEpsilon(t, row.Float("Kv"), sized.Kv.In(units.Kv), 1e-10, row)
		} else {
			assert.LessOrEqual(t, float64(sized.Kv), float64(kvOf(row))*(1+1e-12), "not the least Kv in %v", row)
		}
	}
	w.log()
}

func TestVariantsOfExample1AreTheIndependentSolvers(t *testing.T) {
	w := worst{t: t}
	for row := range reference.Must(t, "sizing_variants").Rows() {
		got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), fittedService(row))
		require.NoError(t, err, row)
		w.near(row, "Kv", got.Kv.In(units.Kv))
		w.near(row, "FP", got.FP)
		w.near(row, "FLP", got.FLP)
		w.near(row, "FR", got.FR)
		w.near(row, "Rev", got.Rev)
		assert.Equal(t, row.Bool("choked"), got.Choked, row)
	}
	w.log()
}

func TestWorkedExamplesOfTheStandard(t *testing.T) {
	for row := range reference.Must(t, "sizing_iec_examples").Rows() {
		c := sizing.Case{
			Liquid: sizing.Liquid{
				Density:          units.Density(row.Float("rho_kg_m3")),
				VapourPressure:   absolute(row, "pv_Pa"),
				CriticalPressure: absolute(row, "pc_Pa"),
				Viscosity:        units.KinematicViscosity(row.Float("nu_m2_s")),
			},
			Inlet: absolute(row, "p1_Pa"), Outlet: absolute(row, "p2_Pa"),
			Valve: sizing.Valve{Diameter: units.Length(row.Float("d_m")), FL: row.Float("FL"), Fd: row.Float("Fd")},
		}
		got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), c)
		require.NoError(t, err, row)
		kv := got.Kv.In(units.Kv)
		assert.InDelta(t, row.Float("Kv_printed"), kv, 0.5, row)
		assert.LessOrEqual(t, reference.RelDiff(kv, row.Float("Kv_fluids")), 2e-6, "the library's ρ0 is 3.3e-6 greater: %v", row)
		assert.Equal(t, row.Bool("choked"), got.Choked, row)
	}
}

func TestCavitationIsTheReferences(t *testing.T) {
	w := worst{t: t}
	for row := range reference.Must(t, "sizing_cavitation").Rows() {
		c := example1()
		c.Liquid.VapourPressure = absolute(row, "pv_Pa")
		c.Liquid.CriticalPressure = absolute(row, "pc_Pa")
		c.Inlet, c.Outlet = absolute(row, "p1_Pa"), absolute(row, "p2_Pa")
		c.Valve.FL = row.Float("FL")
		got, err := sizing.CavitationAt(1*units.Kv, c)
		require.NoError(t, err, row)
		w.near(row, "sigma", got.Sigma)
		w.near(row, "choked_p2_Pa", c.Inlet.Add(-got.ChokedPressureDrop).AboveVacuum().In(units.Pascal))
		assert.InEpsilon(t, 1/row.Float("sigma"), got.XF, 1e-12)
		sized, err := sizing.Flow(1*units.Kv, c)
		require.NoError(t, err, row)
		w.near(row, "FF", sized.FF)
	}
	w.log()
}
