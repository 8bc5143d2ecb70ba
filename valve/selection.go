package valve

import (
	"cmp"
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Duty is what a control valve is wanted for.
type Duty struct {
	// Branch is the design flow and the circuit. If Available is 0, a two-way
	// valve is sized for the wanted authority and a pressure-independent one
	// for the flow alone.
	Branch
	// Authority is the least wanted of a two-way valve, of both kinds, below 1;
	// 0 if none is wanted. Usual is 0.3 … 0.5 (common practice, no published
	// source).
	Authority float64
	// Shut is the greatest pressure difference that may stand over the shut
	// valve, such as the pump's at no flow; 0 is Available. It must not exceed
	// the valve's MaxPressure.
	Shut units.Pressure
	// Density is that of the liquid at the valve; 0 leaves the candidates
	// theirs.
	Density units.Density
}

// Candidate is a valve of a catalogue, a [TwoWay] or a [PressureIndependent] at
// any setting.
type Candidate struct {
	Name  string
	Valve Valve
}

// Selection is the outcome of [Select].
type Selection struct {
	// Valve is the best candidate's, set to the design flow and with the liquid
	// of the duty; nil if the flow is outside its settings.
	Valve Valve
	// Best is the verdict on it. It suits the duty if Best.Problem is
	// NoProblem; if no candidate suits, it is the one that misses by least.
	Best Verdict
	// RunnersUp are the verdicts on the next candidates, best first.
	RunnersUp []Verdict
}

// Select judges candidates for a duty and returns the best, and as many
// runners-up as asked for.
//
// The best is the smallest that suits: the two-way valve of the least Kvs whose
// drop at the design flow fits the pressure left to it (that gives the highest
// authority), or the pressure-independent valve of the least highest setting
// that reaches the flow and whose least pressure fits. If Available is 0, it is
// the two-way valve of the greatest Kvs that has the wanted authority, since
// the rest of the pressure has to be pumped. Equal ones stay in the order of
// the list. If none suits, it is the one with the most bearable [Problem]
// (common practice, no published source).
func Select(duty Duty, candidates []Candidate, runnersUp int) (Selection, error) {
	if err := duty.check(candidates); err != nil {
		return Selection{}, err
	}
	keep := min(max(runnersUp, 0)+1, len(candidates))
	ranked := make([]Verdict, 0, keep)
	for i, c := range candidates {
		verdict := duty.judge(i, c)
		ranked = rank(ranked, &verdict, keep)
	}
	best := candidates[ranked[0].Index].Valve
	return Selection{Valve: duty.set(best), Best: ranked[0], RunnersUp: ranked[1:]}, nil
}

// rank puts v in its place among the best verdicts so far.
func rank(ranked []Verdict, v *Verdict, keep int) []Verdict {
	if len(ranked) == keep {
		if !v.before(&ranked[keep-1]) {
			return ranked
		}
		ranked = ranked[:keep-1]
	}
	ranked = append(ranked, *v)
	for i := len(ranked) - 1; i > 0 && ranked[i].before(&ranked[i-1]); i-- {
		ranked[i], ranked[i-1] = ranked[i-1], ranked[i]
	}
	return ranked
}

func (d *Duty) check(candidates []Candidate) error {
	l := check.List{Package: packageName}
	l.Add(d.Branch.check())
	l.Require(d.Authority >= 0 && d.Authority < 1, "Duty.Authority", d.Authority, "0 or more and less than 1")
	check.NotNegative(&l, "Duty.Shut", d.Shut)
	l.Add(checkedDensity(d.Density))
	l.Require(len(candidates) > 0, "candidates", "none", "one candidate or more")
	for i, c := range candidates {
		if want := d.refusal(c.Valve); want != "" {
			l.Fault(fmt.Sprintf("candidates[%d].Valve", i), fmt.Sprintf("%T", c.Valve), want)
		}
	}
	return l.Err()
}

// refusal says what is wrong with a candidate, empty if nothing is.
func (d *Duty) refusal(valve Valve) string {
	made, two := false, false
	switch v := valve.(type) {
	case TwoWay:
		made, two = v.model != nil, true
	case PressureIndependent:
		made = v.model != nil
	}
	switch {
	case !made:
		return "a TwoWay or a PressureIndependent, made by its constructor"
	case two && d.Available == 0 && (d.Drop == 0 || d.Authority == 0):
		return "Duty.Available, or else both Drop and Authority, to size a two-way valve by"
	}
	return ""
}

func (d *Duty) judge(i int, c Candidate) Verdict {
	v := Verdict{Index: i, Name: c.Name}
	switch valve := c.Valve.(type) {
	case TwoWay:
		d.judgeTwoWay(&v, valve)
	case PressureIndependent:
		d.judgePressureIndependent(&v, valve)
	}
	if shut := cmp.Or(d.Shut, d.Available); v.Problem < RatingExceeded && c.Valve.MaxPressure() > 0 && shut > c.Valve.MaxPressure() {
		v.Problem, v.miss = RatingExceeded, float64(shut/c.Valve.MaxPressure())
	}
	return v
}

func (d *Duty) judgeTwoWay(v *Verdict, valve TwoWay) {
	v.Pressure = valve.Pressure(1, d.Flow)
	if d.Density > 0 {
		v.Pressure *= units.Pressure(d.Density / valve.Density())
	}
	v.Authority = authority(v.Pressure, d.Branch)
	low := min(v.Authority.Open, v.Authority.Design)
	if left := d.Available - d.Drop; left > 0 {
		v.Surplus = math.Sqrt(float64(left / v.Pressure))
	}
	if !d.fits(v) {
		return
	}
	switch {
	case low < d.Authority:
		v.Problem, v.miss = AuthorityTooLow, d.Authority-low
	case d.Available > 0:
		v.miss = v.Surplus
	default:
		v.miss = low / d.Authority
	}
}

func (d *Duty) judgePressureIndependent(v *Verdict, valve PressureIndependent) {
	m := valve.get()
	row, ok := m.rowFor(d.Flow, cmp.Or(d.Density, m.density))
	least, greatest := m.flowRange(cmp.Or(d.Density, m.density))
	switch {
	case !ok && d.Flow < least:
		v.Surplus = float64(least / d.Flow)
		v.Problem, v.miss = FlowBelowSettings, v.Surplus
	case !ok:
		v.Surplus = float64(greatest / d.Flow)
		v.Problem, v.miss = FlowAboveSettings, -v.Surplus
	default:
		v.Mark, v.Pressure, v.Surplus = row.Mark, row.MinPressure, float64(greatest/d.Flow)
		if d.fits(v) {
			v.miss = v.Surplus
		}
	}
}

// fits puts down the margin of pressure and reports whether it is there.
func (d *Duty) fits(v *Verdict) bool {
	if d.Available == 0 {
		return true
	}
	v.Margin = d.Available - d.Drop - v.Pressure
	if v.Margin < -units.Pressure(rounding)*d.Available {
		v.Problem, v.miss = PressureTooLow, -float64(v.Margin)
		return false
	}
	return true
}

// set returns a valve with the liquid of the duty, at its flow.
func (d *Duty) set(valve Valve) Valve {
	switch v := valve.(type) {
	case TwoWay:
		if d.Density == 0 {
			return v
		}
		v, _ = v.WithDensity(d.Density) // the density was checked
		return v
	case PressureIndependent:
		m := v.get()
		if row, ok := m.rowFor(d.Flow, cmp.Or(d.Density, m.density)); ok {
			return m.sheet.at(row, cmp.Or(d.Density, m.density))
		}
	}
	return nil
}
