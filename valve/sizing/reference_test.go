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

// tolerance is the greatest relative difference where no other limit is stated.
const tolerance = 1e-12

func TestTurbulentSizingIsTheReferences(t *testing.T) {
	for _, choked := range []bool{false, true} {
		name := map[bool]string{false: "sizing_turbulent", true: "sizing_choked"}[choked]
		t.Run(name, func(t *testing.T) {
			c := reference.Compare(t, name)
			for row := range c.Rows() {
				got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), service(row))
				require.NoError(t, err, row)
				c.Check(row, "Kv", got.Kv.In(units.Kv))
				c.Check(row, "FF", got.FF)
				c.Check(row, "Rev", got.Rev)
				assert.Equal(t, choked, got.Choked, row)
				assert.Equal(t, sizing.Turbulent, got.Regime, row)

				back, err := sizing.Flow(kvOf(row), service(row))
				require.NoError(t, err, row)
				c.Check(row, "q_m3_s", back.Flow.In(units.CubicMetrePerSecond))
			}
			c.Require(tolerance)
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
	c := reference.Compare(t, "sizing_fitted")
	for row := range c.Rows() {
		got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), fittedService(row))
		require.NoError(t, err, row)
		c.Check(row, "Kv", got.Kv.In(units.Kv))
		c.Check(row, "FP", got.FP)
		c.Check(row, "FLP", got.FLP)
		c.Check(row, "Rev", got.Rev)
		assert.Equal(t, row.Bool("choked"), got.Choked, row)

		back, err := sizing.Flow(kvOf(row), fittedService(row))
		require.NoError(t, err, row)
		c.Check(row, "q_m3_s", back.Flow.In(units.CubicMetrePerSecond))
	}
	c.Require(tolerance)
}

func TestViscousFlowIsTheIndependentSolvers(t *testing.T) {
	c := reference.Compare(t, "sizing_nonturbulent")
	for row := range c.Rows() {
		got, err := sizing.Flow(kvOf(row), service(row))
		require.NoError(t, err, row)
		c.Check(row, "q_m3_s", got.Flow.In(units.CubicMetrePerSecond))
		c.Check(row, "Rev", got.Rev)
		c.Check(row, "FR", got.FR)
		assert.Equal(t, row.Bool("full_trim"), !got.ReducedTrim, row)

		sized, err := sizing.Size(units.Flow(row.Float("q_m3_s")), service(row))
		require.NoError(t, err, row)
		if row.Bool("unique_Kv") {
			c.Check(row, "Kv", sized.Kv.In(units.Kv))
		} else {
			assert.LessOrEqual(t, float64(sized.Kv), float64(kvOf(row))*(1+1e-12), "not the least Kv in %v", row)
		}
	}
	c.Require(1e-10, "Kv") // less sharp: near its peak the flow hardly depends on Kv
	c.Require(tolerance)
}

func TestViscousSizingBetweenReducersIsTheIndependentSolvers(t *testing.T) {
	c := reference.Compare(t, "sizing_viscous")
	for row := range c.Rows() {
		got, err := sizing.Flow(kvOf(row), fittedService(row))
		require.NoError(t, err, row)
		c.Check(row, "q_m3_s", got.Flow.In(units.CubicMetrePerSecond))
		c.Check(row, "Rev", got.Rev)
		c.Check(row, "FR", got.FR)
		c.Check(row, "FP", got.FP)
		c.Check(row, "FLP", got.FLP)
		assert.Equal(t, row.Bool("choked"), got.Choked, row)
		assert.Equal(t, row.Bool("full_trim"), !got.ReducedTrim, row)

		sized, err := sizing.Size(units.Flow(row.Float("q_m3_s")), fittedService(row))
		require.NoError(t, err, row)
		c.Check(row, "least_Kv", sized.Kv.In(units.Kv))
	}
	c.Require(1e-9, "least_Kv") // less sharp: near its peak the flow hardly depends on Kv
	c.Require(tolerance)
}

func TestVariantsOfExample1AreTheIndependentSolvers(t *testing.T) {
	c := reference.Compare(t, "sizing_variants")
	for row := range c.Rows() {
		got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), fittedService(row))
		require.NoError(t, err, row)
		c.Check(row, "Kv", got.Kv.In(units.Kv))
		c.Check(row, "FP", got.FP)
		c.Check(row, "FLP", got.FLP)
		c.Check(row, "FR", got.FR)
		c.Check(row, "Rev", got.Rev)
		assert.Equal(t, row.Bool("choked"), got.Choked, row)
	}
	c.Require(tolerance)
}

func TestWorkedExamplesOfTheStandard(t *testing.T) {
	c := reference.Compare(t, "sizing_iec_examples")
	for row := range c.Rows() {
		example := sizing.Case{
			Liquid: sizing.Liquid{
				Density:          units.Density(row.Float("rho_kg_m3")),
				VapourPressure:   absolute(row, "pv_Pa"),
				CriticalPressure: absolute(row, "pc_Pa"),
				Viscosity:        units.KinematicViscosity(row.Float("nu_m2_s")),
			},
			Inlet: absolute(row, "p1_Pa"), Outlet: absolute(row, "p2_Pa"),
			Valve: sizing.Valve{Diameter: units.Length(row.Float("d_m")), FL: row.Float("FL"), Fd: row.Float("Fd")},
		}
		got, err := sizing.Size(units.Flow(row.Float("q_m3_s")), example)
		require.NoError(t, err, row)
		c.CheckAbs(row, "Kv_printed", got.Kv.In(units.Kv))
		c.Check(row, "Kv_fluids", got.Kv.In(units.Kv))
		assert.Equal(t, row.Bool("choked"), got.Choked, row)
	}
	c.Require(0.5, "Kv_printed")
	c.Require(2e-6, "Kv_fluids")
}

func TestCavitationIsTheReferences(t *testing.T) {
	c := reference.Compare(t, "sizing_cavitation")
	for row := range c.Rows() {
		at := example1()
		at.Liquid.VapourPressure = absolute(row, "pv_Pa")
		at.Liquid.CriticalPressure = absolute(row, "pc_Pa")
		at.Inlet, at.Outlet = absolute(row, "p1_Pa"), absolute(row, "p2_Pa")
		at.Valve.FL = row.Float("FL")
		got, err := sizing.CavitationAt(1*units.Kv, at)
		require.NoError(t, err, row)
		c.Check(row, "sigma", got.Sigma)
		c.Check(row, "choked_p2_Pa", at.Inlet.Add(-got.ChokedPressureDrop).AboveVacuum().In(units.Pascal))
		c.Note(row, "xF", reference.RelDiff(got.XF, 1/row.Float("sigma")), "")
		sized, err := sizing.Flow(1*units.Kv, at)
		require.NoError(t, err, row)
		c.Check(row, "FF", sized.FF)
	}
	c.Require(tolerance)
}

func TestHolesAreTheStandards(t *testing.T) {
	c := reference.Compare(t, "sizing_holes")
	for row := range c.Rows() {
		v := sizing.Valve{FL: row.Float("FL"), Holes: int(row.Float("holes")), HoleDiameter: units.Length(row.Float("dH_m"))}
		c.Check(row, "xFz", sizing.EstimateXFz(units.Kv, v))
	}
	c.Require(tolerance)
}

func TestNeedlesAreTheStandards(t *testing.T) {
	c := reference.Compare(t, "sizing_needles")
	for row := range c.Rows() {
		c.Check(row, "Fd", sizing.NeedleFd(kvOf(row), row.Float("FL"), units.Length(row.Float("Do_m"))))
	}
	c.Require(tolerance)
}

func TestStylesAreThoseOfTheTable(t *testing.T) {
	c := reference.Compare(t, "sizing_styles")
	for row := range c.Rows() {
		var s sizing.Style
		require.NoError(t, s.UnmarshalText([]byte(row.Text("style"))))
		v := s.Valve(0.1)
		c.Check(row, "FL", v.FL)
		c.CheckAbs(row, "Fd", v.Fd)
		c.CheckAbs(row, "holes", float64(v.Holes))
	}
	c.Require(0)
	assert.Equal(t, int(sizing.BallSegmented)+1, c.Len(), "a style without factors")
}
