package pipe

import (
	"strings"

	"github.com/indexrun/indexrun/units"
)

// A Size is one line of a table of pipe dimensions. Tables of your own are plain
// slices of it.
type Size struct {
	Standard string       // the standard and series, such as "EN 10255 medium"
	Name     string       // the designation, such as "DN25"
	Nominal  units.Length // the nominal size, which the fittings' laws ask for
	Outside  units.Length // the outside diameter
	Wall     units.Length // the wall thickness
}

// Bore returns the inside diameter: the outside one less two walls.
func (s Size) Bore() units.Length { return s.Outside - 2*s.Wall }

// String returns the standard and the designation, such as
// "EN 10255 medium DN25".
func (s Size) String() string {
	if s.Standard == "" {
		return s.Name
	}
	return s.Standard + " " + s.Name
}

// Find returns the size of a table by its designation, "DN25" or "NPS 3/4", with or
// without the standard in front. Case and spaces do not matter.
func Find(table []Size, name string) (Size, error) {
	plain := func(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }
	names := make([]string, len(table))
	for i, size := range table {
		if wanted := plain(name); wanted == plain(size.Name) || wanted == plain(size.String()) {
			return size, nil
		}
		names[i] = size.Name
	}
	return Size{}, &units.FieldError{Package: "pipe", Field: "Name", Value: name, Want: "one of " + strings.Join(names, ", ")}
}

// dimension is a row of the tables below, in millimetres but for the name.
type dimension struct {
	name                   string
	nominal, outside, wall float64
}

func table(standard string, rows []dimension) []Size {
	list := make([]Size, len(rows))
	for i, row := range rows {
		list[i] = Size{
			Standard: standard,
			Name:     row.name,
			Nominal:  units.Length(row.nominal) * units.Millimetre,
			Outside:  units.Length(row.outside) * units.Millimetre,
			Wall:     units.Length(row.wall) * units.Millimetre,
		}
	}
	return list
}

// EN10255Medium returns steel tube for threading or welding, medium series (M),
// DN10 … DN150. Source: EN 10255:2004, Table 2 (from memory).
func EN10255Medium() []Size { return table("EN 10255 medium", en10255Medium) }

// EN1057 returns copper tube in the walls commonly stocked, 10 … 108 mm. Source:
// EN 1057:2006, Table 3 (from memory); the standard has other walls too.
func EN1057() []Size { return table("EN 1057", en1057) }

// ASMEB3610Schedule40 returns steel pipe of schedule 40, NPS ⅛ … 12. Source:
// ASME B36.10M, Table 1 (number from memory), in millimetres as a general-purpose
// library has it.
func ASMEB3610Schedule40() []Size { return table("ASME B36.10 schedule 40", schedule40) }

// ASMEB3610Schedule80 returns steel pipe of schedule 80, NPS ⅛ … 12. Source: as
// [ASMEB3610Schedule40].
func ASMEB3610Schedule80() []Size { return table("ASME B36.10 schedule 80", schedule80) }

var en10255Medium = []dimension{
	{"DN10", 10, 17.2, 2.3},
	{"DN15", 15, 21.3, 2.6},
	{"DN20", 20, 26.9, 2.6},
	{"DN25", 25, 33.7, 3.2},
	{"DN32", 32, 42.4, 3.2},
	{"DN40", 40, 48.3, 3.2},
	{"DN50", 50, 60.3, 3.6},
	{"DN65", 65, 76.1, 3.6},
	{"DN80", 80, 88.9, 4.0},
	{"DN100", 100, 114.3, 4.5},
	{"DN125", 125, 139.7, 5.0},
	{"DN150", 150, 165.1, 5.0},
}

var en1057 = []dimension{
	{"10 mm", 10, 10, 0.6},
	{"12 mm", 12, 12, 0.6},
	{"15 mm", 15, 15, 0.7},
	{"18 mm", 18, 18, 0.8},
	{"22 mm", 22, 22, 0.9},
	{"28 mm", 28, 28, 0.9},
	{"35 mm", 35, 35, 1.2},
	{"42 mm", 42, 42, 1.2},
	{"54 mm", 54, 54, 1.2},
	{"66.7 mm", 66.7, 66.7, 1.2},
	{"76.1 mm", 76.1, 76.1, 1.5},
	{"108 mm", 108, 108, 1.5},
}

var schedule40 = []dimension{
	{"NPS 1/8", 0.125 * 25.4, 10.3, 1.73},
	{"NPS 1/4", 0.25 * 25.4, 13.7, 2.24},
	{"NPS 3/8", 0.375 * 25.4, 17.1, 2.31},
	{"NPS 1/2", 0.5 * 25.4, 21.3, 2.77},
	{"NPS 3/4", 0.75 * 25.4, 26.7, 2.87},
	{"NPS 1", 1 * 25.4, 33.4, 3.38},
	{"NPS 1-1/4", 1.25 * 25.4, 42.2, 3.56},
	{"NPS 1-1/2", 1.5 * 25.4, 48.3, 3.68},
	{"NPS 2", 2 * 25.4, 60.3, 3.91},
	{"NPS 2-1/2", 2.5 * 25.4, 73, 5.16},
	{"NPS 3", 3 * 25.4, 88.9, 5.49},
	{"NPS 3-1/2", 3.5 * 25.4, 101.6, 5.74},
	{"NPS 4", 4 * 25.4, 114.3, 6.02},
	{"NPS 5", 5 * 25.4, 141.3, 6.55},
	{"NPS 6", 6 * 25.4, 168.3, 7.11},
	{"NPS 8", 8 * 25.4, 219.1, 8.18},
	{"NPS 10", 10 * 25.4, 273, 9.27},
	{"NPS 12", 12 * 25.4, 323.8, 10.31},
}

var schedule80 = []dimension{
	{"NPS 1/8", 0.125 * 25.4, 10.3, 2.41},
	{"NPS 1/4", 0.25 * 25.4, 13.7, 3.02},
	{"NPS 3/8", 0.375 * 25.4, 17.1, 3.2},
	{"NPS 1/2", 0.5 * 25.4, 21.3, 3.73},
	{"NPS 3/4", 0.75 * 25.4, 26.7, 3.91},
	{"NPS 1", 1 * 25.4, 33.4, 4.55},
	{"NPS 1-1/4", 1.25 * 25.4, 42.2, 4.85},
	{"NPS 1-1/2", 1.5 * 25.4, 48.3, 5.08},
	{"NPS 2", 2 * 25.4, 60.3, 5.54},
	{"NPS 2-1/2", 2.5 * 25.4, 73, 7.01},
	{"NPS 3", 3 * 25.4, 88.9, 7.62},
	{"NPS 3-1/2", 3.5 * 25.4, 101.6, 8.08},
	{"NPS 4", 4 * 25.4, 114.3, 8.56},
	{"NPS 5", 5 * 25.4, 141.3, 9.53},
	{"NPS 6", 6 * 25.4, 168.3, 10.97},
	{"NPS 8", 8 * 25.4, 219.1, 12.7},
	{"NPS 10", 10 * 25.4, 273, 15.09},
	{"NPS 12", 12 * 25.4, 323.8, 17.48},
}
