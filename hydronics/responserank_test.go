package hydronics_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// ranked returns what RankPairings makes of a pairing.
func ranked(t *testing.T, all []hydronics.RankedPairing, shaping actuator.Shaping, curve valve.Characteristic) hydronics.RankedPairing {
	for _, r := range all {
		if r.Shaping.Equal(shaping) && r.Curve.Equal(curve) {
			return r
		}
	}
	require.FailNow(t, "not among the ranked", "%v on %v", shaping, curve)
	return hydronics.RankedPairing{}
}

func rank(t *testing.T, cfg hydronics.PairingConfig) []hydronics.RankedPairing {
	all, err := hydronics.RankPairings(cfg)
	require.NoError(t, err)
	require.NotEmpty(t, all)
	return all
}

// The bench of RankPairings against the independent solution of the table, whose
// pairings are among the usual ones.
func TestRankPairingsAgainstBisection(t *testing.T) {
	c := reference.Compare(t, "response_linearity")
	for row := range c.Rows() {
		shaping, curve := actuator.Linear(), valve.Linear(50)
		if ratio := row.Float("shaping"); ratio != 0 {
			shaping = actuator.ZeroBasedEqualPercentage(ratio)
		}
		if row.Text("curve") == "equal-percentage" {
			curve = valve.EqualPercentage(50)
		}
		all := rank(t, hydronics.PairingConfig{
			Terminal: recordedTerminal(t, row), Authority: row.Float("authority"),
			Shapings: []actuator.Shaping{shaping}, Curves: []valve.Characteristic{curve},
		})
		require.Len(t, all, 1)
		c.Check(row, "gain_ratio", all[0].GainRatio())
		c.CheckAbs(row, "deviation", all[0].Deviation)
		c.Check(row, "least_heat", all[0].LeastLoad.Share)
	}
	c.Require(1e-9, "least_heat")
	c.Require(0.02, "gain_ratio")
	c.Require(1e-4, "deviation")
}

// The usual advice, equal percentage for coils and radiators and linear for what is
// straight already (any textbook of hydronics), and where it fails: a large drop of
// temperature at a good authority wants linear, and at a low authority nothing helps.
func TestUsualAdviceAndItsLimits(t *testing.T) {
	radiator := func(design terminal.Temperatures) terminal.Terminal {
		r, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: units.Kilowatt, Design: design})
		require.NoError(t, err)
		return r
	}
	compare := func(unit terminal.Terminal, authority float64) (linear, equal hydronics.RankedPairing) {
		all := rank(t, hydronics.PairingConfig{Terminal: unit, Authority: authority})
		return ranked(t, all, actuator.Linear(), valve.Linear(50)), ranked(t, all, actuator.Linear(), valve.EqualPercentage(50))
	}
	linear, equal := compare(testCoil(t), 0.5)
	assert.Less(t, equal.GainRatio(), linear.GainRatio()/2, "it holds: a coil 80/60")
	assert.Less(t, equal.Deviation, linear.Deviation/5)

	linear, equal = compare(radiator(degrees(70, 30, 20)), 1)
	assert.Greater(t, equal.GainRatio(), 3*linear.GainRatio(), "large drop: linear is better")
	assert.Greater(t, equal.Deviation, 2*linear.Deviation)
	linear, equal = compare(radiator(degrees(70, 30, 20)), 0.1)
	assert.Less(t, equal.GainRatio(), linear.GainRatio(), "and at a low authority it is not")

	linear, equal = compare(radiator(degrees(75, 65, 20)), 0.1)
	assert.Greater(t, equal.Deviation, 0.25, "small drop, low authority: no usual curve is straight")
	assert.Greater(t, equal.LeastLoad.Share, 0.3, "nor controls less than a third")
	assert.Greater(t, linear.LeastLoad.Share, equal.LeastLoad.Share)
}

// Zero-based shaping of a ratio on a linear valve of that ratio is equal percentage,
// except in the closing region: the two pairings are worth the same.
func TestMatchingPairingsAreWorthTheSame(t *testing.T) {
	all := rank(t, hydronics.PairingConfig{Terminal: testCoil(t), Authority: 0.5})
	shaped := ranked(t, all, actuator.ZeroBasedEqualPercentage(50), valve.Linear(50))
	inherent := ranked(t, all, actuator.Linear(), valve.EqualPercentage(50))
	assert.InDelta(t, inherent.Deviation, shaped.Deviation, 0.01)
	assert.Greater(t, shaped.LeastLoad.Share, inherent.LeastLoad.Share, "a linear valve stops controlling at a greater flow")
}

func TestRankingIsInOrder(t *testing.T) {
	for _, by := range []hydronics.Criterion{hydronics.ByDeviation, hydronics.ByGainRatio} {
		all := rank(t, hydronics.PairingConfig{Terminal: testCoil(t), Authority: 0.4, AllowDouble: true, By: by})
		assert.Len(t, all, len(hydronics.UsualShapings())*len(hydronics.UsualCurves()))
		for i := 1; i < len(all); i++ {
			if by == hydronics.ByDeviation {
				assert.GreaterOrEqual(t, all[i].Deviation, all[i-1].Deviation-1e-4)
			} else {
				assert.GreaterOrEqual(t, all[i].GainRatio(), all[i-1].GainRatio()*(1-1e-4))
			}
		}
	}
}

// The order of the lists decides between pairings that are the same.
func TestEqualPairingsKeepTheirOrder(t *testing.T) {
	table := valve.Tabulated([]valve.Point{{Travel: 0, Coefficient: 0.02}, {Travel: 0.5, Coefficient: 0.51}, {Travel: 1, Coefficient: 1}})
	for _, curves := range [][]valve.Characteristic{{valve.Linear(50), table}, {table, valve.Linear(50)}} {
		all := rank(t, hydronics.PairingConfig{Terminal: testCoil(t), Authority: 1, Curves: curves, Shapings: []actuator.Shaping{{}}})
		require.Len(t, all, 2)
		assert.True(t, all[0].Curve.Equal(curves[0]))
	}
}

func TestDoublePairings(t *testing.T) {
	straightTable := valve.Tabulated([]valve.Point{{Travel: 0, Coefficient: 0.02}, {Travel: 0.5, Coefficient: 0.51}, {Travel: 1, Coefficient: 1}})
	for _, tt := range []struct {
		pairing hydronics.Pairing
		double  bool
	}{
		{hydronics.Pairing{actuator.Linear(), valve.Linear(49)}, false},
		{hydronics.Pairing{actuator.Shaping{}, valve.EqualPercentage(50)}, false},
		{hydronics.Pairing{actuator.ZeroBasedEqualPercentage(5), valve.Linear(30)}, false},
		{hydronics.Pairing{actuator.ZeroBasedEqualPercentage(5), straightTable}, false},
		{hydronics.Pairing{actuator.ZeroBasedEqualPercentage(5), valve.EqualPercentage(50)}, true},
		{hydronics.Pairing{actuator.ZeroBasedEqualPercentage(5), valve.Parabolic()}, true},
	} {
		assert.Equal(t, tt.double, tt.pairing.Double(), "%v", tt.pairing)
	}
	for _, r := range rank(t, hydronics.PairingConfig{Terminal: testCoil(t), Authority: 0.4}) {
		assert.False(t, r.Double(), "%v", r)
	}
}

// A coarser valve controls less, and the ranking sees it.
func TestRangeabilityAndResolutionReachTheLeastLoad(t *testing.T) {
	only := hydronics.PairingConfig{
		Terminal: testCoil(t), Authority: 0.5,
		Shapings: []actuator.Shaping{actuator.Linear()}, Curves: []valve.Characteristic{valve.EqualPercentage(50)},
	}
	fine := rank(t, only)[0]
	only.Rangeability = 20
	coarse := rank(t, only)[0]
	assert.Greater(t, coarse.LeastLoad.Share, 1.5*fine.LeastLoad.Share)
	only.Rangeability, only.Resolution = 0, hydronics.Resolution{Signal: 0.1}
	assert.InDelta(t, 0.1, rank(t, only)[0].LeastLoad.Opening, 1e-12)
}

// What is worth most does not depend on how large the unit is.
func TestRankingDoesNotDependOnSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := units.Power(rapid.Float64Range(0.1, 1000).Draw(t, "kW")) * units.Kilowatt
		authority := rapid.Float64Range(0.05, 1).Draw(t, "authority")
		best := func(heat units.Power) hydronics.RankedPairing {
			coil, err := terminal.NewCoil(terminal.CoilConfig{Heat: heat, Design: degrees(70, 50, 16), LeavingAir: units.Celsius(35)})
			require.NoError(t, err)
			all, err := hydronics.RankPairings(hydronics.PairingConfig{Terminal: coil, Authority: authority})
			require.NoError(t, err)
			return all[0]
		}
		a, b := best(units.Kilowatt), best(size)
		require.InDelta(t, a.Deviation, b.Deviation, 2e-4)
	})
}

func TestRankPairingsRefusesWhatMakesNoUnit(t *testing.T) {
	_, err := hydronics.RankPairings(hydronics.PairingConfig{Rangeability: 1, Range: hydronics.HeatRange{From: 2}, By: 7})
	for _, field := range []string{"Terminal", "Authority", "Rangeability", "Range", "By"} {
		assert.ErrorContains(t, err, field, "all faults at once")
	}
	assert.ErrorIs(t, err, units.ErrInvalid)
	good := hydronics.PairingConfig{Terminal: testCoil(t), Authority: 0.5}
	for field, change := range map[string]func(*hydronics.PairingConfig){
		"Authority": func(c *hydronics.PairingConfig) { c.Authority = math.NaN() },
		"authority": func(c *hydronics.PairingConfig) { c.Authority = 1.01 },
		"Shaping": func(c *hydronics.PairingConfig) {
			c.Shapings = []actuator.Shaping{actuator.ZeroBasedEqualPercentage(0.5)}
		},
		"Curve":         func(c *hydronics.PairingConfig) { c.Curves = []valve.Characteristic{{}} },
		"Leakage":       func(c *hydronics.PairingConfig) { c.Leakage = -1 },
		"Resolution":    func(c *hydronics.PairingConfig) { c.Resolution.Stem = 1 },
		"Conditions":    func(c *hydronics.PairingConfig) { c.Conditions.Supply = units.Celsius(16) },
		"zero terminal": func(c *hydronics.PairingConfig) { c.Terminal = terminal.Coil{} },
	} {
		cfg := good
		change(&cfg)
		_, err := hydronics.RankPairings(cfg)
		assert.ErrorIs(t, err, units.ErrInvalid, field)
	}
}

// What is wrong whatever the pairing is told once, and what is wrong with a
// characteristic once for it.
func TestRankPairingsReportsEachFaultOnce(t *testing.T) {
	good := hydronics.PairingConfig{Terminal: testCoil(t), Authority: 0.5}
	for name, c := range map[string]struct {
		change func(*hydronics.PairingConfig)
		word   string
		want   int
	}{
		"resolution":       {func(c *hydronics.PairingConfig) { c.Resolution.Signal = 0.5 }, "Resolution.Signal", 1},
		"both resolutions": {func(c *hydronics.PairingConfig) { c.Resolution = hydronics.Resolution{Signal: -1, Stem: 1} }, "Resolution.", 2},
		"leakage":          {func(c *hydronics.PairingConfig) { c.Leakage = -1 }, "Leakage", 1},
		"conditions":       {func(c *hydronics.PairingConfig) { c.Conditions.Supply = units.Celsius(16) }, "Conditions.Supply", 1},
		"shaping": {func(c *hydronics.PairingConfig) {
			c.Shapings = []actuator.Shaping{actuator.ZeroBasedEqualPercentage(0.5)}
		}, "0.5", 1},
		"curve": {func(c *hydronics.PairingConfig) { c.Curves = []valve.Characteristic{{}} }, "Curve", 1},
		"leaks too much for this curve": {func(c *hydronics.PairingConfig) {
			c.Leakage, c.Curves, c.AllowDouble = 0.1, []valve.Characteristic{valve.EqualPercentage(1e4)}, true
		}, "equal-percentage 10000: valve: Leakage", 1},
	} {
		cfg := good
		c.change(&cfg)
		_, err := hydronics.RankPairings(cfg)
		require.ErrorIs(t, err, units.ErrInvalid, name)
		assert.Equal(t, c.want, strings.Count(err.Error(), c.word), "%s: %v", name, err)
	}
}

func TestCriterionWords(t *testing.T) {
	for c, word := range map[hydronics.Criterion]string{hydronics.ByDeviation: "by-deviation", hydronics.ByGainRatio: "by-gain-ratio"} {
		text, err := json.Marshal(c)
		require.NoError(t, err)
		assert.Equal(t, `"`+word+`"`, string(text))
		var back hydronics.Criterion
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, c, back)
	}
	var c hydronics.Criterion
	assert.ErrorIs(t, c.UnmarshalText([]byte("by-colour")), units.ErrInvalid)
	_, err := hydronics.Criterion(9).MarshalText()
	assert.ErrorIs(t, err, units.ErrInvalid)
}
