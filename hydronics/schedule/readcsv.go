package schedule

import (
	"bufio"
	"encoding"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/indexrun/indexrun/units"
)

// A column of the schedule file and how its cells are read.
type column struct {
	name     string
	required bool
	read     func(d *draft, cell string) error
}

// draft is a row while its cells are being read.
type draft struct {
	Row
	difference, secondDifference units.TemperatureDifference
}

func cellInto(target func(*draft) encoding.TextUnmarshaler) func(*draft, string) error {
	return func(d *draft, cell string) error { return target(d).UnmarshalText([]byte(cell)) }
}

func cellText(target func(*draft) *string) func(*draft, string) error {
	return func(d *draft, cell string) error { *target(d) = strings.Clone(cell); return nil }
}

// readStaticPressure reads a gauge pressure, or an absolute one that says so.
func (d *draft) readStaticPressure(cell string) error {
	gauge, err := units.ParsePressure(cell)
	if err == nil {
		d.StaticPressure = units.Gauge(gauge)
		return nil
	}
	if absolute, notAbsolute := units.ParseAbsolutePressure(cell); notAbsolute == nil {
		d.StaticPressure = absolute
		return nil
	}
	return err
}

// columns of a schedule file. Their order is free, and so are columns of other
// names that start with "#" (remarks).
var columns = []column{
	{"tag", true, cellText(func(d *draft) *string { return &d.Tag })},
	{"serves", false, cellText(func(d *draft) *string { return &d.Serves })},
	{"circuit", false, cellText(func(d *draft) *string { return &d.Circuit })},
	{"fluid", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Fluid })},
	{"duty", true, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Duty.Heat })},
	{"supply", true, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Duty.Supply })},
	{"return", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Duty.Return })},
	{"difference", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.difference })},
	{"second duty", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.SecondDuty.Heat })},
	{"second supply", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.SecondDuty.Supply })},
	{"second return", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.SecondDuty.Return })},
	{"second difference", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.secondDifference })},
	{"available pressure", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Available })},
	{"branch drop", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.BranchDrop })},
	{"valve pressure", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.ValvePressure })},
	{"static pressure", false, (*draft).readStaticPressure},
	{"shut-off head", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.ShutOffHead })},
	{"valve kind", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Kind })},
	{"response", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Response })},
	{"output range", true, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Output })},
	{"output action", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.OutputAction })},
	{"output low", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.OutputLow })},
	{"output high", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.OutputHigh })},
	{"at zero signal", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.AtZeroSignal })},
	{"at open wire", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.AtOpenWire })},
	{"at power loss", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.AtPowerLoss })},
	{"flow tolerance", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.Tolerance })},
	{"noise limit", false, cellInto(func(d *draft) encoding.TextUnmarshaler { return &d.NoiseLimit })},
}

// ReadCSV reads a schedule: a header line with column names, then one line for
// each terminal unit with the units of measure in the cells, such as "3.2 kW".
// Columns may stand in any order; an empty cell means not given; a column whose
// name starts with "#" is a remark. A byte order mark and CRLF line ends are
// accepted. With a difference in place of the return temperature, a supply
// below 20 °C cools and one above 30 °C heats; between the two the return
// temperature must be given.
//
// All problems of the file are reported at once as [FileErrors], and no rows
// are returned then; an error of r itself is returned as it is.
func ReadCSV(r io.Reader) ([]Row, error) {
	text := bufio.NewReader(r)
	if mark, _ := text.Peek(2); string(mark) == "\xff\xfe" || string(mark) == "\xfe\xff" {
		return nil, FileErrors{{Line: 1, Column: 1, Field: "file", Value: "text in UTF-16", Want: "text in UTF-8: save it so"}}
	}
	f := csvFile{csv: csv.NewReader(skipMark(text)), place: map[string]int{}, tags: map[string]int{}, bad: map[string]bool{}}
	f.csv.FieldsPerRecord = -1
	f.csv.ReuseRecord = true
	f.csv.TrimLeadingSpace = true
	if err := f.readHeader(); err != nil {
		return nil, err
	}
	if f.header != nil {
		if err := f.readRows(); err != nil {
			return nil, err
		}
	}
	if err := f.faults.inOrder(); err != nil {
		return nil, err
	}
	return f.rows, nil
}

// skipMark drops a UTF-8 byte order mark.
func skipMark(text *bufio.Reader) io.Reader {
	if mark, err := text.Peek(3); err == nil && string(mark) == "\ufeff" {
		text.Discard(3)
	}
	return text
}

// csvFile is a schedule file while it is being read.
type csvFile struct {
	csv    *csv.Reader
	header []*column      // nil for remarks
	place  map[string]int // the cell of each column
	tags   map[string]int
	// incomplete: a column that must be there is missing, so that rows can only be
	// read cell by cell.
	incomplete bool
	rows       []Row
	faults     FileErrors
	bad        map[string]bool // the columns of the row at hand that are no use
}

// next reads a record; a syntax error is recorded as a fault.
func (f *csvFile) next() ([]string, error) {
	record, err := f.csv.Read()
	var syntax *csv.ParseError
	if errors.As(err, &syntax) {
		f.faults.add(position{syntax.Line, syntax.Column}, "quotation marks", syntax.Err.Error(), "fields in quotation marks closed, and doubled inside")
		return nil, nil
	}
	return record, err
}

func (f *csvFile) at(field int) position {
	line, column := f.csv.FieldPos(field)
	return position{line, column}
}

func (f *csvFile) readHeader() error {
	names, err := f.next()
	if err == io.EOF {
		f.faults.add(position{1, 1}, "header", "an empty file", "a line of column names, then one line a unit")
		return nil
	}
	if err != nil || names == nil {
		return err
	}
	if len(names) == 1 && strings.ContainsAny(names[0], ";\t") {
		f.faults.add(f.at(0), "header", strconv.Quote(names[0]), "columns separated by commas")
		return nil
	}
	seen := map[string]bool{}
	for i, name := range names {
		c := f.headerColumn(i, name, seen)
		f.header = append(f.header, c)
		if c != nil {
			f.place[c.name] = i
		}
	}
	for _, c := range columns {
		if c.required && !seen[c.name] {
			f.missing(c.name, "the columns "+requiredNames())
		}
	}
	for _, either := range [...][2]string{{"return", "difference"}, {"available pressure", "valve pressure"}} {
		if !seen[either[0]] && !seen[either[1]] {
			f.missing(either[0], "this column or "+strconv.Quote(either[1]))
		}
	}
	return nil
}

// missing records that a column is not there without which no row is whole.
func (f *csvFile) missing(name, want string) {
	f.incomplete = true
	f.faults.add(position{1, 1}, "header", "no column "+strconv.Quote(name), want)
}

func (f *csvFile) headerColumn(i int, name string, seen map[string]bool) *column {
	plain := plainName(name)
	if strings.HasPrefix(plain, "#") {
		return nil
	}
	for j := range columns {
		if plainName(columns[j].name) != plain {
			continue
		}
		if seen[columns[j].name] {
			f.faults.add(f.at(i), "header", strconv.Quote(name), "each column once")
		}
		seen[columns[j].name] = true
		return &columns[j]
	}
	f.faults.add(f.at(i), "header", strconv.Quote(name), `one of `+allNames()+`, or a remark that starts with "#"`)
	return nil
}

// plainName folds case and what separates words.
func plainName(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), " ")
}

func requiredNames() string {
	return joinNames(func(c *column) bool { return c.required })
}

func allNames() string {
	return joinNames(func(*column) bool { return true })
}

func joinNames(keep func(*column) bool) string {
	var names []string
	for i := range columns {
		if keep(&columns[i]) {
			names = append(names, columns[i].name)
		}
	}
	return strings.Join(names, ", ")
}

func (f *csvFile) readRows() error {
	for {
		cells, err := f.next()
		switch {
		case err == io.EOF:
			if len(f.rows) == 0 && len(f.faults) == 0 {
				f.faults.add(position{2, 1}, "schedule", "no line after the header", "one line for each terminal unit")
			}
			return nil
		case err != nil:
			return err
		case cells != nil && !allBlank(cells):
			f.readRow(cells)
		}
	}
}

func allBlank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

func (f *csvFile) readRow(cells []string) {
	var d draft
	d.Line = f.at(0).line
	if len(cells) != len(f.header) {
		f.faults.add(f.at(0), "line", strconv.Itoa(len(cells))+" cells", strconv.Itoa(len(f.header))+" cells, as many as the header has"+commaHint(cells))
		return
	}
	clear(f.bad)
	for i, cell := range cells {
		c := f.header[i]
		cell = strings.TrimSpace(cell)
		switch {
		case c == nil:
			continue
		case cell == "" && c.required:
			f.bad[c.name] = true
			f.faults.add(f.at(i), c.name, "nothing", "a value: it is required")
			continue
		case cell == "":
			continue
		}
		f.readCell(&d, i, c, cell)
	}
	f.finish(&d, cells)
}

func (f *csvFile) readCell(d *draft, i int, c *column, cell string) {
	before := len(f.faults)
	if !utf8.ValidString(cell) {
		f.faults.add(f.at(i), c.name, strconv.Quote(cell), "text in UTF-8")
	} else if err := c.read(d, cell); err != nil {
		f.faults.addErr(f.at(i), c.name, strconv.Quote(cell), err)
	}
	if len(f.faults) > before {
		f.bad[c.name] = true
	}
}

// commaHint tells the commonest reason for too many cells.
func commaHint(cells []string) string {
	for i := 1; i < len(cells); i++ {
		before, after := cells[i-1], cells[i]
		if before != "" && after != "" && isDigit(before[len(before)-1]) && isDigit(after[0]) {
			return "; a decimal comma, as in " + strconv.Quote(before+","+after) + ", splits a cell in two: write a decimal point"
		}
	}
	return ""
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// finish applies the differences and the rules that span cells.
func (f *csvFile) finish(d *draft, cells []string) {
	f.difference(&d.Duty, d.difference, "difference", cells)
	f.difference(&d.SecondDuty, d.secondDifference, "second difference", cells)
	if first, twice := f.tags[d.Tag]; twice && d.Tag != "" {
		f.faults.add(f.at(f.place["tag"]), "tag", strconv.Quote(d.Tag), "a tag of its own: line "+strconv.Itoa(first)+" has this one")
	} else {
		f.tags[d.Tag] = d.Line
	}
	if f.incomplete {
		return
	}
	if err := d.Validate(); err != nil {
		f.addRowErr(err, cells)
	}
	if len(f.faults) > 0 {
		return // no rows are returned any more
	}
	if len(f.rows) == cap(f.rows) {
		f.rows = slices.Grow(f.rows, len(f.rows)+1) // doubling: rows are large
	}
	f.rows = append(f.rows, d.Row)
}

// restsOn names the cells without which a rule about another one means nothing.
var restsOn = map[string][]string{
	"return":             {"supply", "difference"},
	"second return":      {"second supply", "second difference"},
	"available pressure": {"valve pressure"},
	"output low":         {"output range"},
	"output high":        {"output range", "output low"},
}

// addRowErr places the faults of a whole row at the cells that they name. What only
// follows from a cell that was refused already is left out.
func (f *csvFile) addRowErr(err error, cells []string) {
	for _, one := range flatten(err) {
		var fault *units.FieldError
		if !errors.As(one, &fault) {
			f.faults.addErr(f.at(0), "row", "the row", one)
			continue
		}
		isBad := func(name string) bool { return f.bad[name] }
		if isBad(fault.Field) || slices.ContainsFunc(restsOn[fault.Field], isBad) {
			continue
		}
		at, got := f.place[fault.Field], fault.Value
		if strings.TrimSpace(cells[at]) == "" {
			got = "nothing"
		}
		f.faults.add(f.at(at), fault.Field, got, fault.Want)
	}
}

// difference turns a temperature difference into a return temperature.
func (f *csvFile) difference(duty *Duty, difference units.TemperatureDifference, name string, cells []string) {
	at, known := f.place[name]
	if !known || strings.TrimSpace(cells[at]) == "" {
		return
	}
	switch {
	case f.bad[name]:
	case !duty.Return.IsZero():
		f.bad[name] = true
		f.faults.add(f.at(at), name, difference.String(), "either the return temperature or the difference, not both")
	case !(difference > 0):
		f.bad[name] = true
		f.faults.add(f.at(at), name, difference.String(), "a difference above zero")
	case duty.Supply.IsZero():
	case ambiguous(duty.Supply):
		f.bad[name] = true
		f.faults.add(f.at(at), name, difference.String(), "a return temperature in its place: a supply of "+duty.Supply.String()+" may heat or cool")
	default:
		duty.Return = returnFor(duty.Supply, difference)
	}
}
