package reference

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"
)

// WordUnit is the unit of a column that holds words instead of numbers.
const WordUnit = "text"

// A Column is one column of a table. Its name ends in the unit (T_K); Unit
// spells that unit out, "1" for a pure number and [WordUnit] for words.
type Column struct{ Name, Unit string }

// A Table is one recorded file. It is read only.
type Table struct {
	Name      string   // of the file, without .csv
	Law       string   // what is compared, in one line
	Source    string   // standard, book or library that the values come from
	Version   string   // of the library, or how printed values were checked
	Generator string   // script that makes the file, such as "gen/water.py"
	Tolerance string   // why a model may differ by more than 1e-6; empty where none may
	Notes     []string // limits, formulations, seeds
	Columns   []Column

	records [][]string
	numbers [][]float64
}

// Parse reads a table. It checks that the header is whole, that there are
// rows, that each has every column and that each number is one.
func Parse(name string, r io.Reader) (Table, error) {
	t := Table{Name: name}
	in := bufio.NewReader(r)
	units, err := t.readHeader(in)
	if err == nil {
		err = t.readRows(csv.NewReader(in), units)
	}
	if err != nil {
		return Table{}, fmt.Errorf("reference: %s: %w", name, err)
	}
	return t, nil
}

// readHeader reads the comment lines; it returns the units of the columns.
func (t *Table) readHeader(in *bufio.Reader) (units []string, err error) {
	for {
		if first, err := in.Peek(1); err != nil || first[0] != '#' {
			return units, t.missingHeader(units)
		}
		line, err := in.ReadString('\n')
		if err != nil {
			return nil, err
		}
		key, value, ok := strings.Cut(strings.TrimSpace(line[1:]), ": ")
		if !ok {
			return nil, fmt.Errorf("header line %q is not of the form \"# key: value\"", line)
		}
		switch key {
		case "law":
			t.Law = value
		case "source":
			t.Source = value
		case "version":
			t.Version = value
		case "generator":
			t.Generator = value
		case "units":
			units = strings.Split(value, ", ")
		case "tolerance":
			t.Tolerance = value
		case "note":
			t.Notes = append(t.Notes, value)
		default:
			return nil, fmt.Errorf("unknown header line %q", key)
		}
	}
}

func (t *Table) missingHeader(units []string) error {
	var missing []error
	for _, line := range []struct{ key, value string }{
		{"law", t.Law}, {"source", t.Source}, {"version", t.Version}, {"generator", t.Generator},
		{"units", strings.Join(units, "")},
	} {
		if line.value == "" {
			missing = append(missing, fmt.Errorf("no header line %q", line.key))
		}
	}
	return errors.Join(missing...)
}

// readRows reads the column names and the rows below them.
func (t *Table) readRows(in *csv.Reader, units []string) error {
	records, err := in.ReadAll()
	if err != nil {
		return err
	}
	if len(records) < 2 {
		return errors.New("no rows")
	}
	names := records[0]
	if len(names) != len(units) {
		return fmt.Errorf("%d columns but %d units", len(names), len(units))
	}
	for i, name := range names {
		t.Columns = append(t.Columns, Column{name, units[i]})
	}
	t.records = records[1:]
	t.numbers = make([][]float64, len(t.records))
	for i, record := range t.records {
		if t.numbers[i], err = t.parseNumbers(record); err != nil {
			return fmt.Errorf("row %d: %w", i+1, err)
		}
	}
	return nil
}

func (t *Table) parseNumbers(record []string) ([]float64, error) {
	numbers := make([]float64, len(record))
	for i, column := range t.Columns {
		if column.Unit == WordUnit {
			continue
		}
		number, err := strconv.ParseFloat(record[i], 64)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", column.Name, err)
		}
		numbers[i] = number
	}
	return numbers, nil
}

// Len returns the number of rows.
func (t Table) Len() int { return len(t.records) }

// Rows iterates over the rows in the order of the file.
func (t Table) Rows() iter.Seq[Row] {
	return func(yield func(Row) bool) {
		for i := range t.records {
			if !yield(Row{&t, i}) {
				return
			}
		}
	}
}

// A Row is one row of a table.
type Row struct {
	table *Table
	index int
}

// Float returns the number in a column. It panics, with the columns there are,
// on one that the table does not have or that holds words: a slip of the test.
func (r Row) Float(column string) float64 {
	return r.table.numbers[r.index][r.table.find(column, false)]
}

// Bool reports whether the number in a column is not 0.
func (r Row) Bool(column string) bool { return r.Float(column) != 0 }

// Text returns the word in a column; it panics as [Row.Float] does.
func (r Row) Text(column string) string { return r.table.records[r.index][r.table.find(column, true)] }

// String returns the row as name=value pairs, for the message of a test.
func (r Row) String() string {
	pairs := make([]string, len(r.table.Columns))
	for i, column := range r.table.Columns {
		pairs[i] = column.Name + "=" + r.table.records[r.index][i]
	}
	return fmt.Sprintf("%s row %d: %s", r.table.Name, r.index+1, strings.Join(pairs, " "))
}

func (t *Table) find(name string, word bool) int {
	i := slices.IndexFunc(t.Columns, func(c Column) bool { return c.Name == name && (c.Unit == WordUnit) == word })
	if i < 0 {
		panic(fmt.Sprintf("reference: %s: no column %q of that kind among %v", t.Name, name, t.Columns))
	}
	return i
}
