package reference_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
)

// trial is a test inside a test: it keeps what would have failed.
type trial struct {
	testing.TB
	faults   []string
	cleanups []func()
}

func (t *trial) Errorf(format string, args ...any) {
	t.faults = append(t.faults, fmt.Sprintf(format, args...))
}
func (t *trial) Cleanup(f func()) { t.cleanups = append(t.cleanups, f) }
func (t *trial) Failed() bool     { return len(t.faults) > 0 }

// try runs a comparison with the table of the other tests and returns what
// failed and what was handed on.
func try(t *testing.T, compare func(c *reference.Comparison, rows []reference.Row)) ([]string, []reference.Result) {
	t.Helper()
	dir, results := t.TempDir(), t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "small.csv"), []byte(small), 0o600))
	t.Setenv(reference.LiveVariable, dir)
	t.Setenv(reference.ResultsVariable, results)
	inner := &trial{TB: t}
	c := reference.Compare(inner, "small")
	var rows []reference.Row
	for row := range c.Rows() {
		rows = append(rows, row)
	}
	compare(c, rows)
	for _, f := range inner.cleanups {
		f()
	}
	got, err := reference.ReadResults(results)
	require.NoError(t, err)
	return inner.faults, got
}

func TestComparison(t *testing.T) {
	faults, got := try(t, func(c *reference.Comparison, rows []reference.Row) {
		c.Check(rows[0], "twice", 2.5)
		c.Check(rows[0], "twice", 1.5)
		c.Check(rows[0], "twice", 2)
		c.Check(rows[1], "twice", 0.002)
		c.CheckAbs(rows[1], "x_m", 0.251)
		c.CheckAbs(rows[0], "x_m", 1)
		c.CheckAbs(rows[0], "twice", 1.875)
		c.Note(rows[1], "sum", -3, "dB")
		c.Require(0.25, "x_m", "twice")
		c.Require(4)
	})
	assert.Empty(t, faults)
	const tester = "github.com/indexrun/indexrun/internal/reference"
	assert.Equal(t, []reference.Result{
		{Table: "small", Package: tester, Column: "twice", Points: 2, Worst: 0.25, Limit: 0.25},
		{Table: "small", Package: tester, Column: "x_m", Unit: "m", Points: 2, Worst: 0.25, Limit: 0.25},
		{Table: "small", Package: tester, Column: "twice", Unit: "1", Points: 1, Worst: 0.125, Limit: 0.25},
		{Table: "small", Package: tester, Column: "sum", Unit: "dB", Points: 1, Worst: 3, Limit: 4},
	}, got)
	assert.Equal(t, "0", reference.Result{Unit: "dB"}.Difference())
	assert.Equal(t, "small, twice: differences up to 2.5e-01 in 2 points, limit 0.25", got[0].String())
	assert.Equal(t, []string{"2.5e-01", "0.25 m", "0.12 absolute", "3 dB"},
		[]string{got[0].Difference(), got[1].Difference(), got[2].Difference(), got[3].Difference()})
}

func TestComparisonFails(t *testing.T) {
	for name, c := range map[string]struct {
		compare func(c *reference.Comparison, rows []reference.Row)
		want    string
	}{
		"above the limit": {func(c *reference.Comparison, rows []reference.Row) {
			c.Check(rows[0], "twice", 2)
			c.Check(rows[1], "twice", 0.003)
			c.Require(0.4)
		}, "exceeded at small row 2: what=b x_m=1e-3 twice=0.002"},
		"NaN": {func(c *reference.Comparison, rows []reference.Row) {
			c.Check(rows[0], "twice", math.NaN())
			c.Check(rows[1], "twice", 0.002)
			c.Require(math.Inf(1))
		}, "exceeded at small row 1"},
		"a late NaN": {func(c *reference.Comparison, rows []reference.Row) {
			c.Check(rows[0], "twice", 3)
			c.Check(rows[1], "twice", math.NaN())
			c.Require(1)
		}, "exceeded at small row 2"},
		"no limit": {func(c *reference.Comparison, rows []reference.Row) {
			c.Check(rows[0], "twice", 2)
			c.Check(rows[0], "x_m", 1)
			c.Require(0, "x_m")
		}, "small: twice was compared without a limit"},
		"too late": {func(c *reference.Comparison, rows []reference.Row) {
			c.Check(rows[0], "twice", 2)
			c.Require(0)
			c.Check(rows[1], "twice", 3)
		}, "exceeded after Require at small row 2"},
		"nothing": {func(*reference.Comparison, []reference.Row) {}, "small: nothing was compared"},
		"other column": {func(c *reference.Comparison, rows []reference.Row) {
			c.Check(rows[0], "twice", 2)
			c.Require(0, "x_m")
		}, "small: x_m was not compared"},
		"nowhere to go": {func(c *reference.Comparison, rows []reference.Row) {
			c.Check(rows[0], "twice", math.Inf(1))
			c.Require(math.Inf(1))
		}, "unsupported value"},
	} {
		t.Run(name, func(t *testing.T) {
			faults, got := try(t, c.compare)
			require.Len(t, faults, 1)
			assert.Contains(t, faults[0], c.want)
			assert.Empty(t, got)
		})
	}
}

func TestComparisonWithAnotherTable(t *testing.T) {
	c := reference.Compare(&trial{TB: t}, "water")
	for row := range reference.Must(t, "glycol").Rows() {
		assert.PanicsWithValue(t, "reference: water: compared with a row of glycol", func() { c.Check(row, "T_K", 0) })
		break
	}
}

func TestReadResultsRefuses(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "x.json"), []byte("{"), 0o600))
	_, err := reference.ReadResults(dir)
	assert.ErrorContains(t, err, "x.json")
}
