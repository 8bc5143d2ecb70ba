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
// is in order if it is within the limit of the tests.
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

// allows tells whether each of the differences in a cell is one that the tests
// would pass.
func (l *law) allows(cell string) bool {
	texts := strings.Split(cell, "; ")
	if len(texts) != len(l.worst) {
		return false
	}
	for i, text := range texts {
		number, _, _ := strings.Cut(text, " ")
		diff, err := strconv.ParseFloat(number, 64)
		if err != nil || !(diff <= l.worst[i].Limit) {
			return false
		}
	}
	return true
}

func outdated(got, want string) error {
	return fmt.Errorf("the table has\n\t%swant\n\t%srun: go run ./internal/lawtable", got, want)
}

// writeLines writes a plain line for each law.
func writeLines(w io.Writer, laws []law) error {
	columns := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	total := 0
	for _, l := range laws {
		fmt.Fprintf(columns, "%s\t%d points\t%s\n", l.Name, l.points, l.difference())
		total += l.points
	}
	fmt.Fprintf(columns, "sum\t%d points\t\n", total)
	return columns.Flush()
}
