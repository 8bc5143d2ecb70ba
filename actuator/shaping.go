package actuator

import (
	"errors"
	"math"

	"github.com/indexrun/indexrun/internal/curve"
	"github.com/indexrun/indexrun/units"
)

// Shaping is the actuator's own characteristic: a strictly increasing map from
// opening demand (0 closed, 1 open) to the share of the stroke, counted from
// the closed end, with 0 → 0 and 1 → 1. It acts before the stem, so that equal
// percentage stays equal percentage whatever the action and the closing end.
//
// Its purpose is to give a linear valve a curve that suits a coil. Shaping and
// valve characteristic multiply in effect: shape once, in the actuator or in
// the valve, not in both.
//
// A Shaping is an immutable value, safe for concurrent use. The zero Shaping
// is linear.
type Shaping struct{ c curve.Curve }

// Point is one row of a tabulated shaping.
type Point struct {
	Opening float64 // opening demand, 0 … 1
	Share   float64 // share of the stroke counted from the closed end, 0 … 1
}

// Func is a shaping of the user's own: strictly increasing on [0,1] with
// At(0) = 0, At(1) = 1 and Inverse undoing At. It must be safe for concurrent
// use; it is on the path of every evaluation.
type Func interface {
	At(opening float64) float64
	Inverse(share float64) float64
}

// Linear passes the opening demand on unchanged.
func Linear() Shaping { return Shaping{curve.NewLinear(math.Inf(1))} }

// ZeroBasedEqualPercentage is the equal-percentage curve lowered to start at
// zero,
//
//	(R^x − 1)/(R − 1)
//
// for a ratio R of 1.01 … 1e6, 50 for instance. Common practice, no published
// source. On a linear valve whose theoretical ratio is R as well it gives
// exactly the equal percentage R^(x−1).
func ZeroBasedEqualPercentage(ratio float64) Shaping { return Shaping{curve.NewZeroBased(ratio)} }

// Tabulated is a monotone cubic (Fritsch and Butland, SIAM J. Sci. Stat.
// Comput. 5, 1984) through points that start at 0, 0, end at 1, 1 and rise
// strictly in both columns. The points are copied.
func Tabulated(points []Point) Shaping {
	rows := make([]curve.Point, len(points))
	for i, p := range points {
		rows[i] = curve.Point{X: p.Opening, Y: p.Share}
	}
	return Shaping{curve.NewTabulated(rows)}
}

// Custom wraps a law of the user's own. It is sampled at 1001 points to see
// whether it keeps the promises of [Func]; a fault between two samples goes
// unseen. A custom shaping has no text form.
func Custom(f Func) Shaping { return Shaping{curve.NewCustom(f)} }

// At returns the share of the stroke for an opening demand, both counted from
// the closed end. Demands outside [0,1] are clamped, 0 and 1 are exact, NaN
// gives NaN.
func (s Shaping) At(opening float64) float64 {
	s = s.orLinear()
	return s.c.At(opening)
}

// Inverse returns the opening demand for a share of the stroke; it undoes At.
func (s Shaping) Inverse(share float64) float64 {
	s = s.orLinear()
	return s.c.Inverse(share)
}

// Err returns what is wrong with the parameters that the shaping was made from,
// as a *units.FieldError, or nil. [New] reports it too.
func (s Shaping) Err() error {
	s = s.orLinear()
	if err := s.c.Err(); err != nil {
		return shapingFault(err)
	}
	switch s.c.Kind() {
	case curve.Linear, curve.ZeroBased, curve.Tabulated, curve.Custom:
		if s.c.Floor() == 0 {
			return nil
		}
		return fault("Shaping", s.c.String(), "a shaping that starts at 0")
	}
	return fault("Shaping", s.c.String(), shapingRule)
}

// Equal reports whether two shapings are the same law with the same parameters;
// custom ones are if their functions are, where == can tell.
func (s Shaping) Equal(t Shaping) bool { return s.orLinear().c.Equal(t.orLinear().c) }

// String returns the text form, such as "zero-based-equal-percentage 50"; a
// custom shaping is only named.
func (s Shaping) String() string { return s.orLinear().c.String() }

// MarshalText returns the text form without loss: "linear",
// "zero-based-equal-percentage 50" or "table 0:0 0.5:0.2 1:1". A custom shaping
// or one with a fault is an error.
func (s Shaping) MarshalText() ([]byte, error) {
	if err := s.Err(); err != nil {
		return nil, err
	}
	text, err := s.orLinear().c.MarshalText()
	if err != nil {
		return nil, shapingFault(err)
	}
	return text, nil
}

// UnmarshalText reads what MarshalText writes.
func (s *Shaping) UnmarshalText(text []byte) error {
	c, err := curve.Parse(string(text))
	if err != nil {
		return shapingFault(err)
	}
	read := Shaping{c}
	if err := read.Err(); err != nil {
		return err
	}
	*s = read
	return nil
}

const shapingRule = `"linear", "zero-based-equal-percentage 50" or a table such as "table 0:0 0.5:0.2 1:1"`

// orLinear gives the zero Shaping its meaning.
func (s Shaping) orLinear() Shaping {
	if s.c.Equal(curve.Curve{}) {
		return Linear()
	}
	return s
}

// shapingFault passes a curve's fault on under the field's name.
func shapingFault(err error) error {
	var f *units.FieldError
	if errors.As(err, &f) {
		return fault("Shaping", f.Value, f.Want)
	}
	return err
}
