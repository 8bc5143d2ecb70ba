package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The page in the repository is what would be written now.
func TestPageIsUpToDate(t *testing.T) {
	if testing.Short() {
		t.Skip("ranks all pairings for all units")
	}
	require.NoError(t, update("../../"+page, true))
}

func TestUpdateWritesBetweenTheMarkersOnly(t *testing.T) {
	name := filepath.Join(t.TempDir(), "page.md")
	few := typical[:1]
	require.NoError(t, os.WriteFile(name, []byte("# Title\n"+opening+"old\n"+closing+"\nend\n"), 0o600))
	assert.ErrorContains(t, updateWith(name, few, true), "out of date")
	require.NoError(t, updateWith(name, few, false))
	require.NoError(t, updateWith(name, few, true))
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(text), "# Title\n"+opening+"\n### In short\n"))
	assert.True(t, strings.HasSuffix(string(text), "\n"+closing+"\nend\n"))
	assert.NotContains(t, string(text), "old\n")
	changed := strings.Replace(string(text), "| 49 % |", "| 48 % |", 1)
	require.NotEqual(t, string(text), changed)
	require.NoError(t, os.WriteFile(name, []byte(changed), 0o600))
	assert.ErrorContains(t, updateWith(name, few, true), "| 49 % |", "the line that should be there")
}

func TestUpdateNeedsThePageAndItsMarkers(t *testing.T) {
	name := filepath.Join(t.TempDir(), "page.md")
	assert.ErrorIs(t, update(name, true), os.ErrNotExist)
	for _, text := range []string{"", opening, closing} {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
		assert.ErrorContains(t, update(name, true), "no lines")
	}
}

func TestShortNames(t *testing.T) {
	for want, p := range map[string]hydronics.Pairing{
		"linear":    linear,
		"E50":       equal,
		"Z30":       {Shaping: actuator.ZeroBasedEqualPercentage(30), Curve: valve.Linear(50)},
		"parabolic": {Curve: valve.Parabolic()},
		"zero-based-equal-percentage 30 on equal-percentage 50": {Shaping: actuator.ZeroBasedEqualPercentage(30), Curve: valve.EqualPercentage(50)},
	} {
		assert.Equal(t, want, short(p))
	}
}

// Every unit can be built, is named apart from the others, and the list is in order
// of steepness.
func TestTypicalUnits(t *testing.T) {
	names := map[string]bool{}
	for i, u := range typical {
		built, err := u.model.build(u.design)
		require.NoError(t, err, "%v", u)
		assert.InDelta(t, 1, built.HeatShare(1), 1e-9)
		assert.False(t, names[u.String()], "%v is there twice", u)
		names[u.String()] = true
		if i > 0 {
			assert.GreaterOrEqual(t, u.steepness(), typical[i-1].steepness(), "%v", u)
		}
	}
}

// At the break-even the two are equally far from a straight line.
func TestBreakEven(t *testing.T) {
	steep, err := typical[0].model.build(typical[0].design)
	require.NoError(t, err)
	below, err := breakEven(steep, deviation)
	require.NoError(t, err)
	assert.Equal(t, "any", below)
	last := typical[len(typical)-1]
	shallow, err := last.model.build(last.design)
	require.NoError(t, err)
	below, err = breakEven(shallow, deviation)
	require.NoError(t, err)
	for authority, better := range map[float64]bool{0.44: true, 0.54: false} {
		c, err := choose(hydronics.PairingConfig{Terminal: shallow, Authority: authority})
		require.NoError(t, err)
		assert.Equal(t, better, c.equal.Deviation < c.linear.Deviation)
	}
	assert.Equal(t, "0.49", below)
	below, err = breakEven(shallow, func(r hydronics.RankedPairing) float64 { return r.Curve.TheoreticalRatio() })
	require.NoError(t, err)
	assert.Equal(t, "none", below)
}

// What others say of a unit is what the model says of it: to a rounding where it is the
// same law solved without the library, to 2 or 3 % of the full heat where it is read off a
// chart or common practice.
func TestFactsAgree(t *testing.T) {
	tolerance := map[int]float64{1: 0.02, 2: 1e-4, 3: 0.03, 4: 1e-4}
	told := 0
	for _, u := range typical {
		for _, f := range u.facts {
			terminal, err := u.factTerminal(f)
			require.NoError(t, err)
			heat, within := terminal.HeatShare(f.flow), tolerance[f.note]
			assert.True(t, heat >= f.least-within && heat <= f.most+within, "%v: %v, but the model has %.4f", u, f, heat)
			told++
		}
		if share, ok := u.schoolHeat(0.5); ok {
			terminal, err := u.model.build(u.design)
			require.NoError(t, err)
			assert.InDelta(t, share, terminal.HeatShare(0.5), 0.07, "the school formula of %v", u)
		}
	}
	assert.Greater(t, told, len(typical), "most units have some")
}

// A water side that the flow worsens takes heat from a coil.
func TestConstantUAIsTheMost(t *testing.T) {
	for _, u := range typical {
		if c, ok := u.model.(coil); ok && c.water > 0 {
			real, err := c.build(u.design)
			require.NoError(t, err)
			constant, err := coil{c.leaving, 0}.build(u.design)
			require.NoError(t, err)
			assert.Less(t, real.HeatShare(0.5), constant.HeatShare(0.5), "%v", u)
		}
	}
}

// Every unit is in one of the bands of the findings, and the bands with a pump of its
// own are not empty.
func TestBandsHoldEveryUnit(t *testing.T) {
	var judgedUnits []judged
	for _, u := range typical {
		judgedUnits = append(judgedUnits, judged{unit: u})
	}
	in := 0
	for _, b := range bands {
		in += len(within(judgedUnits, b))
	}
	assert.Equal(t, len(typical), in)
}

// The words follow the numbers.
func TestFindingsFollowTheNumbers(t *testing.T) {
	j, err := judge(typical[11]) // a heating coil, in circuits too
	require.NoError(t, err)
	text, err := findings([]judged{j})
	require.NoError(t, err)
	assert.Contains(t, text, "| throttled | 0.31 | Z20 | Z30 | Z50 | Z100 | E100 |")
	assert.Contains(t, text, "| 0.31 | 1 | off by 9 %, gain ratio 3.8 | off by 2 %, gain ratio 2.1 |")
	assert.Contains(t, text, "the straightest in 0 of the 5 cases")
	assert.Contains(t, text, "marked **!**")
	j.choices[0].best, j.below = j.choices[0].linear, "0.33"
	changed, err := findings([]judged{j})
	require.NoError(t, err)
	assert.Contains(t, changed, "| throttled | 0.31 | linear | Z30 | Z50 | Z100 | E100 |")
	assert.Contains(t, changed, "the straightest in 1 of the 5 cases")
	assert.Contains(t, changed, j.String()+" only below an authority of 0.33")
}

// What the page says outside the tables.
func TestWordsOfThePage(t *testing.T) {
	text, err := os.ReadFile("../../" + page)
	require.NoError(t, err)
	words := strings.Join(strings.Fields(string(text)), " ")
	for _, claim := range []string{
		fmt.Sprintf("at 1 %% of the travel one has %.1f %% of its coefficient (ratio 50), the other %.1f %%.", 100*equal.Curve.At(0.01), 100*linear.Curve.At(0.01)),
		fmt.Sprintf("(E100 then has an inherent rangeability of %.0f,", 1/valve.EqualPercentage(100).At(valve.DefaultClosingTravel)),
		fmt.Sprintf("deviates by more than %.0f %% or controls nothing below %.0f %% of the heat", 100*mostDeviation, 100*mostLeast),
	} {
		assert.Contains(t, words, claim)
	}
}

// Everything that a unit is built from is in its row of the legend: another value
// makes another row.
func TestLegendHasEveryInput(t *testing.T) {
	const flow = 0.3 * units.CubicMetrePerSecond
	for _, models := range [][]model{
		{radiator{1.3}, radiator{1.2}},
		{ceiling{1.1}, ceiling{1}},
		{passiveBeam{1.3}, passiveBeam{1.2}},
		{activeBeam{1}, activeBeam{1.1}},
		{floor{300, 60}, floor{310, 60}, floor{300, 61}},
		{coil{35, 0.2}, coil{34, 0.2}, coil{35, 0.25}, coil{35, 0}},
		{wetCoil{0.5, flow, 0.25}, wetCoil{0.4, flow, 0.25}, wetCoil{0.5, 0.9 * flow, 0.25}, wetCoil{0.5, flow, 0.2}},
	} {
		rows := map[string]bool{}
		for _, m := range models {
			j := judged{unit: unit{name: "unit", design: at(80, 60, 20), model: m}}
			rows[j.legendRow()] = true
		}
		assert.Len(t, rows, len(models), "%T", models[0])
	}
}
