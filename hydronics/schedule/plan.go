package schedule

import (
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// A Plan is what [Select] found for a schedule: the setting sheet. Write it with
// [Plan.WriteText], [Plan.WriteCSV] or [Plan.WriteJSON].
type Plan struct {
	Note     string    // of the catalogue
	Units    []Unit    // in the order of the schedule
	Circuits []Circuit // totals, in the order in which the circuits first appear
}

// A Unit is the plan for one terminal unit.
type Unit struct {
	Row    Row
	Design hydronics.DesignFlow // of the duty that needs the larger flow
	// OtherFlow is the flow of the other duty of a change-over unit, 0 if there
	// is one duty only.
	OtherFlow units.Flow
	second    bool // the second duty needs the larger flow

	Valve    ValveChoice
	Actuator ActuatorChoice
	Expected []Expectation // at 0, 25, 50, 75 and 100 %; empty without a working pair
	Warnings []Finding
}

// A ValveChoice is the valve for a unit and how it is set. Model is nil if the
// catalogue has none of the kind.
type ValveChoice struct {
	Model *ValveModel

	Mark    float64               // setting of a pressure-independent valve
	SetFlow units.Flow            // flow of that setting with the unit's liquid
	Kvs     units.FlowCoefficient // of a two-way valve

	Needs  units.Pressure // least pressure over the valve at the setting, or drop of the open valve at design flow
	Has    units.Pressure // pressure left for the valve at design flow
	Margin units.Pressure // Has − Needs

	// Authority of a two-way valve whose branch is known and has pressure enough;
	// AuthorityKnown tells whether it is. Open is that of the branch as given, without Throttle; Design
	// is Needs over the pressure available, that of the branch balanced by it.
	Authority      valve.Authority
	AuthorityKnown bool
	// Throttle is what a balancing valve must take at design flow in the branch
	// of a two-way valve: Margin, or 0 if that is negative.
	Throttle units.Pressure

	Reason    Reason
	RunnersUp []RunnerUp
}

// A RunnerUp is a valve that was not chosen, and the findings that it would
// have brought; the first is the one that set it behind.
type RunnerUp struct {
	Model    *ValveModel
	Findings []Finding
}

// An ActuatorChoice is the actuator for a unit and what it must be set to.
// Model is nil if none fits.
type ActuatorChoice struct {
	Model  *ActuatorModel
	Config actuator.Config
	// Shunt is a resistor to fit across the input, 0 if none is needed.
	Shunt    units.Resistance
	CloseOff units.Pressure // what the pair closes against; infinite if not known
	FullTime time.Duration  // for the valve's whole stroke, or as much as the setting leaves; 0 if not known
	Reason   Reason
}

// An Expectation is what should be seen at one controller output.
type Expectation struct {
	Output   float64       // share of the controller's output, 0 … 1, between its limits
	Signal   signal.Signal // that the controller sends
	Feedback signal.Signal // that the actuator returns; no signal without feedback
	// Held tells that the actuator sees no valid signal and stays where it is: what
	// follows is then not known, and zero.
	Held   bool
	Travel float64      // relative travel of the valve
	Stem   units.Length // how far the stem is out of its retracted end
	Turn   units.Angle  // how far a rotary valve is turned clockwise
	// Flow with the pressure available constant over the whole branch, whose other
	// parts, Throttle included, are a resistance that takes their drop at design
	// flow. Where only the pressure over the valve is known, it stands over valve
	// and Throttle. The Reynolds factor of the coefficient is that of design flow.
	Flow units.Flow
}

// A Circuit is the sum of the units that share one.
type Circuit struct {
	Name     string
	Units    int
	Heating  units.Power
	Cooling  units.Power
	Flow     units.Flow
	Index    string         // tag of the unit that needs the most pressure
	Pressure units.Pressure // that it needs over its branch: other losses and valve
}

// Index returns the unit of the whole schedule that needs the most pressure over
// its branch, and that pressure; nil for an empty plan.
func (p *Plan) Index() (*Unit, units.Pressure) {
	var index *Unit
	var most units.Pressure
	for i := range p.Units {
		if need := p.Units[i].BranchNeeds(); index == nil || need > most {
			index, most = &p.Units[i], need
		}
	}
	return index, most
}

// Flows returns the flow of each duty; that of the second is 0 if there is one duty
// only.
func (u *Unit) Flows() (first, second units.Flow) {
	if u.second {
		return u.OtherFlow, u.Design.Flow
	}
	return u.Design.Flow, u.OtherFlow
}

// BranchNeeds returns the pressure that the unit needs over its branch at design
// flow: what the valve needs and what the other parts take.
func (u *Unit) BranchNeeds() units.Pressure { return u.Valve.Needs + u.Row.BranchDrop }

// rotary reports whether the unit's valve turns.
func (u *Unit) rotary() bool { return u.Valve.Model != nil && u.Valve.Model.Stem == valve.Rotary }

// circuits sums the units up.
func circuits(list []Unit) []Circuit {
	var sums []Circuit
	place := map[string]int{}
	for i := range list {
		u := &list[i]
		at, known := place[u.Row.Circuit]
		if !known {
			at = len(sums)
			place[u.Row.Circuit] = at
			sums = append(sums, Circuit{Name: u.Row.Circuit})
		}
		sums[at].add(u)
	}
	return sums
}

func (c *Circuit) add(u *Unit) {
	c.Units++
	for _, d := range []Duty{u.Row.Duty, u.Row.SecondDuty} {
		if d.Cooling() {
			c.Cooling += d.Heat
		} else {
			c.Heating += d.Heat
		}
	}
	c.Flow += u.Design.Flow
	if need := u.BranchNeeds(); c.Index == "" || need > c.Pressure {
		c.Index, c.Pressure = u.Row.Tag, need
	}
}
