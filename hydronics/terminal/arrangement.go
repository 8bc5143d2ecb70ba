package terminal

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// Arrangement says how water and air pass each other in a coil, and whether a
// stream mixes across its own direction on the way through.
//
// A finned coil of a few rows is nearest to cross flow with both streams
// unmixed; from about four rows in counterwise circuits it is close to
// counterflow (common practice, no published source).
type Arrangement uint8

// The arrangements. CrossFlow is exact, a series; CrossFlowApproximate is the
// closed form that textbooks print for it, from 4 % below at a small NTU to 1 %
// above at an NTU of 3 (at NTU 1 and equal rates 0.4685 in place of 0.4762).
const (
	CounterFlow          Arrangement = iota
	ParallelFlow                     // both enter at the same end
	CrossFlow                        // both streams unmixed, exact
	CrossFlowApproximate             // both streams unmixed, common approximation
	CrossFlowWaterMixed              // water mixed, air unmixed
	CrossFlowAirMixed                // air mixed, water unmixed
	CrossFlowMixed                   // both streams mixed
)

var arrangementWords = words.List{Package: packageName, Field: "Arrangement", Words: []string{
	"counter-flow", "parallel-flow", "cross-flow", "cross-flow-approximate",
	"cross-flow-water-mixed", "cross-flow-air-mixed", "cross-flow-mixed",
}}

// String returns the word of a, such as "counter-flow".
func (a Arrangement) String() string { return arrangementWords.Text(uint8(a)) }

// MarshalText returns the word of a.
func (a Arrangement) MarshalText() ([]byte, error) { return arrangementWords.Marshal(uint8(a)) }

// UnmarshalText reads the word of an arrangement.
func (a *Arrangement) UnmarshalText(text []byte) error {
	return words.Into(&arrangementWords, text, a)
}

// Effectiveness returns ε = Φ/(Cmin·ΔT), the heat as a share of what a
// counterflow exchanger of endless surface would transfer between the same
// inlets; ua is the conductance from water to air, water and air are the
// capacity rates ṁ·cp. With NTU = ua/Cmin and Cr = Cmin/Cmax:
//
//	counterflow    (1 − e^(−NTU(1−Cr)))/(1 − Cr·e^(−NTU(1−Cr)));  Cr = 1: NTU/(1 + NTU)
//	parallel flow  (1 − e^(−NTU(1+Cr)))/(1 + Cr)
//	cross flow, both unmixed   Σ_k P(k, NTU)·P(k, Cr·NTU)/(Cr·NTU), k = 1, 2, …, where
//	                           P(k, x) = 1 − e^(−x)·Σ_{m<k} x^m/m!
//	  common approximation     1 − exp(NTU^0.22·(e^(−Cr·NTU^0.78) − 1)/Cr)
//	  Cmax mixed, Cmin unmixed (1 − exp(−Cr·(1 − e^(−NTU))))/Cr
//	  Cmin mixed, Cmax unmixed 1 − exp(−(1 − e^(−Cr·NTU))/Cr)
//	  both mixed               1/(1/(1 − e^(−NTU)) + Cr/(1 − e^(−Cr·NTU)) − 1/NTU)
//	any, Cr = 0                1 − e^(−NTU)
//
// Sources: Kays & London, "Compact Heat Exchangers", chapter 2; Incropera,
// "Fundamentals of Heat and Mass Transfer", section 11.4; the series for cross
// flow is that of Mason (1954), the approximation that of Incropera.
//
// The result is 0 for a ua of zero. With both streams mixed it falls again
// beyond some NTU (about 3 at Cr = 1), as the model does. NTU·Cr counts as 1e5
// at most in CrossFlow, where that is within 0.2 % of 1. Infinite capacity
// rates are allowed, negative values give NaN.
func (a Arrangement) Effectiveness(ua, water, air units.ThermalConductance) float64 {
	if !(ua >= 0 && water >= 0 && air >= 0 && a <= CrossFlowMixed) {
		return math.NaN()
	}
	return a.effectiveness(float64(ua), float64(water), float64(air))
}

// Conductance returns the ua at which the arrangement has an effectiveness
// between 0 and 1: the inverse of [Arrangement.Effectiveness], on the rising
// side of it. The error wraps a [units.FieldError] that says how much can be
// reached, up to an NTU of 1000.
func (a Arrangement) Conductance(effectiveness float64, water, air units.ThermalConductance) (units.ThermalConductance, error) {
	l := check.List{Package: packageName}
	check.Enum(&l, "Arrangement", a, CrossFlowMixed)
	check.Positive(&l, "water", water)
	check.Positive(&l, "air", air)
	if err := l.Err(); err != nil {
		return 0, err
	}
	ua, most := a.conductance(effectiveness, float64(water), float64(air))
	if math.IsNaN(ua) {
		l.Fault("effectiveness", effectiveness, fmt.Sprintf("from 0 to below %.4f, the most of %v at these capacity rates", most, a))
	}
	return units.ThermalConductance(ua), l.Err()
}
