package main

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
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
	for _, name := range []string{"shaping", "inherent", "installed", "terminal", "heat", "gain", "response"} {
		checkPNG(t, filepath.Join(folder, name+".png"))
		checkSVG(t, filepath.Join(folder, name+".svg"))
	}
}

// checkPNG wants ink: between a share of dark points that a curve, axes and words
// need and one that is no drawing any more.
func checkPNG(t *testing.T, name string) {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	picture, err := png.Decode(file)
	require.NoError(t, err)
	size := picture.Bounds()
	assert.GreaterOrEqual(t, size.Dx(), 800, name)
	const every = 3 // in each direction
	dark, seen := 0, 0
	for y := size.Min.Y; y < size.Max.Y; y += every {
		for x := size.Min.X; x < size.Max.X; x += every {
			if r, _, _, _ := picture.At(x, y).RGBA(); r < 0x8000 {
				dark++
			}
			seen++
		}
	}
	assert.InDelta(t, 0.02, float64(dark)/float64(seen), 0.015, name)
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
