package wiring

import "github.com/indexrun/indexrun/units"

// iecSize is a row of IEC 60228, tables 1 to 3, from memory: greatest resistance at
// 20 °C of plain copper, in Ω/km.
type iecSize struct {
	mm2      float64
	perClass [2]float64
}

var iecSizes = [...]iecSize{
	{0.5, [...]float64{Class2: 36.0, Class5: 39.0}},
	{0.75, [...]float64{Class2: 24.5, Class5: 26.0}},
	{1, [...]float64{Class2: 18.1, Class5: 19.5}},
	{1.5, [...]float64{Class2: 12.1, Class5: 13.3}},
	{2.5, [...]float64{Class2: 7.41, Class5: 7.98}},
	{4, [...]float64{Class2: 4.61, Class5: 4.95}},
	{6, [...]float64{Class2: 3.08, Class5: 3.30}},
	{10, [...]float64{Class2: 1.83, Class5: 1.91}},
}

// IEC60228 is a conductor of plain copper with the greatest resistance that IEC 60228
// allows its nominal section (table from memory):
//
//	mm²             0.5   0.75  1     1.5   2.5   4     6     10
//	class 1 and 2   36.0  24.5  18.1  12.1  7.41  4.61  3.08  1.83  Ω/km at 20 °C
//	class 5         39.0  26.0  19.5  13.3  7.98  4.95  3.30  1.91  Ω/km at 20 °C
//
// A real conductor may have less; the 1/58 Ω·mm²/m of pure copper is too hopeful, since
// the section is nominal. Another section is a fault, see [Conductor.Err].
func IEC60228(section units.Area, class Class) Conductor {
	c := Conductor{kind: iecConductor, class: class, size: section.In(units.SquareMillimetre), cores: 1}
	for _, row := range iecSizes {
		if same(c.size, row.mm2) && class <= Class5 {
			c.size, c.ohmPerKilometre = row.mm2, row.perClass[class]
		}
	}
	return c
}

// IECSizes lists the conductors of a class from thin to thick, for [ChooseConductor].
func IECSizes(class Class) []Conductor {
	var list []Conductor
	for _, row := range iecSizes {
		list = append(list, IEC60228(units.Area(row.mm2)*units.SquareMillimetre, class))
	}
	return list
}

// same reports whether two sizes differ by no more than conversions of units do.
func same(a, b float64) bool { return a > b*(1-1e-9) && a < b*(1+1e-9) }
