// Package curve holds the monotone maps of [0,1] that valve characteristics and
// actuator shapings have in common, each with its inverse.
//
// A [Curve] is an immutable value of a closed set of kinds, with [Func] as the
// escape hatch. At and Inverse clamp outside [0,1], return NaN for NaN and
// never fail; a bad parameter is kept as a fault that [Curve.Err] reports, so
// that constructors can be written inside a configuration.
//
// Inverse undoes At: a value below At(0) gives 0, one above At(1) gives 1. In
// between Inverse(At(x)) is x to within 1e-12; a table, whose slope may come
// near zero, keeps that where its slope is at least 1e-3.
package curve

import (
	"math"
	"reflect"
	"slices"

	"github.com/indexrun/indexrun/internal/fastexp"
	"github.com/indexrun/indexrun/units"
)

// Kind tells the law of a curve.
type Kind uint8

// The kinds. The zero Curve and a faulty one are of kind None: they are not
// usable, and NaN between their ends.
const (
	None Kind = iota
	Linear
	EqualPercentage
	ZeroBased
	QuickOpening
	Parabolic
	Tabulated
	Custom
)

// Func is a curve of the user's own: strictly increasing on [0,1], with At(1) =
// 1 and Inverse undoing At.
type Func interface {
	At(x float64) float64
	Inverse(y float64) float64
}

// Curve is one law with its parameters.
type Curve struct {
	kind  Kind
	param float64 // R0, R or α as given; 0 where there is none
	floor float64 // At(0)
	k     float64 // 1 − φ0, ln R or 1/α
	scale float64 // 1/(R − 1)
	table *table
	fn    Func
	fault error
}

// LeastRatio is the smallest ratio of an exponential curve: below it the curve
// is a straight line for any practical purpose and its inverse loses digits.
const LeastRatio = 1.01

// GreatestRatio bounds ratios; beyond it the foot of the curve is meaningless.
const GreatestRatio = 1e6

// NewLinear is φ = φ0 + (1 − φ0)·h with φ0 = 1/ratio; an infinite ratio is the
// ideal straight line through zero.
func NewLinear(ratio float64) Curve {
	if math.IsInf(ratio, 1) {
		return Curve{kind: Linear, k: 1}
	}
	c := Curve{kind: Linear, param: ratio, floor: 1 / ratio, k: 1 - 1/ratio}
	return c.ratioRule(ratio)
}

// NewEqualPercentage is φ = ratio^(h−1).
func NewEqualPercentage(ratio float64) Curve {
	c := Curve{kind: EqualPercentage, param: ratio, floor: 1 / ratio, k: math.Log(ratio)}
	return c.ratioRule(ratio)
}

// NewZeroBased is (ratio^x − 1)/(ratio − 1).
func NewZeroBased(ratio float64) Curve {
	c := Curve{kind: ZeroBased, param: ratio, k: math.Log(ratio), scale: 1 / (ratio - 1)}
	return c.ratioRule(ratio)
}

// NewQuickOpening is h^(1/alpha).
func NewQuickOpening(alpha float64) Curve {
	if !(alpha >= 1 && alpha <= 10) {
		return Curve{fault: fault("quick-opening exponent", alpha, "α of 1 … 10 in h^(1/α)")}
	}
	return Curve{kind: QuickOpening, param: alpha, k: 1 / alpha}
}

// NewParabolic is h².
func NewParabolic() Curve { return Curve{kind: Parabolic} }

// NewTabulated is a monotone cubic through the points, which start at x = 0 and
// end at (1, 1).
func NewTabulated(points []Point) Curve {
	t, err := newTable(points)
	if err != nil {
		return Curve{fault: err}
	}
	return Curve{kind: Tabulated, floor: points[0].Y, table: t}
}

// NewCustom wraps a user's own law, after sampling it.
func NewCustom(f Func) Curve {
	if f == nil {
		return Curve{fault: fault("custom curve", "nil", "a function")}
	}
	if err := sample(f); err != nil {
		return Curve{fault: err}
	}
	return Curve{kind: Custom, floor: f.At(0), fn: f}
}

func (c Curve) ratioRule(ratio float64) Curve {
	if !(ratio >= LeastRatio && ratio <= GreatestRatio) {
		return Curve{fault: fault("ratio", ratio, "a ratio of 1.01 … 1e6")}
	}
	return c
}

// Kind returns the law.
func (c *Curve) Kind() Kind { return c.kind }

// Param returns the ratio or exponent as given, 0 where there is none.
func (c *Curve) Param() float64 { return c.param }

// Floor returns At(0).
func (c *Curve) Floor() float64 { return c.floor }

// Err returns the fault of a bad parameter, or of a curve that was never made.
func (c *Curve) Err() error {
	if c.kind == None && c.fault == nil {
		return fault("curve", "none", "a curve made by one of its constructors")
	}
	return c.fault
}

// At returns the curve's value at x.
func (c *Curve) At(x float64) float64 {
	switch {
	case x > 0 && x < 1:
		return c.inner(x)
	case x >= 1:
		return 1
	case x <= 0:
		return c.floor
	}
	return math.NaN()
}

// inner is At between the ends; min keeps rounding from passing the upper one.
func (c *Curve) inner(x float64) float64 {
	switch c.kind {
	case Linear:
		return c.floor + float64(c.k*x)
	case EqualPercentage:
		return fastexp.Exp(c.k * (x - 1))
	case ZeroBased:
		return min((fastexp.Exp(c.k*x)-1)*c.scale, 1)
	case Parabolic:
		return x * x
	}
	return min(c.rare(x), 1)
}

// rare keeps the slow laws out of the inlined path.
func (c *Curve) rare(x float64) float64 {
	switch c.kind {
	case QuickOpening:
		return math.Pow(x, c.k)
	case Tabulated:
		return c.table.at(x)
	case Custom:
		return c.fn.At(x)
	}
	return math.NaN()
}

// Inverse returns the x at which the curve has the value y.
func (c *Curve) Inverse(y float64) float64 {
	switch {
	case y > c.floor && y < 1:
		return min(max(c.innerInverse(y), 0), 1)
	case y >= 1:
		return 1
	case y <= c.floor:
		return 0
	}
	return math.NaN()
}

func (c *Curve) innerInverse(y float64) float64 {
	switch c.kind {
	case Linear:
		return (y - c.floor) / c.k
	case EqualPercentage:
		return 1 + math.Log(y)/c.k
	case ZeroBased:
		return math.Log1p(y/c.scale) / c.k
	case Parabolic:
		return math.Sqrt(y)
	case QuickOpening:
		return math.Pow(y, c.param)
	case Tabulated:
		return c.table.inverse(y)
	case Custom:
		return c.fn.Inverse(y)
	}
	return math.NaN()
}

// Equal reports whether two curves are the same law with the same parameters.
// Custom curves are equal if their functions are, where == can tell. Faulty
// curves are equal to each other.
func (c Curve) Equal(d Curve) bool {
	switch {
	case c.kind != d.kind || (c.fault == nil) != (d.fault == nil):
		return false
	case c.kind == Tabulated:
		return slices.Equal(c.table.points, d.table.points)
	case c.kind == Custom:
		return reflect.ValueOf(c.fn).Comparable() && reflect.ValueOf(d.fn).Comparable() && c.fn == d.fn
	}
	return c.param == d.param
}

func fault(field string, value any, want string) error {
	return &units.FieldError{Package: "curve", Field: field, Value: text(value), Want: want}
}
