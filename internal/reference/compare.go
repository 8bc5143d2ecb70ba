package reference

import (
	"cmp"
	"encoding/json"
	"math"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// A Comparison gathers how far a model is from a table: the greatest difference
// of each column, where it is, and in how many rows. Every column that is
// compared needs a limit from [Comparison.Require]; one left without fails the
// test, as does a comparison of nothing. A difference of NaN is above any limit.
//
//	c := reference.Compare(t, "water")
//	for row := range c.Rows() {
//		c.Check(row, "rho_kg_m3", density(row.Float("T_K"), row.Float("p_Pa")))
//	}
//	c.Require(1e-12)
type Comparison struct {
	Table
	t       testing.TB
	columns []*extreme
}

// extreme is the greatest difference of one column.
type extreme struct {
	Result
	where   Row
	seen    []bool // rows that were compared
	limited bool
}

// Compare opens a table for a test, or ends the test if it cannot be read.
func Compare(t testing.TB, name string) *Comparison {
	t.Helper()
	c := &Comparison{Table: Must(t, name), t: t}
	tester := callingPackage()
	t.Cleanup(func() { c.finish(tester) })
	return c
}

// callingPackage returns the import path of the package that called [Compare],
// with that of its external tests taken for its own.
func callingPackage() string {
	pc, _, _, _ := runtime.Caller(2)
	function := runtime.FuncForPC(pc).Name() // path/of/package_test.TestName.func1
	slash := strings.LastIndexByte(function, '/') + 1
	name, _, _ := strings.Cut(function[slash:], ".")
	return function[:slash] + strings.TrimSuffix(name, "_test")
}

// Check compares by the relative difference, [RelDiff].
func (c *Comparison) Check(row Row, column string, got float64) {
	c.Note(row, column, RelDiff(got, row.Float(column)), "")
}

// CheckAbs compares by the difference in the column's own unit, where zero is a
// point like any other: levels in dB, shares, what cancels.
func (c *Comparison) CheckAbs(row Row, column string, got float64) {
	c.Note(row, column, got-row.Float(column), c.Columns[c.find(column, false)].Unit)
}

// Note takes in a difference that the test worked out itself, of either sign:
// one over a scale, or from a value that the row only implies. What names it, a
// column or other words; unit is that of the difference, empty for a relative one.
func (c *Comparison) Note(row Row, what string, diff float64, unit string) {
	if row.table.Name != c.Name {
		panic("reference: " + c.Name + ": compared with a row of " + row.table.Name)
	}
	e := c.extremeOf(what, unit)
	if !e.seen[row.index] {
		e.seen[row.index] = true
		e.Points++
	}
	diff = math.Abs(diff)
	if e.where.table == nil || diff > e.Worst || math.IsNaN(diff) {
		e.Worst, e.where = diff, row // a NaN stays: nothing is greater
	}
}

func (c *Comparison) extremeOf(what, unit string) *extreme {
	for _, e := range c.columns {
		if e.Column == what && e.Unit == unit {
			return e
		}
	}
	e := &extreme{Result: Result{Table: c.Name, Column: what, Unit: unit}, seen: make([]bool, c.Len())}
	c.columns = append(c.columns, e)
	return e
}

// Require fails the test for each column whose greatest difference is above the
// limit, in the unit of its comparison. It is for the columns named; with none
// named, for all that have no limit yet.
func (c *Comparison) Require(limit float64, columns ...string) {
	c.t.Helper()
	for _, name := range columns {
		if !slices.ContainsFunc(c.columns, func(e *extreme) bool { return e.Column == name }) {
			c.t.Errorf("%s: %s was not compared", c.Name, name)
		}
	}
	for _, e := range c.columns {
		if slices.Contains(columns, e.Column) || len(columns) == 0 && !e.limited {
			e.Limit, e.limited = limit, true
			c.t.Logf("%v", e.Result)
			if !(e.Worst <= limit) {
				c.t.Errorf("%v: exceeded at %v", e.Result, e.where)
			}
		}
	}
}

// finish checks that nothing is left without a limit and hands the results on.
func (c *Comparison) finish(tester string) {
	if c.t.Failed() {
		return
	}
	if len(c.columns) == 0 {
		c.t.Errorf("%s: nothing was compared", c.Name)
	}
	for _, e := range c.columns {
		e.Package = tester
		if !e.limited {
			c.t.Errorf("%s: %s was compared without a limit", c.Name, e.Column)
		} else if !(e.Worst <= e.Limit) {
			c.t.Errorf("%v: exceeded after Require at %v", e.Result, e.where)
		}
	}
	if dir := os.Getenv(ResultsVariable); dir != "" && !c.t.Failed() {
		if err := c.writeResults(dir); err != nil {
			c.t.Errorf("%s: %v", c.Name, err)
		}
	}
}

// writeResults makes a file of its own, so that tests of many packages can run
// at once.
func (c *Comparison) writeResults(dir string) error {
	file, err := os.CreateTemp(dir, c.Name+"-*.json")
	if err != nil {
		return err
	}
	out := json.NewEncoder(file)
	for _, e := range c.columns {
		if err = out.Encode(e.Result); err != nil {
			break
		}
	}
	return cmp.Or(err, file.Close())
}
