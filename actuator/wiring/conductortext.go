package wiring

import (
	"regexp"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/units"
)

var (
	coresForm    = regexp.MustCompile(`^([0-9]{1,3})\s*[x×]\s*(.+)$`)
	gaugeForm    = regexp.MustCompile(`^(?:AWG\s*([0-9]{1,3})|([0-9]{1,3})\s*AWG)$`)
	sectionForm  = regexp.MustCompile(`^(` + decimal + `)\s*mm(?:²|2|\^2)(?:\s+class[ -](1|2|5))?$`)
	perKmForm    = regexp.MustCompile(`^(` + decimal + `)\s*(?:Ω|\x{2126}|ohm|Ohm)/km$`)
	conductorAsk = `text such as "1.5 mm²", "1 mm² class 5", "AWG 18", "36.6 Ω/km" or "2 × 1 mm²", with a decimal point`
)

// ParseConductor reads text such as "1.5 mm²", "1 mm² class 5", "AWG 18", "36.6 Ω/km" or
// "2 × 1 mm²" for two cores in parallel. A section without a class is of class 2.
func ParseConductor(text string) (Conductor, error) {
	rest, cores := strings.TrimSpace(text), 1
	if m := coresForm.FindStringSubmatch(rest); m != nil {
		cores, _ = strconv.Atoi(m[1]) // three digits at most
		rest = m[2]
	}
	c, ok := parseCore(rest)
	if !ok {
		return Conductor{}, textFault("conductor", text, conductorAsk)
	}
	c = c.Cores(cores)
	if err := c.Err(); err != nil {
		return Conductor{}, err
	}
	return c, nil
}

func parseCore(text string) (Conductor, bool) {
	if m := gaugeForm.FindStringSubmatch(text); m != nil {
		n, err := strconv.Atoi(m[1] + m[2])
		return AWG(n), err == nil
	}
	if m := sectionForm.FindStringSubmatch(text); m != nil {
		mm2, err := strconv.ParseFloat(m[1], 64)
		class := Class2
		if m[2] == "5" {
			class = Class5
		}
		return IEC60228(units.Area(mm2)*units.SquareMillimetre, class), err == nil
	}
	if m := perKmForm.FindStringSubmatch(text); m != nil {
		ohms, err := strconv.ParseFloat(m[1], 64)
		return perKilometre(ohms), err == nil
	}
	return Conductor{}, false
}

// MustParseConductor is like [ParseConductor] and panics if the text is bad: it is for
// literals in programs and tests.
func MustParseConductor(text string) Conductor {
	c, err := ParseConductor(text)
	if err != nil {
		panic(err)
	}
	return c
}

// String returns text such as "1.5 mm²", or "none".
func (c Conductor) String() string {
	var text string
	size := strconv.FormatFloat(c.size, 'g', -1, 64)
	switch c.kind {
	case iecConductor:
		text = size + " mm²"
		if c.class != Class2 {
			text += " " + strings.Replace(c.class.String(), "-", " ", 1)
		}
	case awgConductor:
		text = "AWG " + strconv.FormatFloat(c.size, 'f', -1, 64)
	case measuredConductor:
		text = size + " Ω/km"
	default:
		return "none"
	}
	if c.cores != 1 {
		text = strconv.Itoa(int(c.cores)) + " × " + text
	}
	return text
}

// MarshalText returns the text of String, which is without loss. A conductor with a
// fault is an error.
func (c Conductor) MarshalText() ([]byte, error) {
	if err := c.Err(); err != nil {
		return nil, err
	}
	return []byte(c.String()), nil
}

// UnmarshalText is [ParseConductor].
func (c *Conductor) UnmarshalText(text []byte) error {
	parsed, err := ParseConductor(string(text))
	if err == nil {
		*c = parsed
	}
	return err
}
