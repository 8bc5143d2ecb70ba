package fluid

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Parse reads "water", or a glycol with its percentage and whether that is by
// mass or by volume, in any order and case. These all mean the same:
//
//	ethylene glycol 30 % mass
//	MEG 30 mass-%
//	30 wt-% monoethylene glycol
//	EG 30% (w/w)
//
// A percentage that does not say by what is refused: vessels are filled by
// volume and tables are printed by mass, and taking one for the other moves the
// freezing point by some kelvin.
func Parse(text string) (Fluid, error) {
	r, problem := read(text)
	if problem == "" {
		problem = r.judge()
	}
	if problem != "" {
		faults := check.List{Package: packageName}
		faults.Fault("text", strconv.Quote(text), problem)
		return Fluid{}, faults.Err()
	}
	return r.fluid()
}

// MustParse is like [Parse] and panics if the text is bad: it is for literals
// in programs and tests.
func MustParse(text string) Fluid {
	f, err := Parse(text)
	if err != nil {
		panic(err)
	}
	return f
}

// A reading is what was found in a text, still to be judged.
type reading struct {
	names    []string
	numbers  []string
	percents int
	bases    []basis
	fraction float64 // set by judge
}

// read sorts the parts of a text; problem is empty unless it met a part of no
// kind that it knows.
func read(text string) (r reading, problem string) {
	rest := strings.ReplaceAll(strings.ToLower(text), "−", "-")
	for rest != "" {
		part := firstPart(rest)
		rest = rest[len(part):]
		first, _ := utf8.DecodeRuneInString(part)
		switch {
		case strings.ContainsAny(part, digits):
			r.numbers = append(r.numbers, part)
		case unicode.IsLetter(first):
			r.addWord(part)
		case part == "%":
			r.percents++
		case part == ",":
			return r, "a decimal point and no other comma: write \"ethylene glycol 32.5 % mass\""
		case !unicode.IsSpace(first) && !strings.Contains("-‐‑–/().", part):
			return r, "no " + strconv.Quote(part) + " in it: " + expected
		}
	}
	return r, ""
}

// firstPart cuts a number, a word or a single other character off the front.
func firstPart(text string) string {
	if n := numberLength(text); n > 0 {
		return text[:n]
	}
	if n := leading(text, unicode.IsLetter); n > 0 {
		return text[:n]
	}
	_, n := utf8.DecodeRuneInString(text)
	return text[:n]
}

// numberLength measures a sign, digits and points; without a digit it is 0.
func numberLength(text string) int {
	unsigned := strings.TrimPrefix(text, "-")
	n := leading(unsigned, func(c rune) bool { return strings.ContainsRune(digits+".", c) })
	if !strings.ContainsAny(unsigned[:n], digits) {
		return 0
	}
	return len(text) - len(unsigned) + n
}

// leading counts the bytes of text before the first rune that is not of a kind.
func leading(text string, kind func(rune) bool) int {
	return len(text) - len(strings.TrimLeftFunc(text, kind))
}

const digits = "0123456789"

func (r *reading) addWord(word string) {
	switch word {
	case "by":
	case "percent", "pct":
		r.percents++
	case "mass", "weight", "wt", "w", "m":
		r.bases = append(r.bases, byMass)
	case "volume", "vol", "v":
		r.bases = append(r.bases, byVolume)
	default:
		r.names = append(r.names, word)
	}
}

const expected = `"water", or a glycol with its percentage by mass or by volume, such as "ethylene glycol 30 % mass"`

// judge says what is wrong with the reading, or nothing.
func (r *reading) judge() (problem string) {
	name := r.name()
	switch {
	case name == "glycol":
		return `"ethylene glycol" or "propylene glycol", which differ in viscosity and freezing point`
	case name == water:
		return r.judgeWater()
	case glycolNamed(name) == noGlycol:
		return expected
	case len(r.numbers) != 1 || r.percents != 1:
		return `one percentage with the name, such as "` + name + ` 30 % mass"`
	case len(r.bases) == 0:
		return `"mass" or "volume" with the percentage: 30 % by volume is 32.3 % by mass of ethylene glycol ` +
			`and 30.8 % of propylene glycol, which moves the freezing point`
	case slices.Contains(r.bases, byMass) && slices.Contains(r.bases, byVolume):
		return "a percentage by mass or by volume, not both"
	}
	return r.judgeNumber()
}

func (r *reading) judgeWater() (problem string) {
	if len(r.numbers)+r.percents+len(r.bases) > 0 {
		return `nothing beside "water"; a mixture is named by its glycol, such as "ethylene glycol 30 % mass"`
	}
	return ""
}

// judgeNumber divides the percentage by 100 in its text, which loses nothing.
func (r *reading) judgeNumber() (problem string) {
	var err error
	if r.fraction, err = strconv.ParseFloat(r.numbers[0]+"e-2", 64); err != nil {
		return "a decimal number, not " + strconv.Quote(r.numbers[0])
	}
	return ""
}

// fluid is for a reading without problem; the fraction may be out of range.
func (r *reading) fluid() (Fluid, error) {
	g := glycolNamed(r.name())
	if g == noGlycol {
		return Water(), nil
	}
	return newMixture(g, r.bases[0], units.Ratio(r.fraction))
}

func (r *reading) name() string { return strings.Join(r.names, " ") }

func glycolNamed(name string) glycol {
	switch name {
	case "ethylene glycol", "monoethylene glycol", "mono ethylene glycol", "meg", "eg":
		return ethyleneGlycol
	case "propylene glycol", "monopropylene glycol", "mono propylene glycol", "mpg", "pg":
		return propyleneGlycol
	}
	return noGlycol
}
