package main

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"
)

const (
	opening = "<!-- law table -->\n"
	closing = "<!-- end of law table -->"
)

// A document is the page around the table.
type document struct{ before, table, after string }

// split finds the table between its markers.
func split(page []byte) (document, error) {
	before, rest, found := strings.Cut(string(page), opening)
	table, after, closed := strings.Cut(rest, closing)
	if !found || !closed {
		return document{}, fmt.Errorf("no lines %q and %q", strings.TrimSpace(opening), closing)
	}
	return document{before, table, after}, nil
}

func (d document) join() []byte { return []byte(d.before + opening + d.table + closing + d.after) }

// differenceCell is the place of what may vary from one machine to another.
const differenceCell = 3

// cells are the columns of the table for a law.
func (l *law) cells() []string {
	return []string{
		fmt.Sprintf("[%s](internal/reference/data/%s.csv)", escape(l.Law), l.Name),
		escape(l.Source + "; " + l.Version), strconv.Itoa(l.points), l.difference(), escape(l.Tolerance),
	}
}

func escape(text string) string { return strings.ReplaceAll(text, "|", `\|`) }

// markdown writes the whole table, with the sum of the points last.
func markdown(laws []law) string {
	var out strings.Builder
	out.WriteString("| law | source | points | worst relative difference | note |\n|---|---|--:|--:|---|\n")
	total := 0
	for _, l := range laws {
		out.WriteString("| " + strings.Join(l.cells(), " | ") + " |\n")
		total += l.points
	}
	fmt.Fprintf(&out, "| **sum of %d tables** | | **%d** | | |\n", len(laws), total)
	return out.String()
}

// compare reports where a table is not what would be written now. A difference
// is in order if another machine might have found it, see [law.allows].
func compare(table string, laws []law) error {
	got, want := strings.SplitAfter(table, "\n"), strings.SplitAfter(markdown(laws), "\n")
	if len(got) != len(want) {
		return fmt.Errorf("the table has %d lines, want %d; run: go run ./internal/lawtable", len(got), len(want))
	}
	var faults []error
	for i := range got {
		if law := i - 2; law >= 0 && law < len(laws) {
			faults = append(faults, laws[law].compare(got[i], want[i]))
		} else if got[i] != want[i] {
			faults = append(faults, outdated(got[i], want[i]))
		}
	}
	return errors.Join(faults...)
}

func (l *law) compare(got, want string) error {
	gotCells, wantCells := strings.Split(got, " | "), strings.Split(want, " | ")
	if len(gotCells) == len(wantCells) && l.allows(gotCells[differenceCell]) {
		wantCells[differenceCell] = gotCells[differenceCell]
		want = strings.Join(wantCells, " | ")
	}
	if got != want {
		return outdated(got, want)
	}
	return nil
}

const (
	// rounding is what differences from one machine to another may be: below it
	// both of two differences are the rounding of float64, above it they agree
	// within likeness.
	rounding = 1e-12
	likeness = 10
)

// allows tells whether each of the differences in a cell is one that the tests
// would pass, and that could have been found in place of that found now.
func (l *law) allows(cell string) bool {
	texts := strings.Split(cell, "; ")
	if len(texts) != len(l.worst) {
		return false
	}
	for i, text := range texts {
		number, unit, _ := strings.Cut(text, " ")
		_, wantUnit, _ := strings.Cut(l.worst[i].Difference(), " ")
		diff, err := strconv.ParseFloat(number, 64)
		if err != nil || unit != wantUnit || !(diff <= l.worst[i].Limit) || !alike(diff, l.worst[i].Worst) {
			return false
		}
	}
	return true
}

func alike(a, b float64) bool {
	low, high := min(a, b), max(a, b)
	return low >= 0 && (high <= rounding || high <= likeness*low)
}

func outdated(got, want string) error {
	return fmt.Errorf("the table has\n\t%swant\n\t%srun: go run ./internal/lawtable", got, want)
}

// writeLines writes a plain line for each law, and why the tables that are not
// live were taken as recorded.
func writeLines(w io.Writer, laws []law) error {
	columns := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	total := 0
	for _, l := range laws {
		fmt.Fprintf(columns, "%s\t%d points\t%s\n", l.Name, l.points, l.difference())
		total += l.points
	}
	fmt.Fprintf(columns, "sum\t%d points\t\n", total)
	first := true
	for _, l := range laws {
		if l.recorded == "" {
			continue
		}
		if first {
			fmt.Fprintln(columns, "\nrecorded, not made live:")
			first = false
		}
		fmt.Fprintf(columns, "%s\t%s\n", l.Name, l.recorded)
	}
	return columns.Flush()
}
