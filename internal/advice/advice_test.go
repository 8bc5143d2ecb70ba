package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
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
	assert.True(t, strings.HasPrefix(string(text), "# Title\n"+opening+"\n### Heat against flow\n"))
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
		built, err := u.build(u.design)
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
	steep, err := typical[0].build(typical[0].design)
	require.NoError(t, err)
	below, err := breakEven(steep, deviation)
	require.NoError(t, err)
	assert.Equal(t, "any", below)
	last := typical[len(typical)-1]
	shallow, err := last.build(last.design)
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
