package units

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// A table holds the units of one quantity, the SI unit first, and the units
// that String chooses from.
type table struct {
	name     string
	absolute bool // has a zero that nothing is below
	units    []unitDef
	usual    string // the unit of zero and of examples in messages; the first of show if empty
	show     []display
}

// display says to write a value in a unit when it is at least that large.
type display struct {
	symbol string
	atSI   float64
}

// find returns the unit with that spelling, or nil.
func (t *table) find(symbol string) *unitDef {
	for i := range t.units {
		if t.units[i].symbol == symbol {
			return &t.units[i]
		}
	}
	want := plainSpelling.Replace(symbol)
	for i := range t.units {
		d := &t.units[i]
		if plainSpelling.Replace(d.symbol) == want || slices.Contains(d.aliases, want) {
			return d
		}
	}
	return nil
}

// plainSpelling folds the typographic variants of a unit; aliases are written
// in the folded form.
var plainSpelling = strings.NewReplacer("³", "3", "²", "2", "^", "", "·", ".", "*", ".", "⋅", ".",
	"µ", "u", "μ", "u", "Ω", "Ohm", "\u2126", "Ohm", "°", "deg", "º", "deg", " ", "")

// format writes si in the unit of that symbol, or in SI if there is none.
func (t *table) format(si float64, unit float64, decimals int) string {
	for i := range t.units {
		if d := &t.units[i]; d.factor == unit {
			return d.format(si, decimals)
		}
	}
	return t.units[0].format(si, decimals)
}

// friendly writes si in the unit that suits its size, to four significant
// digits.
func (t *table) friendly(si float64) string {
	d := t.displayUnit(si)
	x := d.fromSI(si)
	if d.offset != 0 && math.Abs(x) < 1 {
		x = math.Round(x*1e9) / 1e9 // the offset left no digits beyond: 0 °C, not 6e-14 °C
	}
	return join(positiveZero(fourDigits(x)), d.symbol)
}

func (t *table) displayUnit(si float64) *unitDef {
	if si == 0 || len(t.show) == 0 {
		return t.usualUnit()
	}
	for _, s := range t.show {
		if math.Abs(si) >= s.atSI*(1-1e-12) {
			return t.find(s.symbol)
		}
	}
	return t.find(t.show[len(t.show)-1].symbol)
}

func (t *table) usualUnit() *unitDef {
	switch {
	case t.usual != "":
		return t.find(t.usual)
	case len(t.show) == 0:
		return &t.units[0]
	default:
		return t.find(t.show[0].symbol)
	}
}

func fourDigits(x float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 3, 64), 64)
	if a := math.Abs(rounded); a != 0 && (a < 1e-6 || a >= 1e9) {
		return strconv.FormatFloat(rounded, 'g', -1, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// appendSI writes si losslessly in the SI unit.
func (t *table) appendSI(b []byte, si float64) ([]byte, error) {
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return b, t.fault(strconv.FormatFloat(si, 'g', -1, 64), "a finite number: NaN and infinities have no text form")
	}
	b = strconv.AppendFloat(b, si, 'g', -1, 64)
	if s := t.units[0].symbol; s != "" {
		b = append(b, ' ')
		b = append(b, s...)
	}
	return b, nil
}

// parse reads a number with a unit and returns its SI value.
func (t *table) parse(text string) (float64, error) {
	number, symbol := splitNumber(strings.TrimSpace(text))
	if strings.HasPrefix(symbol, ",") {
		return 0, t.refuse(text, "a decimal point and no thousands separators: the comma is ambiguous, "+t.withPoint(text))
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsInf(x, 0) {
		return 0, t.refuse(text, "a finite number and a unit, such as "+t.example())
	}
	d := t.find(symbol)
	if d == nil {
		return 0, t.refuse(text, t.unitRule(symbol))
	}
	si := d.si(x)
	switch {
	case math.IsInf(si, 0):
		return 0, t.refuse(text, "a number within the range of float64")
	case t.absolute && si < 0:
		return 0, t.refuse(text, "nothing below absolute zero or vacuum")
	}
	return si, nil
}

// withPoint says to write the text with its comma made a decimal point if that can be
// read, and gives an example otherwise.
func (t *table) withPoint(text string) string {
	if pointed := strings.Replace(text, ",", ".", 1); strings.Count(text, ",") == 1 {
		if _, err := t.parse(pointed); err == nil {
			return "write " + pointed
		}
	}
	return "write for example " + t.example()
}

func (t *table) unitRule(symbol string) string {
	if symbol == "" {
		return "a unit after the number: one of " + t.symbols()
	}
	if symbol[0] >= '0' && symbol[0] <= '9' {
		return "no space inside the number, such as " + t.example()
	}
	return fmt.Sprintf("one of the units %s, not %q", t.symbols(), symbol)
}

func (t *table) symbols() string {
	names := make([]string, len(t.units))
	for i, d := range t.units {
		names[i] = d.symbol
		if d.symbol == "" {
			names[i] = "(none)"
		}
	}
	return strings.Join(names, ", ")
}

func (t *table) example() string { return join("1.5", t.usualUnit().symbol) }

func (t *table) refuse(text, want string) error { return t.fault(strconv.Quote(text), want) }

func (t *table) fault(value, want string) error {
	return &FieldError{Package: "units", Field: t.name, Value: value, Want: want}
}

// parseJSON reads a JSON string; null leaves the value alone.
func (t *table) parseJSON(data []byte, keep float64) (float64, error) {
	if string(data) == "null" {
		return keep, nil
	}
	var text string
	if err := json.Unmarshal(data, &text); err != nil {
		return keep, t.fault(string(data), `the unit written with the number, as a JSON string such as "`+t.example()+`"`)
	}
	return t.parse(text)
}

// splitNumber cuts text after its leading decimal number.
func splitNumber(text string) (number, rest string) {
	text = strings.Replace(text, "−", "-", 1)
	end := numberLength(text)
	rest = strings.TrimLeftFunc(text[end:], unicode.IsSpace)
	return text[:end], rest
}

// numberLength measures a leading sign, digits, point, digits and exponent.
func numberLength(s string) int {
	i := skip(s, 0, "+-", 1)
	i = skip(s, i, "0123456789", len(s))
	i = skip(s, i, ".", 1)
	i = skip(s, i, "0123456789", len(s))
	exponent := skip(s, i, "eE", 1)
	if exponent == i {
		return i
	}
	digits := skip(s, exponent, "+-", 1)
	if end := skip(s, digits, "0123456789", len(s)); end > digits {
		return end
	}
	return i
}

// skip advances over at most limit bytes of s that are in set.
func skip(s string, from int, set string, limit int) int {
	i := from
	for i < len(s) && i-from < limit && strings.IndexByte(set, s[i]) >= 0 {
		i++
	}
	return i
}

// must is for the MustParse functions, whose argument is a literal.
func must[Q any](q Q, err error) Q {
	if err != nil {
		panic(err)
	}
	return q
}
