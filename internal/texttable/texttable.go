// Package texttable lays out plain tables for people: columns aligned, two
// spaces between them, nothing else.
package texttable

import (
	"io"
	"strings"
	"unicode/utf8"
)

// Table collects rows of cells. Make one with [New].
type Table struct {
	columns []column
	rows    [][]string
}

type column struct {
	name  string
	right bool
	width int
}

// New makes a table with these column names; one that starts with ">" is aligned
// to the right, as numbers are.
func New(names ...string) *Table {
	t := &Table{}
	for _, name := range names {
		plain, right := strings.CutPrefix(name, ">")
		t.columns = append(t.columns, column{plain, right, utf8.RuneCountInString(plain)})
	}
	return t
}

// Row adds a row; missing cells are empty, those beyond the last column are
// dropped.
func (t *Table) Row(cells ...string) {
	cells = cells[:min(len(cells), len(t.columns))]
	for i, cell := range cells {
		t.columns[i].width = max(t.columns[i].width, utf8.RuneCountInString(cell))
	}
	t.rows = append(t.rows, cells)
}

// WriteTo writes the column names and the rows.
func (t *Table) WriteTo(w io.Writer) (int64, error) {
	var b strings.Builder
	names := make([]string, len(t.columns))
	for i, c := range t.columns {
		names[i] = c.name
	}
	t.line(&b, names)
	for _, row := range t.rows {
		t.line(&b, row)
	}
	n, err := io.WriteString(w, b.String())
	return int64(n), err
}

func (t *Table) line(b *strings.Builder, cells []string) {
	var line strings.Builder
	for i, cell := range cells {
		pad := strings.Repeat(" ", t.columns[i].width-utf8.RuneCountInString(cell))
		if t.columns[i].right {
			line.WriteString(pad + cell + "  ")
		} else {
			line.WriteString(cell + pad + "  ")
		}
	}
	b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
}
