package curve

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

var names = [...]string{
	None: "none", Linear: "linear", EqualPercentage: "equal-percentage",
	ZeroBased: "zero-based-equal-percentage", QuickOpening: "quick-opening",
	Parabolic: "parabolic", Tabulated: "table", Custom: "custom",
}

// String returns the name of the kind.
func (k Kind) String() string {
	if k > Custom {
		return "unknown " + strconv.Itoa(int(k))
	}
	return names[k]
}

// String writes the curve as Parse reads it; a custom curve is only named.
func (c Curve) String() string {
	switch {
	case c.table != nil:
		words := []string{names[Tabulated]}
		for _, p := range c.table.points {
			words = append(words, text(p))
		}
		return strings.Join(words, " ")
	case c.param != 0:
		return names[c.kind] + " " + text(c.param)
	}
	return names[c.kind]
}

// MarshalText is String for every curve that text can hold: not for a custom
// one, nor for a faulty one.
func (c Curve) MarshalText() ([]byte, error) {
	if err := c.Err(); err != nil {
		return nil, err
	}
	if c.kind == Custom {
		return nil, fault("custom curve", "a function", "a curve that text can hold; tabulate it instead")
	}
	return []byte(c.String()), nil
}

// Parse reads a curve: "linear", "linear 50", "equal-percentage 50",
// "zero-based-equal-percentage 50", "quick-opening 2", "parabolic", "table 0:0
// 0.5:0.2 1:1".
func Parse(s string) (Curve, error) {
	words := strings.Fields(s)
	if len(words) == 0 {
		return Curve{}, fault("curve", strconv.Quote(s), "a curve such as "+examples)
	}
	c, err := parseWords(words[0], words[1:])
	if err == nil {
		err = c.Err()
	}
	if err != nil {
		return Curve{}, err
	}
	return c, nil
}

const examples = `"linear 50", "equal-percentage 50", "zero-based-equal-percentage 50", "quick-opening 2", "parabolic" or "table 0:0 0.5:0.2 1:1"`

func parseWords(name string, args []string) (Curve, error) {
	switch {
	case name == names[Tabulated]:
		points, err := parsePoints(args)
		return NewTabulated(points), err
	case name == names[Linear] && len(args) == 0:
		return NewLinear(math.Inf(1)), nil
	case name == names[Parabolic] && len(args) == 0:
		return NewParabolic(), nil
	}
	made, known := map[string]func(float64) Curve{
		names[Linear]: NewLinear, names[EqualPercentage]: NewEqualPercentage,
		names[ZeroBased]: NewZeroBased, names[QuickOpening]: NewQuickOpening,
	}[name]
	if !known || len(args) != 1 {
		return Curve{}, fault("curve", strconv.Quote(strings.Join(append([]string{name}, args...), " ")), "a curve such as "+examples)
	}
	x, err := strconv.ParseFloat(args[0], 64)
	if err != nil || math.IsInf(x, 0) {
		return Curve{}, fault("curve", strconv.Quote(args[0]), "a finite number after "+name)
	}
	return made(x), nil
}

func parsePoints(words []string) ([]Point, error) {
	points := make([]Point, len(words))
	for i, w := range words {
		left, right, ok := strings.Cut(w, ":")
		x, errX := strconv.ParseFloat(left, 64)
		y, errY := strconv.ParseFloat(right, 64)
		if !ok || errX != nil || errY != nil {
			return nil, fault("table", strconv.Quote(w), "points written x:y with a decimal point, such as 0.5:0.2")
		}
		points[i] = Point{x, y}
	}
	return points, nil
}

func text(v any) string {
	switch v := v.(type) {
	case float64:
		return strconv.FormatFloat(v, 'g', -1, 64)
	case Point:
		return text(v.X) + ":" + text(v.Y)
	}
	return fmt.Sprint(v)
}
