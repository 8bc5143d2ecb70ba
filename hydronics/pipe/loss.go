package pipe

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// A Loss is the loss coefficient of a fitting or component by the velocity v in
// a stated bore, Δp = K(Re)·ρv²/2 with
//
//	K(Re) = Constant + Laminar/Re
//
// Handbook values of K are the constant part alone. The second part is what
// W. B. Hooper, "The two-K method predicts head losses in pipe fittings",
// Chemical Engineering 88 (24 August 1981), 96–100, added for low Reynolds
// numbers, as they occur with cold glycol and at part load. The zero Loss is
// none.
type Loss struct {
	Constant float64 // K at a great Reynolds number
	Laminar  float64 // K·Re as the Reynolds number goes to zero
}

// At returns the coefficient at a Reynolds number.
func (l Loss) At(re float64) float64 { return l.Constant + l.Laminar/re }

// Plus returns the loss of both in series.
func (l Loss) Plus(m Loss) Loss { return Loss{l.Constant + m.Constant, l.Laminar + m.Laminar} }

// Times returns the loss of n alike in series.
func (l Loss) Times(n int) Loss { return Loss{float64(n) * l.Constant, float64(n) * l.Laminar} }

// Rebase states a loss by the velocity in another bore. The same pressure loss
// gives K₂ = K₁·(D₂/D₁)⁴; the Reynolds number of the laminar part changes too,
// so that part goes with (D₂/D₁)³.
func (l Loss) Rebase(from, to units.Length) Loss {
	ratio := float64(to / from)
	cube := ratio * ratio * ratio
	return Loss{l.Constant * cube * ratio, l.Laminar * cube}
}

// LossOfKv returns the loss coefficient of a component of a given flow
// coefficient, by the velocity in bore, both above zero:
//
//	K = 2·(A/Av)²
//
// with the cross-section A, since q = Av·√(Δp/ρ) and q = v·A (IEC 60534-2-1:2011,
// equation 1, turbulent and without fittings; from memory).
func LossOfKv(kv units.FlowCoefficient, bore units.Length) (Loss, error) {
	l := check.List{Package: "pipe"}
	check.Positive(&l, "Kv", kv)
	check.Positive(&l, "bore", bore)
	if err := l.Err(); err != nil {
		return Loss{}, err
	}
	ratio := float64(units.CircleArea(bore)) / kv.In(units.SquareMetreAv)
	return Loss{Constant: 2 * ratio * ratio}, nil
}
