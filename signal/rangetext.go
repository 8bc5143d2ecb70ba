package signal

import (
	"regexp"
	"strconv"
	"strings"
)

// withinWord stands between a window and the signal it lies on.
const withinWord = " of "

var rangeForm = regexp.MustCompile(`^\s*(` + decimal + `)\s*(V|mA)?\s*` +
	`(?:-|–|—|−|…|\.\.\.?|\bto\b)` +
	`\s*(` + decimal + `)\s*(V|mA)` + directUnit + `\s*$`)

// ParseRange reads text such as "0-10 V", "4–20 mA", "2…10 V", "10 to 0 V" or, for
// a window on a wider signal, "6-9 V of 0-10 V". The ends follow the rules of
// [NewRange], the window those of [Range.Within].
func ParseRange(text string) (Range, error) {
	if strings.Contains(text, ",") {
		return Range{}, rangeFault(text, "a decimal point: the comma is ambiguous, write for example 0.5-4.5 V")
	}
	window, wide, isWindow := strings.Cut(text, withinWord)
	r, err := parseEnds(text, window)
	if err != nil || !isWindow {
		return r, err
	}
	w, err := parseEnds(text, wide)
	if err != nil {
		return Range{}, err
	}
	return r.Within(w)
}

// parseEnds reads part of text, a range without a window.
func parseEnds(text, part string) (Range, error) {
	match := rangeForm.FindStringSubmatch(part)
	if match == nil || match[2] != "" && match[2] != match[4] {
		return Range{}, rangeFault(text, `two ends and V or mA, such as "0-10 V", "4-20 mA" or "6-9 V of 0-10 V"`)
	}
	var ends [2]Signal
	for i, number := range []string{match[1], match[3]} {
		x, err := strconv.ParseFloat(number, 64)
		if err != nil {
			return Range{}, rangeFault(text, "numbers within the range of float64")
		}
		ends[i] = scaled(x, match[4])
	}
	return NewRange(ends[0], ends[1])
}

func rangeFault(text, want string) error { return fault("range", strconv.Quote(text), want) }

// MustParseRange is like [ParseRange] and panics if the text is bad: it is for
// literals in programs and tests.
func MustParseRange(text string) Range {
	r, err := ParseRange(text)
	if err != nil {
		panic(err)
	}
	return r
}

// String returns text such as "0-10 V", its numbers rounded to six digits; it is
// empty for the zero Range.
func (r Range) String() string { return string(r.append(nil, 6)) }

// AppendText appends the text of [Range.MarshalText].
func (r Range) AppendText(b []byte) ([]byte, error) { return r.append(b, -1), nil }

// MarshalText returns text such as "0-10 V", "10-0 V" or "6-9 V of 0-10 V", without
// loss. The zero Range has the empty text.
func (r Range) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText is [ParseRange], and the empty text is the zero Range.
func (r *Range) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*r = Range{}
		return nil
	}
	parsed, err := ParseRange(string(text))
	if err == nil {
		*r = parsed
	}
	return err
}

func (r Range) append(b []byte, digits int) []byte {
	if r.kind == KindNone {
		return b
	}
	b = appendEnds(b, r.kind, r.at0, r.at1, digits)
	if r.whole == usualWhole(r.kind, r.at0, r.at1) {
		return b
	}
	return appendEnds(append(b, withinWord...), r.kind, r.whole.low, r.whole.high, digits)
}

func appendEnds(b []byte, kind Kind, from, to float64, digits int) []byte {
	b = strconv.AppendFloat(b, from, 'g', digits, 64)
	b = append(b, '-')
	b = strconv.AppendFloat(b, to, 'g', digits, 64)
	return append(append(b, ' '), kind.symbol()...)
}
