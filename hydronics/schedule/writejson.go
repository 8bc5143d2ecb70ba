package schedule

import (
	"encoding/json"
	"io"
	"math"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// The views are the JSON form of a plan: quantities are strings in SI without
// loss, words are those of the text forms.

type planView struct {
	Note     string        `json:"catalogue-note,omitempty"`
	Units    []unitView    `json:"units"`
	Circuits []circuitView `json:"circuits"`
	Index    string        `json:"index-unit,omitempty"`
	Cautions string        `json:"cautions"`
}

type unitView struct {
	Row
	DesignFlow units.Flow        `json:"design-flow"`
	MassFlow   units.MassFlow    `json:"mass-flow"`
	Density    units.Density     `json:"density"`
	OtherFlow  units.Flow        `json:"other-flow,omitzero"`
	Valve      *valveView        `json:"valve"`
	Actuator   *actuatorView     `json:"actuator"`
	Expected   []expectationView `json:"expected"`
	Warnings   []Finding         `json:"warnings"`
	Gaps       []Gap             `json:"not-checked,omitempty"`
}

type valveView struct {
	ID        string                `json:"id"`
	Body      string                `json:"body,omitempty"`
	Mark      float64               `json:"mark,omitzero"`
	SetFlow   units.Flow            `json:"set-flow"`
	Kvs       units.FlowCoefficient `json:"kvs,omitzero"`
	Needs     units.Pressure        `json:"needs"`
	Has       units.Pressure        `json:"has"`
	Margin    units.Pressure        `json:"margin"`
	Authority *authorityView        `json:"authority,omitempty"`
	Throttle  units.Pressure        `json:"throttle,omitzero"`
	Why       Reason                `json:"why"`
	RunnersUp []runnerUpView        `json:"runners-up"`
}

type authorityView struct {
	Open   float64 `json:"open"`
	Design float64 `json:"design"`
}

type runnerUpView struct {
	ID       string    `json:"id"`
	Findings []Finding `json:"findings"`
}

type actuatorView struct {
	ID       string           `json:"id"`
	Body     string           `json:"body,omitempty"`
	Settings actuator.Config  `json:"settings"`
	Shunt    units.Resistance `json:"shunt,omitzero"`
	CloseOff *units.Pressure  `json:"closes-against,omitempty"`
	FullTime string           `json:"full-stroke,omitempty"`
	Why      Reason           `json:"why"`
}

type expectationView struct {
	Output   float64       `json:"output"`
	Signal   signal.Signal `json:"signal"`
	Feedback signal.Signal `json:"feedback,omitzero"`
	Held     bool          `json:"held,omitzero"`
	Travel   *float64      `json:"relative-travel,omitempty"` // this and what follows: not if held
	Stem     *units.Length `json:"stem,omitempty"`            // not of a rotary valve
	Turn     *units.Angle  `json:"turn,omitempty"`            // of a rotary valve
	Flow     *units.Flow   `json:"flow,omitempty"`
}

type circuitView struct {
	Name     string         `json:"name"`
	Units    int            `json:"units"`
	Heating  units.Power    `json:"heating"`
	Cooling  units.Power    `json:"cooling"`
	Flow     units.Flow     `json:"flow"`
	Index    string         `json:"index-unit"`
	Pressure units.Pressure `json:"needs"`
}

// WriteJSON writes the whole plan, indented, with quantities as strings in SI
// that lose nothing: the Parse functions and UnmarshalText of package units read
// them. The members are
//
//	catalogue-note, cautions, index-unit
//	units[]: those of the row (tag, serves, circuit, fluid, duty, second-duty, …),
//	  design-flow, mass-flow, density, other-flow,
//	  valve: id, body, mark, set-flow, kvs, needs, has, margin,
//	    authority: open, design; throttle, why, runners-up[]: id, findings[]
//	  actuator: id, body, settings (an [actuator.Config], to be decoded as such),
//	    shunt, closes-against, full-stroke, why
//	  expected[]: output, signal, feedback, and relative-travel, stem or turn, flow,
//	    or held where the actuator stays where it is
//	  warnings[]: kind, what, advice; not-checked[]: each a [Gap]
//	circuits[]: name, units, heating, cooling, flow, index-unit, needs
//
// valve and actuator are null where there is none.
func (p *Plan) WriteJSON(w io.Writer) error {
	out := json.NewEncoder(w)
	out.SetIndent("", "  ")
	out.SetEscapeHTML(false)
	return out.Encode(p.view())
}

// MarshalJSON writes what [Plan.WriteJSON] writes, without indentation.
func (p Plan) MarshalJSON() ([]byte, error) { return json.Marshal(p.view()) }

func (p *Plan) view() planView {
	view := planView{Note: p.Note, Cautions: Cautions, Units: make([]unitView, len(p.Units))}
	for i := range p.Units {
		view.Units[i] = p.Units[i].view()
	}
	for _, c := range p.Circuits {
		view.Circuits = append(view.Circuits, circuitView(c))
	}
	if index, _ := p.Index(); index != nil {
		view.Index = index.Row.Tag
	}
	return view
}

func (u *Unit) view() unitView {
	v := unitView{
		Row: u.Row, DesignFlow: u.Design.Flow, MassFlow: u.Design.MassFlow, Density: u.Design.Density, OtherFlow: u.OtherFlow,
		Valve: u.Valve.view(), Actuator: u.Actuator.view(), Expected: []expectationView{}, Warnings: u.Warnings, Gaps: u.Gaps(),
	}
	for i := range u.Expected {
		v.Expected = append(v.Expected, u.Expected[i].view(u.rotary()))
	}
	if v.Warnings == nil {
		v.Warnings = []Finding{}
	}
	return v
}

func (e *Expectation) view(rotary bool) expectationView {
	v := expectationView{Output: e.Output, Signal: e.Signal, Feedback: e.Feedback, Held: e.Held}
	if e.Held {
		return v
	}
	v.Travel, v.Flow = &e.Travel, &e.Flow
	if rotary {
		v.Turn = &e.Turn
	} else {
		v.Stem = &e.Stem
	}
	return v
}

func (c *ValveChoice) view() *valveView {
	if c.Model == nil {
		return nil
	}
	v := &valveView{
		ID: c.Model.ID, Body: c.Model.Body, Mark: c.Mark, SetFlow: c.SetFlow, Kvs: c.Kvs, Needs: c.Needs, Has: c.Has, Margin: c.Margin,
		Throttle: c.Throttle, Why: c.Reason, RunnersUp: []runnerUpView{},
	}
	if c.AuthorityKnown {
		v.Authority = &authorityView{c.Authority.Open, c.Authority.Design}
	}
	for _, r := range c.RunnersUp {
		v.RunnersUp = append(v.RunnersUp, runnerUpView{r.Model.ID, r.Findings})
	}
	return v
}

func (c *ActuatorChoice) view() *actuatorView {
	if c.Model == nil {
		return nil
	}
	v := &actuatorView{ID: c.Model.ID, Body: c.Model.Body, Settings: c.Config, Shunt: c.Shunt, Why: c.Reason}
	if !math.IsInf(float64(c.CloseOff), 0) {
		v.CloseOff = &c.CloseOff
	}
	if c.FullTime > 0 {
		v.FullTime = c.FullTime.String()
	}
	return v
}
