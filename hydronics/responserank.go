package hydronics

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// A RankedPairing is a pairing with what it makes of the unit.
type RankedPairing struct {
	Pairing
	Linearity
	LeastLoad LeastLoad
}

// RankPairings tries every shaping with every characteristic on a unit and returns
// the pairings by how straight they make its heat in the signal, the best first.
// Those that the criterion cannot tell apart, within 1e-4 of the deviation or of
// the gain ratio, stay in the order of the lists; one without a gain ratio comes
// last.
//
// The unit is a two-way valve, sized to pass the design flow fully open, in a
// branch under constant pressure. What the actual valve makes of the choice is for
// [HeatChain.Linearity] to say.
func RankPairings(cfg PairingConfig) ([]RankedPairing, error) {
	bench, err := newPairingBench(cfg)
	if err != nil {
		return nil, err
	}
	var ranked []RankedPairing
	var faults []error
	for _, p := range cfg.pairings() {
		r, err := bench.try(p)
		if err != nil {
			faults = append(faults, fmt.Errorf("%v: %w", p, err))
		}
		ranked = append(ranked, r)
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	slices.SortStableFunc(ranked, func(a, b RankedPairing) int { return cmp.Compare(a.score(cfg.By), b.score(cfg.By)) })
	return ranked, nil
}

// score is what is ranked, less being better, in steps that are wide enough for
// the order not to hang on rounding.
func (r *RankedPairing) score(by Criterion) float64 {
	const step = 1e-4
	score := r.Deviation
	if by == ByGainRatio {
		score = math.Log(r.GainRatio())
	}
	if math.IsNaN(score) {
		return math.Inf(1)
	}
	return math.Round(score / step)
}

// pairingBench is the unit that pairings are tried on.
type pairingBench struct {
	cfg  PairingConfig
	kvs  units.FlowCoefficient
	rest Resistance
}

// Every bench has these; what comes out does not depend on them.
const (
	benchPressure = units.Bar
	benchStroke   = 20 * units.Millimetre
)

func newPairingBench(cfg PairingConfig) (pairingBench, error) {
	l := check.List{Package: packageName}
	cfg.check(&l)
	if err := l.Err(); err != nil {
		return pairingBench{}, err
	}
	design, own := cfg.Terminal.Design(), units.Pressure(cfg.Authority)*benchPressure
	rest, err := ResistanceAt(design.Flow, benchPressure-own)
	return pairingBench{cfg, valve.CoefficientFor(design.Flow, own, design.Density), rest}, err
}

// try measures a pairing.
func (b *pairingBench) try(p Pairing) (RankedPairing, error) {
	h, err := b.heatChain(p)
	if err != nil {
		return RankedPairing{}, err
	}
	linearity, err := h.Linearity(b.cfg.Range)
	if err != nil {
		return RankedPairing{}, err
	}
	least, err := h.LeastLoad(b.cfg.Resolution)
	return RankedPairing{p, linearity, least}, err
}

func (b *pairingBench) heatChain(p Pairing) (HeatChain, error) {
	act, actErr := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), Action: actuator.Reverse, Shaping: p.Shaping, Stroke: benchStroke,
	})
	val, valErr := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: b.kvs, Stroke: benchStroke, Curve: p.Curve, Leakage: b.cfg.Leakage, Density: b.cfg.Terminal.Design().Density,
		Rangeability: min(b.cfg.Rangeability, p.Curve.TheoreticalRatio()),
	})
	if err := errors.Join(actErr, valErr); err != nil {
		return HeatChain{}, err
	}
	chain, err := NewChain(act, val)
	if err != nil {
		return HeatChain{}, err
	}
	if chain, err = chain.InBranch(b.rest); err != nil {
		return HeatChain{}, err
	}
	return NewHeatChain(chain, b.cfg.Terminal, benchPressure, b.cfg.Conditions)
}
