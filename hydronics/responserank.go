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
// Without a [PairingConfig.Circuit] the unit is a two-way valve, sized to pass the
// design flow fully open, in a branch under constant pressure. What the actual valve
// makes of the choice is for [HeatChain.Linearity] or [CircuitChain.Linearity] to say.
func RankPairings(cfg PairingConfig) ([]RankedPairing, error) {
	bench, err := newPairingBench(cfg)
	if err != nil {
		return nil, err
	}
	var ranked []RankedPairing
	var faults []error
	for _, curve := range cfg.curves() {
		fitted, err := bench.fit(curve)
		if err != nil {
			faults = append(faults, fmt.Errorf("%v: %w", curve, err))
			continue
		}
		for _, shaping := range cfg.shapings() {
			p := Pairing{shaping, curve}
			if p.Double() && !cfg.AllowDouble {
				continue
			}
			r, err := bench.try(p, fitted)
			if err != nil {
				faults = append(faults, fmt.Errorf("%v: %w", p, err))
			}
			ranked = append(ranked, r)
		}
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

// heatResponse is a unit from signal to heat, a *HeatChain or a *CircuitChain.
type heatResponse interface {
	Linearity(HeatRange) (Linearity, error)
	LeastLoad(Resolution) (LeastLoad, error)
}

// pairingBench is the unit that pairings are tried on.
type pairingBench struct {
	cfg  PairingConfig
	kvs  units.FlowCoefficient // of the valve in a branch
	rest Resistance
}

// Every branch has these; what comes out does not depend on them.
const (
	benchPressure = units.Bar
	benchStroke   = 20 * units.Millimetre
)

func newPairingBench(cfg PairingConfig) (pairingBench, error) {
	l := check.List{Package: packageName}
	cfg.check(&l)
	if err := l.Err(); err != nil || cfg.Circuit.model != nil {
		return pairingBench{cfg: cfg}, err
	}
	design, own := cfg.Terminal.Design(), units.Pressure(cfg.Authority)*benchPressure
	rest, err := ResistanceAt(design.Flow, benchPressure-own)
	return pairingBench{cfg, valve.CoefficientFor(design.Flow, own, design.Density), rest}, err
}

// fittedValve is the bench with a characteristic in its valve, and in the circuit if it
// has one.
type fittedValve struct {
	val     valve.Valve
	circuit Circuit
}

func (b *pairingBench) fit(curve valve.Characteristic) (fittedValve, error) {
	if b.cfg.Circuit.model != nil {
		circuit, err := b.cfg.Circuit.get().withControlCurve(curve)
		return fittedValve{circuit.get().controlled(), circuit}, err
	}
	val, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: b.kvs, Stroke: benchStroke, Curve: curve, Leakage: b.cfg.Leakage, Density: b.cfg.Terminal.Design().Density,
		Rangeability: min(b.cfg.Rangeability, curve.TheoreticalRatio()),
	})
	return fittedValve{val: val}, err
}

// try measures a pairing.
func (b *pairingBench) try(p Pairing, f fittedValve) (RankedPairing, error) {
	unit, err := b.unit(p.Shaping, f)
	if err != nil {
		return RankedPairing{}, err
	}
	linearity, err := unit.Linearity(b.cfg.Range)
	if err != nil {
		return RankedPairing{}, err
	}
	least, err := unit.LeastLoad(b.cfg.Resolution)
	return RankedPairing{p, linearity, least}, err
}

func (b *pairingBench) unit(shaping actuator.Shaping, f fittedValve) (heatResponse, error) {
	act, err := benchActuator(shaping, f.val)
	if err != nil {
		return nil, err
	}
	if f.circuit.model != nil {
		u, err := NewCircuitChain(act, f.circuit, b.cfg.Terminal, b.cfg.Conditions)
		return &u, err
	}
	chain, err := NewChain(act, f.val)
	if err != nil {
		return nil, err
	}
	if chain, err = chain.InBranch(b.rest); err != nil {
		return nil, err
	}
	h, err := NewHeatChain(chain, b.cfg.Terminal, benchPressure, b.cfg.Conditions)
	return &h, err
}

// benchActuator fits a valve; a rising signal opens it.
func benchActuator(shaping actuator.Shaping, val valve.Valve) (actuator.Actuator, error) {
	cfg := actuator.Config{
		Input: signal.Range0To10V(), Action: actuator.Reverse, ClosingEnd: ClosingEnd(val.Stem()),
		Shaping: shaping, Stroke: val.Stroke(), Angle: val.Angle(),
	}
	if cfg.ClosingEnd == actuator.Retracted {
		cfg.Action = actuator.Direct
	}
	return actuator.New(cfg)
}
