package main

import (
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Circuits with a pump of the consumer's own, for the design flow of a terminal;
// invented. The pressures are those at the design flow.
const (
	pumpHead  = 40 * units.Kilopascal // of the consumer's pump
	throttled = 10 * units.Kilopascal // over the control port and what carries its flow alone
)

// pumpedCircuit makes a circuit whose control port has an authority and a curve.
type pumpedCircuit struct {
	name string
	make func(t terminal.Terminal, authority float64, control valve.Characteristic) (hydronics.Circuit, error)
}

var pumpedCircuits = []pumpedCircuit{{"injection", injection}, {"mixing", mixing}}

// injection throttles by a two-way valve what a source of constant pressure injects; a
// common pipe without resistance keeps the consumer's flow constant.
func injection(t terminal.Terminal, authority float64, control valve.Characteristic) (hydronics.Circuit, error) {
	d, own := t.Design(), units.Pressure(authority)*throttled
	val, err := valve.NewTwoWay(valve.TwoWayConfig{
		Kvs: valve.CoefficientFor(d.Flow, own, d.Density), Stroke: stroke, Curve: control, Density: d.Density,
	})
	if err != nil {
		return hydronics.Circuit{}, err
	}
	primary, err := hydronics.ResistanceAt(d.Flow, throttled-own)
	if err != nil {
		return hydronics.Circuit{}, err
	}
	consumer, err := hydronics.ResistanceAt(d.Flow, pumpHead)
	if err != nil {
		return hydronics.Circuit{}, err
	}
	return hydronics.NewThrottledInjectionCircuit(val, hydronics.ThrottledInjectionConfig{
		Header: throttled, Pump: pumpHead, Primary: primary, Consumer: consumer, SpecificHeat: d.SpecificHeat,
	})
}

// mixing has a three-way valve with a linear bypass port between headers without
// pressure, the bypass pipe balanced.
func mixing(t terminal.Terminal, authority float64, control valve.Characteristic) (hydronics.Circuit, error) {
	d, own := t.Design(), units.Pressure(authority)*throttled
	val, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Control: valve.PortConfig{Kvs: valve.CoefficientFor(d.Flow, own, d.Density), Curve: control},
		Bypass:  valve.PortConfig{Curve: valve.Linear(50)}, Stroke: stroke, Density: d.Density,
	})
	if err != nil {
		return hydronics.Circuit{}, err
	}
	primary, err := hydronics.ResistanceAt(d.Flow, throttled-own)
	if err != nil {
		return hydronics.Circuit{}, err
	}
	consumer, err := hydronics.ResistanceAt(d.Flow, pumpHead-throttled)
	if err != nil {
		return hydronics.Circuit{}, err
	}
	return hydronics.NewMixingCircuit(val, hydronics.MixingConfig{
		Pump: pumpHead, Primary: primary, Bypass: primary, Consumer: consumer, SpecificHeat: d.SpecificHeat,
	})
}

// stroke does not matter.
const stroke = 20 * units.Millimetre
