package valve

import (
	"errors"
	"strconv"

	"github.com/indexrun/indexrun/internal/curve"
	"github.com/indexrun/indexrun/units"
)

// Characteristic is the inherent characteristic of a valve: its relative flow
// coefficient φ = Kv/Kvs as a function of relative travel h, both 0 … 1 (IEC
// 60534-1, IEC 60534-2-4). It is the bare law: the closing region and the
// leakage belong to the valve that carries it. It is immutable. The zero
// Characteristic is none and [Characteristic.Err] says so.
//
// As text it is written "linear 50", "equal-percentage 50", "quick-opening 2",
// "parabolic" or "table 0:0.02 0.5:0.2 1:1".
type Characteristic struct{ law curve.Curve }

// Point is one row of a tabulated characteristic.
type Point struct {
	Travel      float64 // relative travel (or angle) h, 0 … 1
	Coefficient float64 // relative flow coefficient φ, 0 … 1
}

// Linear is φ = φ0 + (1 − φ0)·h with φ0 = 1/ratio, where ratio is the
// theoretical ratio R0 = Kvs/Kv0, 1.01 … 1e6 (IEC 60534-2-4, VDI/VDE 2173). An
// infinite ratio, math.Inf(1), is the ideal line φ = h.
func Linear(ratio float64) Characteristic { return Characteristic{curve.NewLinear(ratio)} }

// EqualPercentage is φ = R0^(h−1), where equal steps of travel change the
// coefficient by equal percentages; ratio is the theoretical ratio R0 =
// Kvs/Kv0, 1.01 … 1e6 (IEC 60534-2-4, VDI/VDE 2173).
func EqualPercentage(ratio float64) Characteristic {
	return Characteristic{curve.NewEqualPercentage(ratio)}
}

// QuickOpening is φ = h^(1/α) with α of 1 … 10: α = 2 gives the square root
// (common practice, no published source).
func QuickOpening(alpha float64) Characteristic { return Characteristic{curve.NewQuickOpening(alpha)} }

// Parabolic is φ = h² (common practice, no published source).
func Parabolic() Characteristic { return Characteristic{curve.NewParabolic()} }

// Tabulated is a monotone cubic through measured points (Fritsch & Butland
// 1984). They start at travel 0, end at (1, 1) and rise strictly in both; this
// is the form for ball and butterfly valves, and for valves with a corrected
// curve.
func Tabulated(points []Point) Characteristic {
	rows := make([]curve.Point, len(points))
	for i, p := range points {
		rows[i] = curve.Point{X: p.Travel, Y: p.Coefficient}
	}
	return Characteristic{curve.NewTabulated(rows)}
}

// Law is a characteristic of the user's own: strictly increasing on 0 … 1 with
// At(1) = 1, and Inverse undoing At. Both must be safe for concurrent use.
type Law interface {
	At(h float64) float64
	Inverse(phi float64) float64
}

// Custom wraps a law of the user's own. It is sampled once, here; a law that
// breaks the promises of [Law] is reported by Err. It has no text form.
func Custom(law Law) Characteristic { return Characteristic{curve.NewCustom(law)} }

// At returns φ at relative travel h. Outside 0 … 1 it clamps; at 0 it is φ0 =
// 1/R0 where the law has a theoretical ratio; NaN gives NaN.
func (c Characteristic) At(h float64) float64 { return c.law.At(h) }

// Inverse returns the relative travel at which the law has the coefficient phi:
// 0 for phi of φ0 and below, 1 for phi of 1 and above, NaN for NaN.
func (c Characteristic) Inverse(phi float64) float64 { return c.law.Inverse(phi) }

// TheoreticalRatio returns R0 = Kvs/Kv0, the constant of the formulas; +Inf for
// a law through zero. It is not the inherent rangeability, which is measured.
func (c Characteristic) TheoreticalRatio() float64 { return 1 / c.law.Floor() }

// Err reports a bad parameter, which the constructors keep until they are
// asked; New… of a valve asks.
func (c Characteristic) Err() error { return relabel(c.law.Err()) }

// Equal reports whether c and d are the same law with the same parameters.
func (c Characteristic) Equal(d Characteristic) bool { return c.law.Equal(d.law) }

// String returns the law as text.
func (c Characteristic) String() string { return c.law.String() }

// MarshalText returns the law as text; a custom or faulty one is an error.
func (c Characteristic) MarshalText() ([]byte, error) {
	text, err := c.law.MarshalText()
	return text, relabel(err)
}

// UnmarshalText reads a law as String writes it.
func (c *Characteristic) UnmarshalText(text []byte) error {
	law, err := curve.Parse(string(text))
	if err != nil {
		return relabel(err)
	}
	if law.Kind() == curve.ZeroBased {
		return &units.FieldError{Package: packageName, Field: "Curve", Value: strconv.Quote(string(text)),
			Want: "a valve's characteristic; zero-based equal percentage is the shaping of an actuator"}
	}
	c.law = law
	return nil
}

// relabel turns a fault of the curve into one of this package.
func relabel(err error) error {
	var fault *units.FieldError
	if !errors.As(err, &fault) {
		return err
	}
	return &units.FieldError{Package: packageName, Field: "Curve", Value: fault.Value, Want: fault.Want}
}
