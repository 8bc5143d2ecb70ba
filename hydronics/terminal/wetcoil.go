package terminal

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// WetCoilConfig describes a cooling coil that may condense, by its design point.
type WetCoilConfig struct {
	Heat     units.Power  // total, sensible and latent, at design; required
	Design   Temperatures // Air is that of the air entering; required
	Humidity units.Ratio  // relative, of the air entering at design, above 0 … 100 %; required

	AirFlow     units.Flow             // at AirDensity, as dry air; required
	AirDensity  units.Density          // 0 is StandardAirDensity
	AirPressure units.AbsolutePressure // 50 … 120 kPa abs; zero is 101.325 kPa abs

	// WaterShare is the share of the thermal resistance of the dry coil that the
	// water side has at design, 0 … 95 %, as in CoilConfig.
	WaterShare units.Ratio
	// LaminarFloor is the least coefficient on the water side as a share of that
	// at design; 0 is DefaultLaminarFloor.
	LaminarFloor units.Ratio

	Fluid    fluid.Fluid            // zero is water
	Pressure units.AbsolutePressure // of the water; zero is 300 kPa abs
}

// WetCoil is a cooling coil in counterflow on which water may condense, by the
// effectiveness method with the enthalpy as potential (J. E. Braun, S. A. Klein
// and J. W. Mitchell, "Effectiveness models for cooling towers and cooling
// coils", ASHRAE Transactions 95 (2), 1989). Where the coil is wet,
//
//	Φ = ε*·min(ṁa, C/cs)·(h_a − h_s(θs)),  1/UA* = cp/UAo + cs/UAi
//
// with ε* the effectiveness of counterflow at the conductance UA* and the
// flows ṁa and C/cs, h_a the enthalpy of the air where the wet part begins, h_s
// that of saturated air, cs the mean slope of h_s from supply to where the
// water leaves the wet part, UAo and UAi the conductances on the air side and
// the water side. Ahead of the wet part the coil is a dry [Coil]; the border is
// where the surface has the dew point of the air (ibid., partly wet coils). The
// part that is wet, its water temperatures and its heat are solved together.
//
// From the wet part the air leaves as if it had met a surface of one
// effective temperature (ibid.), which splits the heat in sensible and latent.
//
// Limits: counterflow, to which a coil of four rows or more in counterwise
// circuits comes close. The Lewis number is 1, the film of water has no
// resistance, fins are as effective wet as dry, the condensate carries nothing.
// One cs stands for the curved saturation line. Against an integration along the
// surface (that of gen/wetcoil.py of internal/reference: air of 22 to 36 °C and 30
// to 90 % on a supply of 4 to 13 °C, up to 40 % of the resistance on the water
// side, 15 to 100 % flow), the heat at given resistances is within −6 and +45 %. So
// far above it is in one corner of that range: a short coil with 40 % of the
// resistance on the water side, throttled, in the hottest and most humid air on
// the coldest supply. Of 1500 random coils at four flows, nine in ten points are
// within −1.3 and +4.1 %. The share of the design heat, which is what a valve sees,
// is within 0.07, and typically 0.005, since the conductance is found from the
// design point by the same method.
//
// There is no frost: below 0 °C the saturation pressure stays as it is there,
// and above 60 °C likewise. Humid air is an ideal gas, which puts the water in
// saturated air 0.5 % low.
//
// The zero WetCoil is none: its numbers are NaN.
type WetCoil struct{ handle }

// NewWetCoil checks the configuration and returns the coil.
func NewWetCoil(c WetCoilConfig) (WetCoil, error) {
	if c.AirPressure.IsZero() {
		c.AirPressure = units.Atmospheric()
	}
	l := check.List{Package: packageName}
	c.check(&l)
	side := newWaterSide(&l, c.WaterShare, c.LaminarFloor)
	properties := newLiquid(&l, c.Fluid, c.Pressure, c.Design, "Design")
	if err := l.Err(); err != nil {
		return WetCoil{}, err
	}
	flow := float64(c.Heat) / (properties.capacity() * c.Design.spread())
	side.per = 1 / flow
	conditions := Conditions{Supply: c.Design.Supply, Air: c.Design.Air, Humidity: c.Humidity}
	m := newWetModel(moistAir{airMass(c.AirFlow, c.AirDensity), float64(c.AirPressure.AboveVacuum())},
		exchanger{side: side}, properties, conditions)
	m.findResistance(&l, flow, float64(c.Heat))
	m.settle(flow, c.Design, conditions)
	return WetCoil{newHandle(m, l.Err())}, l.Err()
}

// newWetModel leaves the resistance open.
func newWetModel(air moistAir, e exchanger, properties liquid, c Conditions) model {
	m := model{kind: wet, direction: -1, liquid: properties, moist: air, exchanger: e}
	m.design = m.stateOf(c)
	return m
}

func (c *WetCoilConfig) check(l *check.List) {
	check.Positive(l, "Heat", c.Heat)
	if c.Design.check(l, "Design") {
		l.Require(c.Design.direction() < 0, "Design.Supply", c.Design.Supply, "colder than the air: a wet coil cools")
		l.Require(c.Design.Supply.Compare(units.Celsius(0)) >= 0, "Design.Supply", c.Design.Supply, "0 °C or more: the method knows no frost")
		l.Require(c.Design.Air.Compare(units.AbsoluteKelvin(mostSaturate)) <= 0, "Design.Air", c.Design.Air, "60 °C or less")
	}
	l.Require(c.Humidity > 0 && c.Humidity <= 1, "Humidity", c.Humidity, "above 0 … 100 %")
	check.Positive(l, "AirFlow", c.AirFlow)
	check.Within(l, "AirDensity", c.AirDensity, 0, mostAirDensity)
	pressure := c.AirPressure.AboveVacuum()
	l.Require(pressure >= 50*units.Kilopascal && pressure <= 120*units.Kilopascal, "AirPressure", c.AirPressure, "50 … 120 kPa abs")
}

// findResistance sets the resistance at which the coil gives the heat at flow.
func (m *model) findResistance(l *check.List, flow, heat float64) {
	least := 1 / (greatestNTU * min(m.liquid.capacity()*flow, m.moist.capacity(&m.design)))
	surplus := func(logResistance float64) float64 {
		m.exchanger.resistance = math.Exp(logResistance)
		return heat - m.heat(flow, &m.design)
	}
	lo := math.Log(least)
	missing := surplus(lo)
	if !l.Require(missing < 0, "Heat", units.Power(heat), "less than "+units.Power(heat-missing).String()+
		", the most of counter-flow at these temperatures and this air flow") {
		return
	}
	hi := lo
	for missing < 0 {
		lo, hi = hi, hi+1
		missing = surplus(hi)
	}
	surplus(root(surplus, lo, hi, surplus(lo), missing, tiny))
}

// Equal reports whether w and v are the same coil at the same design.
func (w WetCoil) Equal(v WetCoil) bool { return w.equal(v.handle) }
