package valve_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// built is a valve whose table is computed from a regulator: p_c across the
// orifice and Kv_r wide open.
type built struct {
	control units.Pressure
	kvr     units.FlowCoefficient
	flows   []units.Flow
	share   float64
}

func (b built) settings() []valve.Setting {
	rows := make([]valve.Setting, len(b.flows))
	for i, q := range b.flows {
		full := b.control + valve.PressureDrop(b.kvr, q, valve.ReferenceDensity)
		rows[i] = valve.Setting{Mark: float64(i + 1), Flow: q, MinPressure: full * units.Pressure(b.share*b.share)}
	}
	return rows
}

func anyBuilt(t *rapid.T) built {
	greatest := units.Flow(math.Pow(10, rapid.Float64Range(-2, 2).Draw(t, "lg q"))) * units.LitrePerSecond
	b := built{
		control: units.Pressure(rapid.Float64Range(3, 30).Draw(t, "p_c")) * units.Kilopascal,
		share:   rapid.Float64Range(0.8, 1).Draw(t, "share"),
	}
	b.kvr = valve.CoefficientFor(greatest, b.control*units.Pressure(rapid.Float64Range(0.2, 4).Draw(t, "excess")), valve.ReferenceDensity)
	for i := range 5 {
		b.flows = append(b.flows, greatest*units.Flow(float64(i+1)/5))
	}
	return b
}

func anyIndependent(t *rapid.T) valve.PressureIndependent {
	b := anyBuilt(t)
	cfg := valve.PressureIndependentConfig{
		Settings: b.settings(), MinPressureShare: units.Ratio(b.share),
		SettingKind:      rapid.SampledFrom([]valve.SettingKind{valve.AreaLimiting, valve.LiftLimiting}).Draw(t, "kind"),
		ProportionalBand: units.Ratio(rapid.SampledFrom([]float64{0, 0.01, 0.1, 0.3}).Draw(t, "band")),
		Stroke:           5 * units.Millimetre, Curve: anyCurve(t), MaxPressure: 600 * units.Kilopascal,
		Leakage: units.Ratio(rapid.SampledFrom([]float64{0, 1e-4}).Draw(t, "leakage")),
		Density: units.Density(rapid.Float64Range(950, 1100).Draw(t, "density")),
	}
	v, err := valve.NewPressureIndependent(cfg)
	require.NoError(t, err)
	v, err = v.WithMark(rapid.Float64Range(1, 5).Draw(t, "mark"))
	require.NoError(t, err)
	return v
}

// A starved valve is orifice and wide-open regulator in series: the explicit
// solve of two resistances by bisection in another program.
func TestStarvedAgainstReference(t *testing.T) {
	c := reference.Compare(t, "installed")
	for row := range c.Rows() {
		if row.Float("authority") < 0.1 {
			continue // p_c is so small a part of the pressure that a fit is not believed
		}
		total, rho := units.Pressure(row.Float("dp_total_Pa")), units.Density(row.Float("rho_kg_m3"))
		b := built{control: 2 * total, kvr: units.FlowCoefficient(row.Float("Kv_rest")), share: 1} // never enough
		open := valve.FlowThrough(units.FlowCoefficient(row.Float("Kvs")), b.control, valve.ReferenceDensity)
		b.flows = []units.Flow{open / 2, open}
		v, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
			Settings: b.settings(), Stroke: 5 * units.Millimetre, Curve: characteristic(t, row.Text("law")), Density: rho,
		})
		require.NoError(t, err)
		require.True(t, v.Regulator().Identified, row)
		c.Check(row, "q_open_m3_s", float64(v.GreatestFlow(total)))
		c.Check(row, "q_m3_s", float64(v.Flow(row.Float("travel"), total)))
		c.Check(row, "q_m3_s", float64(-v.Flow(row.Float("travel"), -total)))
		assert.Equal(t, valve.Starved, v.Regime(1, total))
		assert.Equal(t, valve.Reversed, v.Regime(1, -total))
	}
	c.Require(1e-12)
}

// The regulated flow is that of the orifice under p_c: q = Kv_o·√p_c, and the valve
// needs p_c + (q/Kv_r)² for it; the table gives both constants back.
func TestIdentification(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBuilt(t)
		v, err := valve.NewPressureIndependent(valve.PressureIndependentConfig{
			Settings: b.settings(), MinPressureShare: units.Ratio(b.share), Stroke: 5 * units.Millimetre, Curve: valve.Linear(50),
		})
		require.NoError(t, err)
		r := v.Regulator()
		assert.True(t, r.Identified)
		assert.Less(t, reference.RelDiff(float64(r.ControlPressure), float64(b.control)), 1e-12)
		assert.Less(t, reference.RelDiff(float64(r.Coefficient), float64(b.kvr)), 1e-12)
		orifice := valve.CoefficientFor(v.SetFlow(), b.control, valve.ReferenceDensity)
		h := rapid.Float64Range(0.02, 1).Draw(t, "h")
		phi := units.FlowCoefficient(v.RelativeCoefficient(h))
		q := valve.FlowThrough(orifice*phi, b.control, valve.ReferenceDensity)
		onset := b.control + valve.PressureDrop(b.kvr, q, valve.ReferenceDensity)
		assert.Less(t, reference.RelDiff(float64(v.Flow(h, onset)), float64(q)), 1e-12)
	})
}

// A rounded table: intercept and slope by the linear regression of Python's
// statistics module (3.11) over the squares of the flows.
func TestIdentificationOfARoundedTable(t *testing.T) {
	v := independentOf(t, []float64{0.02, 0.04, 0.06, 0.08, 0.10}, []float64{16, 16, 18, 20, 24})
	assert.True(t, v.Regulator().Identified)
	assert.InEpsilon(t, 15.03529411764706, v.Regulator().ControlPressure.In(units.Kilopascal), 1e-12)
	assert.InEpsilon(t, 1.2307314898059611, v.Regulator().Coefficient.In(units.Kv), 1e-12)
	for i, dp := range []float64{16, 16, 18, 20, 24} { // the table is kept, whatever the fit says
		set := must(v.WithMark(float64(i + 1)))
		assert.InEpsilon(t, dp, set.MinPressure().In(units.Kilopascal), 1e-15)
		assert.InEpsilon(t, float64(set.SetFlow()), float64(set.GreatestFlow(set.MinPressure())), 1e-15)
	}
}

func independentOf(t testing.TB, litres, kilopascals []float64) valve.PressureIndependent {
	t.Helper()
	cfg := fanCoilConfig()
	cfg.Settings = nil
	for i := range litres {
		cfg.Settings = append(cfg.Settings, valve.Setting{
			Mark: float64(i + 1), Flow: units.Flow(litres[i]) * units.LitrePerSecond, MinPressure: units.Pressure(kilopascals[i]) * units.Kilopascal,
		})
	}
	v, err := valve.NewPressureIndependent(cfg)
	require.NoError(t, err)
	return v
}

// Tables that do not tell get half the smallest least pressure as p_c.
func TestRuleWhereTheTableDoesNotTell(t *testing.T) {
	for name, kilopascals := range map[string][]float64{
		"constant":             {16, 16, 16},
		"falling":              {20, 18, 16},
		"falls in between":     {16, 20, 18},
		"too steep to believe": {2, 40, 100},
		"single":               {16},
	} {
		v := independentOf(t, []float64{0.02, 0.05, 0.1}[:len(kilopascals)], kilopascals)
		r := v.Regulator()
		assert.False(t, r.Identified, name)
		least := kilopascals[0]
		for _, p := range kilopascals {
			least = min(least, p)
		}
		assert.InDelta(t, least/2, r.ControlPressure.In(units.Kilopascal), 1e-12, name)
		last := units.Pressure(kilopascals[len(kilopascals)-1]) * units.Kilopascal
		assert.InDelta(t, float64(last), float64(r.ControlPressure+valve.PressureDrop(r.Coefficient, v.SetFlow(), valve.ReferenceDensity)), 1e-9, name)
	}
}

func TestLeastPressurePassesItsShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyIndependent(t)
		share := float64(v.Config().MinPressureShare)
		assert.Less(t, reference.RelDiff(float64(v.GreatestFlow(v.MinPressure())), share*float64(v.SetFlow())), 1e-12)
		assert.Less(t, reference.RelDiff(float64(v.GreatestFlow(v.FullFlowPressure())), float64(v.SetFlow())), 1e-12)
		assert.Equal(t, valve.Starved, v.Regime(1, v.MinPressure()*0.999))
		assert.Equal(t, valve.Regulated, v.Regime(1, v.MinPressure()*1.001))
	})
}

// TestIndependentClosingTravel: the same curve as a two-way valve's, at any setting.
func TestIndependentClosingTravel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyIndependent(t)
		c := v.Config()
		two, err := valve.NewTwoWay(valve.TwoWayConfig{
			Kvs: units.Kv, Stem: c.Stem, Stroke: c.Stroke, Curve: c.Curve, Rangeability: c.Rangeability,
			ClosingTravel: c.ClosingTravel, Leakage: c.Leakage,
		})
		require.NoError(t, err)
		assert.Equal(t, two.ClosingTravel(), v.ClosingTravel())
	})
}

func TestProportionalBand(t *testing.T) {
	v := fanCoilValve()
	assert.InEpsilon(t, 1.1*float64(v.SetFlow()), float64(v.GreatestFlow(v.MaxPressure())), 1e-14, "10 % from least to greatest pressure")
	middle := (v.FullFlowPressure() + v.MaxPressure()) / 2
	assert.InEpsilon(t, 1.05*float64(v.SetFlow()), float64(v.GreatestFlow(middle)), 1e-14, "in proportion")
	cfg := fanCoilConfig()
	cfg.ProportionalBand, cfg.MaxPressure = 0, 0
	unstated := must(valve.NewPressureIndependent(cfg))
	assert.InEpsilon(t, 1.001*float64(v.SetFlow()), float64(unstated.GreatestFlow(416*units.Kilopascal)), 1e-14, "0.1 % over 400 kPa")
	assert.Equal(t, valve.Regulated, unstated.Regime(1, 50*units.Bar), "no limit is stated")
}

func TestRegimes(t *testing.T) {
	v := fanCoilValve()
	nan := math.NaN()
	for _, c := range []struct {
		h    float64
		dp   units.Pressure
		want valve.Regime
	}{
		{1, 15.9 * units.Kilopascal, valve.Starved}, {1, 16.1 * units.Kilopascal, valve.Regulated},
		{0.5, 13.1 * units.Kilopascal, valve.Regulated}, {0.5, 12.9 * units.Kilopascal, valve.Starved},
		{1, 400 * units.Kilopascal, valve.Regulated}, {1, 401 * units.Kilopascal, valve.AboveLimit},
		{1, -1, valve.Reversed}, {1, 0, valve.Starved}, {0, 400 * units.Kilopascal, valve.Regulated},
		{nan, 1e4, valve.UnknownRegime}, {1, units.Pressure(nan), valve.UnknownRegime},
	} {
		assert.Equal(t, c.want, v.Regime(c.h, c.dp), "%v", c)
	}
}

func TestIndependentFlowPressureAndSlopeAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyIndependent(t)
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		dp := anyPressure(t, "dp")
		q := v.Flow(h, dp)
		back := v.Pressure(h, q)
		assert.Less(t, reference.RelDiff(float64(v.Flow(h, back)), float64(q)), 1e-13)
		assert.InDelta(t, float64(dp), float64(back), 1e-12*math.Abs(float64(dp))+1e-6, "1e-16 over the smallest band, of 600 kPa")
		d := units.Pressure(1e-5 * math.Abs(float64(dp)))
		before, after := float64(q-v.Flow(h, dp-d))/float64(d), float64(v.Flow(h, dp+d)-q)/float64(d)
		slope := v.Slope(h, dp)
		tolerance := 1e-4*slope + 1e-15*math.Abs(float64(q))/float64(d) // and the rounding of the differences
		assert.Positive(t, slope)
		assert.True(t, math.Abs(before-slope) < tolerance || math.Abs(after-slope) < tolerance, "%v %v %v", before, slope, after)
	})
}

func TestIndependentFlowRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyIndependent(t)
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		a, b := anyPressure(t, "a"), anyPressure(t, "b")
		if d := float64(b - a); d > 1e-9*math.Abs(float64(a))+1e-9*math.Abs(float64(b)) {
			assert.Greater(t, v.Flow(h, b), v.Flow(h, a))
		}
		further := min(h+rapid.Float64Range(1e-6, 1).Draw(t, "step"), v.GreatestUsableTravel())
		if further > h+1e-6 && a > 0 {
			assert.Greater(t, v.Flow(further, a), v.Flow(h, a))
		}
	})
}

// Through the kink the flow has no step, and the slope drops.
func TestKink(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyIndependent(t)
		onset := v.FullFlowPressure()
		below, at := v.GreatestFlow(onset*(1-1e-9)), v.GreatestFlow(onset*(1+1e-9))
		assert.Less(t, reference.RelDiff(float64(below), float64(at)), 1e-8)
		assert.Greater(t, v.Slope(1, onset*(1-1e-9)), v.Slope(1, onset*(1+1e-9)))
	})
}

func TestIndependentTravelForFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyIndependent(t)
		h := rapid.Float64Range(0, v.GreatestUsableTravel()).Draw(t, "h")
		dp := anyPressure(t, "dp")
		back, err := v.TravelForFlow(v.Flow(h, dp), dp)
		require.NoError(t, err)
		assert.InDelta(t, h, back, 1e-12)
	})
}

func TestIndependentTravelForFlowAtTheLimits(t *testing.T) {
	v := must(fanCoilValve().WithMark(50))
	dp := 60 * units.Kilopascal
	h, err := v.TravelForFlow(v.GreatestFlow(dp), dp)
	require.NoError(t, err)
	assert.InDelta(t, 1, h, 0)
	h, err = v.TravelForFlow(0, dp)
	require.NoError(t, err)
	assert.InDelta(t, 0, h, 0)
	_, err = v.TravelForFlow(0.06*units.LitrePerSecond, dp)
	require.ErrorIs(t, err, valve.ErrUnreachable)
	var unreachable *valve.UnreachableError
	require.ErrorAs(t, err, &unreachable)
	assert.InDelta(t, float64(v.GreatestFlow(dp)), float64(unreachable.Greatest), 0)
	_, err = v.TravelForFlow(-1e-6, dp)
	require.ErrorIs(t, err, valve.ErrUnreachable)
}

// Area-limiting: every setting uses the whole stroke and keeps the curve.
func TestAreaLimiting(t *testing.T) {
	v := fanCoilValve()
	for _, mark := range []float64{20, 35, 50, 80, 100} {
		set := must(v.WithMark(mark))
		assert.InDelta(t, 1, set.GreatestUsableTravel(), 0)
		for h := 0.1; h <= 1; h += 0.1 {
			assert.InDelta(t, 0.02+0.98*h, set.RelativeCoefficient(h), 1e-15)
		}
	}
}

// Lift-limiting: on the part of the stroke that is left, equal percentage of ratio
// R is that of ratio R^h_max, and linear stays linear (common practice, no published source).
func TestLiftLimiting(t *testing.T) {
	cfg := fanCoilConfig()
	cfg.SettingKind, cfg.Curve = valve.LiftLimiting, valve.EqualPercentage(50)
	v := must(must(valve.NewPressureIndependent(cfg)).WithMark(50))
	limit := v.GreatestUsableTravel()
	assert.InDelta(t, 1-math.Log(2)/math.Log(50), limit, 1e-14, "half the flow")
	ratio := math.Pow(50, limit)
	for x := 0.1; x <= 1; x += 0.1 {
		assert.InEpsilon(t, math.Pow(ratio, x-1), v.RelativeCoefficient(x*limit), 1e-13)
	}
	assert.InDelta(t, 1, v.RelativeCoefficient(limit), 0)
	assert.InDelta(t, 1, v.RelativeCoefficient(1), 0, "the stem stops at the limit")
	assert.InDelta(t, limit, v.TravelFor(1), 0)
	assert.InEpsilon(t, float64(v.SetFlow()), float64(v.Flow(limit, v.MinPressure())), 1e-15)

	cfg.Curve = valve.Linear(50)
	linear := must(must(valve.NewPressureIndependent(cfg)).WithMark(50))
	limit = linear.GreatestUsableTravel()
	assert.InDelta(t, 0.48/0.98, limit, 1e-15, "0.02 + 0.98·h = 0.5")
	middle := (linear.RelativeCoefficient(0.2*limit) + linear.RelativeCoefficient(limit)) / 2
	assert.InDelta(t, middle, linear.RelativeCoefficient(0.6*limit), 1e-15, "a straight line")
}

func TestIndependentDensity(t *testing.T) {
	v := fanCoilValve()
	heavy := must(v.WithDensity(1050))
	f := math.Sqrt(999.10 / 1050)
	assert.InDelta(t, v.Mark(), heavy.Mark(), 0, "the dial stays")
	assert.InEpsilon(t, f*float64(v.SetFlow()), float64(heavy.SetFlow()), 1e-15)
	for _, dp := range []units.Pressure{-1e4, 0.3, 5e3, 1e5} {
		assert.InEpsilon(t, f*float64(v.Flow(0.4, dp)), float64(heavy.Flow(0.4, dp)), 1e-14)
	}
	set := must(heavy.WithFlow(0.08 * units.LitrePerSecond))
	assert.InEpsilon(t, 0.08, set.SetFlow().In(units.LitrePerSecond), 1e-14)
	assert.InEpsilon(t, 80/f, set.Mark(), 1e-14, "the dial is marked for water")
	assert.InDelta(t, 1050, float64(set.Density()), 0)
	_, err := v.WithDensity(1)
	assert.ErrorIs(t, err, units.ErrInvalid)
}

func TestIndependentConfigAndEqual(t *testing.T) {
	cfg := fanCoilConfig()
	v := must(valve.NewPressureIndependent(cfg))
	assert.Empty(t, cmp.Diff(cfg, v.Config()))
	assert.Empty(t, cmp.Diff(v, must(valve.NewPressureIndependent(fanCoilConfig()))))
	assert.False(t, v.Equal(must(v.WithMark(50))))
	assert.False(t, v.Equal(valve.PressureIndependent{}))
	assert.True(t, v.Equal(must(must(v.WithMark(50)).WithMark(100))))

	cfg.Settings[0].Flow, v.Config().Settings[1].Flow = 1, 1 // neither reaches the valve
	least, greatest := v.FlowRange()
	assert.InDelta(t, 0.025, least.In(units.LitrePerSecond), 1e-15)
	assert.InDelta(t, 0.1, greatest.In(units.LitrePerSecond), 1e-15)
	assert.InDelta(t, 0.05, must(v.WithMark(50)).SetFlow().In(units.LitrePerSecond), 1e-15)
	assert.Equal(t, []any{valve.PushToClose, cfg.Stroke, cfg.Angle, cfg.SeatArea, cfg.SpringForce, cfg.MaxPressure, cfg.SettingKind, valve.ReferenceDensity},
		[]any{v.Stem(), v.Stroke(), v.Angle(), v.SeatArea(), v.SpringForce(), v.MaxPressure(), v.SettingKind(), v.Density()})
}

func TestPressureIndependentFaults(t *testing.T) {
	type config = valve.PressureIndependentConfig
	for name, c := range map[string]struct {
		field, want string
		change      func(*config)
	}{
		"no settings":    {"Settings", "one setting", func(c *config) { c.Settings = nil }},
		"flow falls":     {"Settings[2].Flow", "above", func(c *config) { c.Settings[2].Flow = 1e-5 }},
		"mark repeats":   {"Settings[1].Mark", "above 20", func(c *config) { c.Settings[1].Mark = 20 }},
		"mark NaN":       {"Settings[0].Mark", "finite", func(c *config) { c.Settings[0].Mark = math.Inf(-1) }},
		"flow negative":  {"Settings[0].Flow", "above zero", func(c *config) { c.Settings[0].Flow = -1 }},
		"no pressure":    {"Settings[0].MinPressure", "Pa", func(c *config) { c.Settings[0].MinPressure = 0 }},
		"no room":        {"Settings[2].MinPressure", "room for regulation", func(c *config) { c.MaxPressure = 15 * units.Kilopascal }},
		"kind":           {"SettingKind", "one of", func(c *config) { c.SettingKind = 2 }},
		"share":          {"MinPressureShare", "%", func(c *config) { c.MinPressureShare = 1.05 }},
		"falling band":   {"ProportionalBand", "single steady state", func(c *config) { c.ProportionalBand = -0.05 }},
		"wide band":      {"ProportionalBand", "%", func(c *config) { c.ProportionalBand = 0.6 }},
		"band NaN":       {"ProportionalBand", "%", func(c *config) { c.ProportionalBand = units.Ratio(math.NaN()) }},
		"band in no gap": {"ProportionalBand", "room", func(c *config) { c.ProportionalBand, c.MaxPressure = 0.5, 18*units.Kilopascal }},
		"lift too low": {"Settings[0].Flow", "closing region", func(c *config) {
			c.SettingKind, c.ClosingTravel = valve.LiftLimiting, 0.3
		}},
		"curve":  {"Curve", "constructor", func(c *config) { c.Curve = valve.Characteristic{} }},
		"stroke": {"Stroke", "mm", func(c *config) { c.Stroke = 0 }},
	} {
		cfg := fanCoilConfig()
		c.change(&cfg)
		v, err := valve.NewPressureIndependent(cfg)
		assert.Contains(t, faulty(err), c.field, name)
		require.ErrorContains(t, err, c.want, name)
		assert.True(t, v.Equal(valve.PressureIndependent{}), name)
	}
	_, err := valve.NewPressureIndependent(config{})
	assert.ElementsMatch(t, []string{"Stroke", "Curve", "Settings"}, faulty(err))
}

func TestZeroPressureIndependent(t *testing.T) {
	var v valve.PressureIndependent
	least, greatest := v.FlowRange()
	for _, x := range []float64{
		float64(v.Flow(0.5, 1e4)), float64(v.Flow(1, 1e4)), float64(v.Pressure(0.5, 1e-5)), v.RelativeCoefficient(0.5), v.TravelFor(0.5), v.Slope(0.5, 1e4),
		float64(v.SetFlow()), float64(v.MinPressure()), float64(v.FullFlowPressure()), v.Mark(), float64(least), float64(greatest),
	} {
		assert.True(t, math.IsNaN(x))
	}
	assert.Equal(t, valve.UnknownRegime, v.Regime(0.5, 1e4))
	_, err := v.TravelForFlow(1e-5, 1e4)
	require.ErrorIs(t, err, valve.ErrUnreachable)
	_, err = v.WithFlow(1e-5)
	require.ErrorIs(t, err, units.ErrInvalid)
	_, err = v.WithMark(1)
	require.ErrorIs(t, err, units.ErrInvalid)
	_, err = v.WithDensity(1000)
	require.ErrorIs(t, err, units.ErrInvalid)
	_, ok := v.WithMinPressure(1e5)
	assert.False(t, ok)
}

func TestPressureIndependentNaN(t *testing.T) {
	v, nan := fanCoilValve(), math.NaN()
	for _, x := range []float64{
		v.RelativeCoefficient(nan), v.TravelFor(nan), float64(v.Flow(nan, 1e4)), float64(v.Flow(0.5, units.Pressure(nan))),
		float64(v.Pressure(nan, 1e-5)), float64(v.Pressure(0.5, units.Flow(nan))), v.Slope(nan, 1e4), v.Slope(0.5, units.Pressure(nan)),
	} {
		assert.True(t, math.IsNaN(x))
	}
}
