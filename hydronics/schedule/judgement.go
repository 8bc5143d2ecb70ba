package schedule

import (
	"math"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// Limits of the findings. All are common practice, no published source, unless
// they say otherwise.
const (
	// LeastAuthorityAimed is the authority of a two-way valve below which its
	// characteristic is bent too far for a steady loop.
	LeastAuthorityAimed = 0.3
	// OversizedBy is the coefficient of a two-way valve as a multiple of the one
	// needed: a step of the series R5 (ISO 3) is 1.6.
	OversizedBy = 1.75
	// LeastFreezingMargin is kept between the coldest liquid and its freezing
	// temperature.
	LeastFreezingMargin units.TemperatureDifference = 3
)

// need is what a unit asks of a valve.
type need struct {
	row     *Row
	flow    units.Flow
	density units.Density
	liquid  fluid.State
	// volatile is the liquid of the duty that boils sooner.
	volatile fluid.State
	// lightness is the factor of every flow at given pressures against the
	// reference density: √(ρ0/ρ).
	lightness units.Flow
	inputs    []input        // ways to the actuator
	has       units.Pressure // left for the valve at design flow
	aim       units.Pressure // what a valve is chosen for: has, or a fair share where nothing is left
	total     units.Pressure // over the branch, or over the valve if only that is known
	against   units.Pressure // what must be closed against
	coldest   units.Temperature
	hottest   units.Temperature
	rowFinds  findings // findings that no choice changes
}

// valveFit is how one valve would serve a need.
type valveFit struct {
	mark  float64
	flow  units.Flow // of the setting, with the unit's liquid
	needs units.Pressure
	// viscous is the Reynolds factor of the coefficient, 1 for thin liquids.
	viscous float64
	quiet   bool // it does not cavitate at any travel
	// lift is where a setting stops the stem, as a share of the stroke: 1 for most.
	lift float64
}

// judge works out how the valve would serve and what is to be said against it,
// viscosity aside.
func (v *stockValve) judge(n *need, found *findings) (valveFit, error) {
	return v.judgeAt(1, n, found)
}

// judgeViscous does so again for a valve that may be taken, if the Reynolds factor
// of its coefficient counts.
func (c *candidate) judgeViscous(n *need) error {
	c.viscous = true
	if c.valve.model.Kind.independent() {
		return c.judgeViscousSetting(n)
	}
	return c.judgeAgain(c.valve.model.reynoldsFactor(c.valve.model.Kvs, n.flow, &n.liquid), n)
}

func (c *candidate) judgeAgain(factor float64, n *need) (err error) {
	if factor != c.fit.viscous {
		c.found.reset()
		c.fit, err = c.valve.judgeAt(factor, n, &c.found)
	}
	return err
}

// judgeViscousSetting takes a pressure-independent valve, whose table was measured
// with water, for one whose flows are all less by the ratio of the Reynolds factors
// of liquid and water: orifice and wide-open regulator lose the same share at the
// same pressures. The ratio depends on the setting, and the setting on the ratio.
func (c *candidate) judgeViscousSetting(n *need) error {
	if n.row.Fluid == fluid.Water() {
		return nil
	}
	factor := 1.0
	for range 20 {
		thin := n.flow / units.Flow(factor)
		kv := valve.CoefficientFor(thin, c.fit.needs, n.density)
		next := min(1, c.valve.model.reynoldsFactor(kv, n.flow, &n.liquid)/c.valve.model.reynoldsFactor(kv, thin, &measuredWith))
		settled := math.Abs(next-factor) < 1e-9
		factor = next
		if err := c.judgeAgain(factor, n); err != nil || settled {
			return err
		}
	}
	return nil
}

// measuredWith is water of 20 °C, with which the tables of valves are taken to be
// measured (common practice, no published source).
var measuredWith = func() fluid.State {
	s, err := fluid.Water().At(units.Celsius(20), hydronics.UsualPressure())
	if err != nil {
		panic(err) // a constant of this package
	}
	return s
}()

func (v *stockValve) judgeAt(factor float64, n *need, found *findings) (valveFit, error) {
	v.judgeBody(n, found)
	v.model.judgeConnection(n, found)
	fit, err := v.fit(factor, n, found)
	if err == nil {
		v.model.judgeCavitation(n, &fit, found)
	}
	if factor < leastFactor {
		found.addScaled(ViscousFlow, shareOf(factor), Value{}, 1/factor)
	}
	return fit, err
}

func (v *stockValve) fit(factor float64, n *need, found *findings) (valveFit, error) {
	if set, ok := v.valve.(valve.PressureIndependent); ok {
		lightness := n.lightness * units.Flow(factor)
		fit, err := judgeIndependent(set, lightness, n, found)
		fit.viscous = factor
		if err == nil && v.model.SettingKind == valve.LiftLimiting {
			set, err = set.WithFlow(fit.flow / lightness)
			fit.lift = set.GreatestUsableTravel()
		}
		return fit, err
	}
	return judgeTwoWay(v.model.Kvs, factor, n, found), nil
}

// judgeIndependent works at the reference density, where the flows are those of
// the liquid over its lightness.
func judgeIndependent(v valve.PressureIndependent, lightness units.Flow, n *need, found *findings) (valveFit, error) {
	least, greatest := v.FlowRange()
	least, greatest = least*lightness, greatest*lightness
	switch {
	case n.flow > greatest*(1+rounding):
		found.addScaled(FlowOutOfReach, flowOf(greatest), flowOf(n.flow), float64(n.flow/greatest))
	case n.flow < least*(1-rounding):
		found.addScaled(BelowLowestSetting, flowOf(least), flowOf(n.flow), float64(least/n.flow))
	}
	set, err := v.SettingFor(max(least, min(n.flow, greatest)) / lightness)
	if err != nil {
		return valveFit{}, err
	}
	fit := valveFit{mark: set.Mark, flow: set.Flow * lightness, needs: set.MinPressure, lift: 1}
	n.judgeNeeds(fit.needs, found)
	return fit, nil
}

// rounding is by how much a flow may pass the ends of a table and still count as
// within it.
const rounding = 1e-9

func judgeTwoWay(kvs units.FlowCoefficient, factor float64, n *need, found *findings) valveFit {
	kvs *= units.FlowCoefficient(factor)
	fit := valveFit{flow: n.flow, needs: valve.PressureDrop(kvs, n.flow, n.density), viscous: factor, lift: 1}
	if !n.judgeNeeds(fit.needs, found) {
		return fit
	}
	if wanted := valve.CoefficientFor(n.flow, n.aim, n.density); kvs > OversizedBy*wanted {
		found.addScaled(Oversized, coefficientOf(kvs), coefficientOf(wanted), float64(kvs/wanted)/OversizedBy)
	}
	if authority := float64(fit.needs / n.total); n.row.ValvePressure == 0 && authority < LeastAuthorityAimed {
		found.addScaled(LowAuthority, shareOf(authority), shareOf(LeastAuthorityAimed), min(LeastAuthorityAimed/authority, 3))
	}
	return fit
}

// judgeNeeds compares what a valve needs with what there is for it, and reports
// whether that is enough.
func (n *need) judgeNeeds(needs units.Pressure, found *findings) bool {
	if needs <= n.aim {
		return true
	}
	found.addScaled(NotEnoughPressure, pressureOf(n.has), pressureOf(needs), float64(needs/max(n.aim, 1)))
	return false
}

// set is the valve at its setting with the unit's liquid in it.
func (v *stockValve) set(n *need, fit *valveFit) (valve.Valve, error) {
	if base, ok := v.valve.(valve.PressureIndependent); ok {
		set, err := v.filled(base, n, fit)
		if err != nil {
			return nil, err
		}
		return set.WithFlow(fit.flow)
	}
	cfg := v.model.twoWayConfig()
	cfg.Kvs *= units.FlowCoefficient(fit.viscous)
	cfg.Density = n.density
	return valve.NewTwoWay(cfg)
}

// filled is a pressure-independent valve with the unit's liquid in it.
func (v *stockValve) filled(base valve.PressureIndependent, n *need, fit *valveFit) (valve.PressureIndependent, error) {
	if fit.viscous == 1 {
		return base.WithDensity(n.density)
	}
	cfg := v.model.independentConfig()
	for i := range cfg.Settings {
		cfg.Settings[i].Flow *= units.Flow(fit.viscous)
	}
	cfg.Density = n.density
	return valve.NewPressureIndependent(cfg)
}

func (v *stockValve) judgeBody(n *need, found *findings) {
	m := v.model
	if pressure := n.row.gaugePressure() + n.row.ShutOffHead; m.Rating > 0 && pressure > m.Rating {
		found.add(RatingExceeded, pressureOf(pressure), pressureOf(m.Rating))
	}
	if !m.Coldest.IsZero() && n.coldest.Compare(m.Coldest) < 0 {
		found.add(TemperatureOutside, textOf(n.coldest), textOf(m.Coldest))
	}
	if !m.Hottest.IsZero() && n.hottest.Compare(m.Hottest) > 0 {
		found.add(TemperatureOutside, textOf(n.hottest), textOf(m.Hottest))
	}
	if m.MaxPressure > 0 && n.against > m.MaxPressure {
		found.add(AbovePressureLimit, pressureOf(n.against), pressureOf(m.MaxPressure))
	}
}

// newNeed works out what a row asks for.
func newNeed(r *Row, u *Unit) (need, error) {
	if err := r.Validate(); err != nil {
		return need{}, err
	}
	first, err := r.Duty.designFlow(r)
	if err != nil {
		return need{}, err
	}
	u.Design = first
	n := need{row: r, has: r.pressureForValve(), total: max(r.Available, r.ValvePressure), against: r.closeAgainst()}
	n.reach(r.Duty)
	if !r.SecondDuty.IsZero() {
		second, err := r.SecondDuty.designFlow(r)
		if err != nil {
			return need{}, err
		}
		n.volatile = second.Liquid
		if u.OtherFlow, u.second = second.Flow, second.Flow > first.Flow; u.second {
			u.Design, u.OtherFlow, n.volatile = second, first.Flow, first.Liquid
		}
		n.reach(r.SecondDuty)
	}
	n.flow, n.density, n.liquid = u.Design.Flow, u.Design.Density, u.Design.Liquid
	if n.volatile.VapourPressure().Compare(n.liquid.VapourPressure()) < 0 {
		n.volatile = n.liquid
	}
	if n.aim = n.has; n.has <= 0 {
		n.aim = LeastAuthorityAimed * n.total
	}
	n.lightness = units.Flow(math.Sqrt(float64(valve.ReferenceDensity / n.density)))
	n.judgeRow(u)
	return n, nil
}

func (d Duty) designFlow(r *Row) (hydronics.DesignFlow, error) {
	return hydronics.Duty{Heat: d.Heat, Supply: d.Supply, Return: d.Return, Fluid: r.Fluid}.DesignFlow()
}

// reach widens the range of temperatures by those of a duty.
func (n *need) reach(d Duty) {
	for _, t := range []units.Temperature{d.Supply, d.Return} {
		if n.coldest.IsZero() || t.Compare(n.coldest) < 0 {
			n.coldest = t
		}
		if t.Compare(n.hottest) > 0 {
			n.hottest = t
		}
	}
}

// judgeRow finds what no choice of valve or actuator changes.
func (n *need) judgeRow(u *Unit) {
	r := n.row
	if margin := r.Fluid.FreezingMargin(n.coldest); margin < LeastFreezingMargin {
		n.rowFinds.add(FreezingMargin, differenceOf(margin), differenceOf(LeastFreezingMargin))
	}
	if math.Abs(float64(u.OtherFlow/u.Design.Flow-1)) > float64(n.tolerance()) && u.OtherFlow > 0 {
		n.rowFinds.add(ChangeOverFlows, flowOf(u.OtherFlow), flowOf(u.Design.Flow))
	}
	for _, d := range []Duty{r.Duty, r.SecondDuty} {
		if !d.IsZero() && d.doubtful() {
			n.rowFinds.add(DoubtfulDirection, textOf(d.Supply), textOf(d.Return))
		}
	}
	if n.has <= 0 {
		n.rowFinds.add(NothingLeft, pressureOf(r.BranchDrop), pressureOf(r.Available))
	}
	if r.Available > 0 && r.BranchDrop == 0 {
		n.rowFinds.add(NoBranchDrop, Value{}, Value{})
	}
	n.judgeBoiling()
}

// judgeBoiling compares the static pressure with the vapour pressure of the hottest
// liquid.
func (n *need) judgeBoiling() {
	inlet := n.row.StaticPressure
	if inlet.IsZero() {
		return
	}
	if vapour, err := fluid.SaturationPressure(n.hottest); err == nil && vapour.Compare(inlet) >= 0 {
		n.rowFinds.add(Boiling, textOf(inlet), textOf(vapour))
	}
}

// limitTolerance is the part of the demand that a limit may cut off unnoticed.
const limitTolerance = 0.01

func (n *need) tolerance() units.Ratio {
	if n.row.Tolerance > 0 {
		return n.row.Tolerance
	}
	return DefaultTolerance
}
