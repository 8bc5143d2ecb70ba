package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/schedule"
)

// The demonstration shows every warning that a plan can give.
func TestDemonstrationHasEveryWarning(t *testing.T) {
	plan, err := load(options{})
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(plan.Units), 16)
	seen := map[schedule.FindingKind]bool{}
	for _, u := range plan.Units {
		for _, f := range u.Warnings {
			seen[f.Kind] = true
		}
	}
	for kind := schedule.NoValve; kind < schedule.Larger; kind++ {
		assert.True(t, seen[kind], "no unit has the warning %v", kind)
	}
}

func TestEveryFormatHoldsEveryUnit(t *testing.T) {
	plan, err := load(options{})
	require.NoError(t, err)
	write := func(format string) string {
		var out bytes.Buffer
		require.NoError(t, run(options{format: format}, nil, &out))
		return out.String()
	}
	text := write("text")
	for _, u := range plan.Units {
		assert.Contains(t, text, u.Row.Tag)
	}
	assert.True(t, strings.HasSuffix(text, schedule.Cautions))

	lines, err := csv.NewReader(strings.NewReader(write("csv"))).ReadAll()
	require.NoError(t, err, "every line has as many cells")
	assert.Len(t, lines, len(plan.Units)+1)

	var decoded struct {
		Units []struct{ Tag string }
	}
	require.NoError(t, json.Unmarshal([]byte(write("json")), &decoded))
	assert.Len(t, decoded.Units, len(plan.Units))
}

func TestBadInputLeavesNoFile(t *testing.T) {
	dir := t.TempDir()
	schedule := filepath.Join(dir, "mine.csv")
	require.NoError(t, os.WriteFile(schedule, []byte("tag,duty,supply,output range\nA,\"3,2 kW\",6 °C,0-10 V\n"), 0o644))
	out := filepath.Join(dir, "plan.txt")
	err := run(options{schedule: schedule, format: "text", out: out}, nil, nil)
	require.Error(t, err)
	assert.ErrorContains(t, err, schedule)
	assert.ErrorContains(t, err, "2:3: duty")
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, files, 1, "neither the plan nor a part of it")
}

func TestOutputFileIsWhole(t *testing.T) {
	out := filepath.Join(t.TempDir(), "plan.txt")
	require.NoError(t, run(options{format: "text", out: out}, nil, nil))
	written, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(string(written), schedule.Cautions))
}

func TestOutputKeepsLinksAndModes(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "plan.txt"), filepath.Join(dir, "link.txt")
	require.NoError(t, os.WriteFile(file, []byte("old"), 0o600))
	require.NoError(t, os.Chmod(file, 0o600))
	require.NoError(t, os.Symlink(file, link))
	require.NoError(t, run(options{format: "text", out: link}, nil, nil))
	written, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(string(written), schedule.Cautions))
	info, err := os.Lstat(file)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode())
	info, err = os.Lstat(link)
	require.NoError(t, err)
	assert.Equal(t, os.ModeSymlink, info.Mode().Type())
	assert.NoError(t, run(options{format: "text", out: os.DevNull}, nil, nil))
	info, err = os.Stat(os.DevNull)
	require.NoError(t, err)
	assert.False(t, info.Mode().IsRegular())
}

func TestArgumentsAreNotIgnored(t *testing.T) {
	var out bytes.Buffer
	assert.ErrorContains(t, run(options{format: "text"}, []string{"mine.csv"}, &out), "mine.csv")
	assert.Empty(t, out.String())
}

func TestMissingFileNamesItsPath(t *testing.T) {
	_, err := load(options{schedule: "no such file.csv"})
	absolute, _ := filepath.Abs("no such file.csv")
	assert.ErrorContains(t, err, absolute)
	assert.Error(t, run(options{format: "pdf"}, nil, nil))
}
