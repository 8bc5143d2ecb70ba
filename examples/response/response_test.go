package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func TestRunPrintsAndDraws(t *testing.T) {
	if testing.Short() {
		t.Skip("drawing takes long under the race detector")
	}
	folder := filepath.Join(t.TempDir(), "new", "plots")
	var out bytes.Buffer
	require.NoError(t, run(folder, &out))
	for _, line := range []string{"authority 0.37", "actuator on valve", "10 V", "100 %", "6 kW at 4.80 V", folder} {
		assert.Contains(t, out.String(), line)
	}
	assert.Contains(t, out.String(), cautions)
	u, err := newUnit()
	require.NoError(t, err)
	panels := u.panels()
	for _, p := range panels {
		checkPicture(t, filepath.Join(folder, p.file+".png"), u, [][]panel{{p}}, panelWidth, panelHeight)
		checkSVG(t, filepath.Join(folder, p.file+".svg"))
	}
	checkPicture(t, filepath.Join(folder, "response.png"), u, [][]panel{panels[:2], panels[2:4], panels[4:]}, pageWidth, pageHeight)
	checkSVG(t, filepath.Join(folder, "response.svg"))
}

func checkSVG(t *testing.T, name string) {
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.True(t, bytes.HasSuffix(bytes.TrimSpace(text), []byte("</svg>")), name)
	assert.Greater(t, bytes.Count(text, []byte("<path")), 10, name)
	assert.Greater(t, bytes.Count(text, []byte("<text")), 10, name)
}

// Without a folder nothing is written.
func TestRunWithoutAFolder(t *testing.T) {
	t.Chdir(t.TempDir())
	var out bytes.Buffer
	require.NoError(t, run("", &out))
	assert.Contains(t, out.String(), "-out")
	assert.True(t, strings.HasSuffix(out.String(), cautions))
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Empty(t, entries)
}

func TestRunReportsAFolderThatCannotBe(t *testing.T) {
	name := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(name, nil, 0o600))
	assert.ErrorContains(t, run(name, &bytes.Buffer{}), name)
}

// What the plots show is what the words claim: the best pairing is nearly straight,
// the straight valve is not, and every curve rises.
func TestUnitIsSensible(t *testing.T) {
	u, err := newUnit()
	require.NoError(t, err)
	best, straight := &u.cases[0], &u.cases[2]
	assert.InDelta(t, 12, best.chain.FullHeat().In(units.Kilowatt), 0.2, "the valve is sized for the design flow")
	assert.InDelta(t, 0.5, best.chain.HeatShare(0.5), 0.05)
	assert.Greater(t, straight.chain.HeatShare(0.5), 0.85)
	for _, f := range u.cases {
		assert.InDelta(t, 12, f.chain.Heat(signal.Volts(10)).In(units.Kilowatt), 0.2)
		assert.InDelta(t, 0.37, f.authority.Open, 0.005)
		assert.Less(t, float64(f.least.Heat), 2000.0)
	}
	for _, p := range u.panels() {
		if p.file == "gain" {
			continue // which falls too
		}
		for i := range u.cases {
			for x := 0.0; x < p.x.max; x += p.x.max / 50 {
				a, b := p.curve(&u.cases[i], x), p.curve(&u.cases[i], x+p.x.max/50)
				assert.Greater(t, b, a, "%s at %v", p.file, x)
				assert.True(t, a >= 0 && b <= p.y.max, "%s at %v is on the axes", p.file, x)
			}
		}
	}
}
