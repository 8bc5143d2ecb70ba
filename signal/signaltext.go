package signal

import (
	"regexp"
	"strconv"
	"strings"
)

// noSignal is the text of the zero Signal.
const noSignal = "none"

const (
	decimal    = `[0-9]+\.?[0-9]*(?:[eE][+-]?[0-9]+)?|\.[0-9]+(?:[eE][+-]?[0-9]+)?`
	directUnit = `(?:\s?(?:DC|dc))?`
)

var signalForm = regexp.MustCompile(`^\s*([+\-−]?(?:` + decimal + `))\s*(V|mV|mA|A)` + directUnit + `\s*$`)

// Parse reads text such as "6.2 V", "12 mA" or "none". It also takes mV and A,
// and "DC" after the unit. The decimal sign is a point.
func Parse(text string) (Signal, error) {
	if strings.TrimSpace(text) == noSignal {
		return Signal{}, nil
	}
	if strings.Contains(text, ",") {
		return Signal{}, signalFault(text, "a decimal point: the comma is ambiguous, write for example 6.2 V")
	}
	match := signalForm.FindStringSubmatch(text)
	if match == nil {
		return Signal{}, signalFault(text, `a number with V or mA, such as "6.2 V", or "none"`)
	}
	x, err := strconv.ParseFloat(strings.Replace(match[1], "−", "-", 1), 64)
	if err != nil {
		return Signal{}, signalFault(text, "a number within the range of float64")
	}
	s := scaled(x, match[2])
	if !s.finite() {
		return Signal{}, signalFault(text, "a number within the range of float64")
	}
	return s, nil
}

func scaled(x float64, unit string) Signal {
	switch unit {
	case "mV":
		return Volts(x / 1000)
	case "A":
		return Milliamps(x * 1000)
	case "mA":
		return Milliamps(x)
	default:
		return Volts(x)
	}
}

func signalFault(text, want string) error { return fault("text", strconv.Quote(text), want) }

// MustParse is like [Parse] and panics if the text is bad: it is for literals in
// programs and tests.
func MustParse(text string) Signal {
	s, err := Parse(text)
	if err != nil {
		panic(err)
	}
	return s
}

// String returns text such as "6.2 V", rounded to six digits, or "none".
func (s Signal) String() string {
	if s.kind == KindNone {
		return noSignal
	}
	return strconv.FormatFloat(s.value, 'g', 6, 64) + " " + s.kind.symbol()
}

// AppendText appends the text of [Signal.MarshalText].
func (s Signal) AppendText(b []byte) ([]byte, error) {
	if s.kind == KindNone {
		return append(b, noSignal...), nil
	}
	if !s.finite() {
		return b, fault("signal", s.String(), "a finite number: NaN and infinities have no text form")
	}
	b = strconv.AppendFloat(b, s.value, 'g', -1, 64)
	return append(append(b, ' '), s.kind.symbol()...), nil
}

// MarshalText returns text such as "6.2 V" or "none", without loss. NaN and
// infinities are errors.
func (s Signal) MarshalText() ([]byte, error) { return s.AppendText(nil) }

// UnmarshalText is [Parse].
func (s *Signal) UnmarshalText(text []byte) error {
	parsed, err := Parse(string(text))
	if err == nil {
		*s = parsed
	}
	return err
}
