package main

import (
	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The invented branch: coil, pipes and fittings take most of its pressure.
const (
	kvs       = 1.6 * units.Kv
	stroke    = 5.5 * units.Millimetre
	available = 30 * units.Kilopascal
	drop      = 18 * units.Kilopascal // of all but the valve, at the design flow
)

var input = signal.Range0To10V()

// resolution is that of the invented actuator: a dead band of 1 % and a motor that
// tells 200 positions apart.
var resolution = hydronics.Resolution{Signal: 0.01, Stem: 0.005}

// unit is the coil with its branch, and what can be put into it.
type unit struct {
	coil    terminal.Coil
	rest    hydronics.Resistance // of the branch without the valve
	ranking []hydronics.RankedPairing
	cases   []fitted // the best of the ranking, then two usual ones
}

// fitted is the unit with one pairing of actuator and valve.
type fitted struct {
	hydronics.Pairing
	valve     valve.TwoWay
	authority valve.Authority
	installed valve.Installed
	chain     hydronics.HeatChain
	closing   hydronics.LeastLoad // where the valve's closing region ends
	least     hydronics.LeastLoad // with the actuator's resolution
}

func newUnit() (*unit, error) {
	coil, err := terminal.NewCoil(terminal.CoilConfig{
		Heat:       12 * units.Kilowatt,
		Design:     terminal.Temperatures{Supply: units.Celsius(80), Return: units.Celsius(60), Air: units.Celsius(16)},
		LeavingAir: units.Celsius(35),
		WaterShare: 20 * units.Percent,
	})
	if err != nil {
		return nil, err
	}
	rest, err := hydronics.ResistanceAt(coil.Design().Flow, drop)
	if err != nil {
		return nil, err
	}
	u := &unit{coil: coil, rest: rest}
	linear, err := u.fitted(hydronics.Pairing{Shaping: actuator.Linear(), Curve: valve.Linear(50)})
	if err != nil {
		return nil, err
	}
	equal, err := u.fitted(hydronics.Pairing{Shaping: actuator.Linear(), Curve: valve.EqualPercentage(50)})
	if err != nil {
		return nil, err
	}
	u.ranking, err = hydronics.RankPairings(hydronics.PairingConfig{Terminal: coil, Authority: linear.authority.Open, Resolution: resolution})
	if err != nil {
		return nil, err
	}
	best, err := u.fitted(u.ranking[0].Pairing)
	u.cases = []fitted{best, equal, linear}
	return u, err
}

// fitted puts a pairing into the branch.
func (u *unit) fitted(p hydronics.Pairing) (f fitted, err error) {
	act, err := actuator.New(actuator.Config{Input: input, Action: actuator.Reverse, Shaping: p.Shaping, Stroke: stroke})
	if err != nil {
		return f, err
	}
	f.Pairing = p
	f.valve, err = valve.NewTwoWay(valve.TwoWayConfig{Kvs: kvs, Stroke: stroke, Curve: p.Curve, Density: u.coil.Design().Density})
	if err != nil {
		return f, err
	}
	chain, err := hydronics.NewChain(act, f.valve)
	if err != nil {
		return f, err
	}
	if chain, err = chain.InBranch(u.rest); err != nil {
		return f, err
	}
	if f.chain, err = hydronics.NewHeatChain(chain, u.coil, available, terminal.Conditions{}); err != nil {
		return f, err
	}
	if f.authority, err = hydronics.CircuitAuthority(f.valve, u.rest, u.coil.Design().Flow, available); err != nil {
		return f, err
	}
	if f.installed, err = f.valve.Installed(f.authority.Open); err != nil {
		return f, err
	}
	if f.closing, err = f.chain.LeastLoad(hydronics.Resolution{}); err != nil {
		return f, err
	}
	f.least, err = f.chain.LeastLoad(resolution)
	return f, err
}
