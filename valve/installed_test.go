package valve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Values by the project's designers, to the digits they give.
func TestInstalledPrintedValues(t *testing.T) {
	ideal := valve.Linear(math.Inf(1))
	for _, c := range []struct {
		curve           valve.Characteristic
		authority, h, q float64
	}{
		{ideal, 0.5, 0.1, 0.1407}, {ideal, 0.5, 0.5, 0.6325}, {ideal, 0.5, 0.9, 0.9461}, {ideal, 0.1, 0.5, 0.8771},
		{valve.Linear(50), 0.5, 0.1, 0.16573}, {valve.Linear(50), 0.5, 0.5, 0.64251}, {valve.Linear(50), 0.5, 0.9, 0.94722},
		{valve.Linear(50), 0.1, 0.5, 0.88235},
		{valve.EqualPercentage(50), 0.5, 0.1, 0.0418}, {valve.EqualPercentage(50), 0.5, 0.5, 0.1980}, {valve.EqualPercentage(50), 0.5, 0.9, 0.7922},
	} {
		digit := 5e-5
		if c.curve.Equal(valve.Linear(50)) {
			digit = 5e-6
		}
		assert.InDelta(t, c.q, valve.InstalledFlow(c.curve.At(c.h), c.authority), digit, "%v", c)
		installed := must(must(valve.NewTwoWay(twoWayConfig(c.curve))).Installed(c.authority))
		assert.InDelta(t, c.q, installed.At(c.h), digit, "%v", c)
		assert.InDelta(t, c.h, installed.Inverse(installed.At(c.h)), 1e-13, "%v", c)
	}
}

// An explicit solve of both resistances, by bisection in another program.
func TestInstalledAgainstReference(t *testing.T) {
	c := reference.Compare(t, "installed")
	for row := range c.Rows() {
		n, phi, ratio := row.Float("authority"), row.Float("phi"), row.Float("ratio")
		c.Check(row, "ratio", valve.InstalledFlow(phi, n))
		c.Note(row, "phi times authority", n*reference.RelDiff(valve.InstalledCoefficient(ratio, n), phi), "")
		v := valveOf(t, row)
		a := must(v.Authority(branchOf(row)))
		c.Check(row, "authority", a.Open)
		c.Check(row, "q_open_m3_s", float64(a.OpenFlow))
		installed := must(v.Installed(a.Open))
		c.Check(row, "q_m3_s", float64(a.OpenFlow)*installed.At(row.Float("travel")))
	}
	c.Require(2e-15, "ratio")
	c.Require(1e-15, "phi times authority")
	c.Require(1e-14)
}

func valveOf(t testing.TB, row reference.Row) valve.TwoWay {
	t.Helper()
	v, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: units.FlowCoefficient(row.Float("Kvs")), Stroke: 15 * units.Millimetre,
		Curve: characteristic(t, row.Text("law")), Density: units.Density(row.Float("rho_kg_m3")),
	})
	require.NoError(t, err)
	return v
}

// branchOf takes some design flow, 0.7 times the open one, for the authorities
// by the open flow must not depend on it.
func branchOf(row reference.Row) valve.Branch {
	q := units.Flow(0.7 * row.Float("q_open_m3_s"))
	rest := units.FlowCoefficient(row.Float("Kv_rest"))
	return valve.Branch{
		Flow: q, Drop: valve.PressureDrop(rest, q, units.Density(row.Float("rho_kg_m3"))),
		Available: units.Pressure(row.Float("dp_total_Pa")),
	}
}

func TestInstalledUndoesItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := math.Exp(rapid.Float64Range(math.Log(valve.LeastAuthority), 0).Draw(t, "ln N"))
		phi := rapid.Float64Range(0, 1).Draw(t, "phi")
		assert.InDelta(t, phi, valve.InstalledCoefficient(valve.InstalledFlow(phi, n), n), 1e-12)
	})
}

func TestInstalledOfAValveUndoesItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyTwoWay(t)
		installed, err := v.Installed(rapid.Float64Range(0.05, 1).Draw(t, "N"))
		require.NoError(t, err)
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		assert.InDelta(t, h, installed.Inverse(installed.At(h)), 1e-12)
	})
}

func TestInstalledEnds(t *testing.T) {
	for _, n := range []float64{valve.LeastAuthority, 0.3, 1} {
		assert.InDelta(t, 0, valve.InstalledFlow(0, n), 0)
		assert.InDelta(t, 0, valve.InstalledFlow(-1, n), 0)
		assert.InDelta(t, 1, valve.InstalledFlow(1, n), 0)
		assert.InDelta(t, 1, valve.InstalledFlow(2, n), 0)
		assert.InDelta(t, 0, valve.InstalledCoefficient(0, n), 0)
		assert.InDelta(t, 1, valve.InstalledCoefficient(1, n), 0)
		assert.True(t, math.IsNaN(valve.InstalledFlow(math.NaN(), n)))
		assert.True(t, math.IsNaN(valve.InstalledCoefficient(math.NaN(), n)))
	}
	for _, n := range []float64{0, 1e-4, 1.1, math.NaN()} {
		assert.True(t, math.IsNaN(valve.InstalledFlow(0.5, n)))
		assert.True(t, math.IsNaN(valve.InstalledCoefficient(0.5, n)))
		_, err := coilValve().Installed(n)
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
	for phi := 0.05; phi < 1; phi += 0.05 {
		assert.InDelta(t, phi, valve.InstalledFlow(phi, 1), 1e-16, "N = 1 is the inherent curve")
	}
}

// Turndown is about the rangeability times √N, exactly √(1 − N + N·R²).
func TestTurndown(t *testing.T) {
	cfg := twoWayConfig(valve.EqualPercentage(50))
	cfg.Rangeability = 30
	installed := must(must(valve.NewTwoWay(cfg)).Installed(0.25))
	assert.InDelta(t, math.Sqrt(0.75+0.25*900), installed.Turndown(), 1e-12)
	assert.InDelta(t, 15, installed.Turndown(), 0.03)
}

func TestAuthority(t *testing.T) {
	v := coilValve()
	q := v.Flow(1, 10*units.Kilopascal)
	balanced := must(v.Authority(valve.Branch{Flow: q, Drop: 15 * units.Kilopascal, Available: 25 * units.Kilopascal}))
	assert.InDelta(t, 0.4, balanced.Open, 1e-15)
	assert.InDelta(t, 0.4, balanced.Design, 1e-15)
	assert.InEpsilon(t, float64(q), float64(balanced.OpenFlow), 1e-15)
	unstated := must(v.Authority(valve.Branch{Flow: q, Drop: 15 * units.Kilopascal}))
	assert.InDelta(t, 0.4, unstated.Design, 1e-15)

	// Four times the pressure, unbalanced: twice the flow when open, a quarter by the design flow.
	loose := must(v.Authority(valve.Branch{Flow: q, Drop: 15 * units.Kilopascal, Available: 100 * units.Kilopascal}))
	assert.InDelta(t, 0.4, loose.Open, 1e-15)
	assert.InDelta(t, 0.1, loose.Design, 1e-15)
	assert.InEpsilon(t, float64(2*q), float64(loose.OpenFlow), 1e-15)

	// A balancing valve that takes the surplus counts as branch.
	tamed := must(v.Authority(valve.Branch{Flow: q, Drop: 90 * units.Kilopascal, Available: 100 * units.Kilopascal}))
	assert.InDelta(t, 0.1, tamed.Open, 1e-15)
	assert.InDelta(t, 0.1, tamed.Design, 1e-15)
}

func TestAuthorityFaults(t *testing.T) {
	_, err := coilValve().Authority(valve.Branch{Flow: -1, Drop: units.Pressure(math.NaN()), Available: -1})
	assert.ElementsMatch(t, []string{"Branch.Flow", "Branch.Drop", "Branch.Available"}, faulty(err))
}
