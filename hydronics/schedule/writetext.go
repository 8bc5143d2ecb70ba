package schedule

import (
	"fmt"
	"io"
	"strings"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/internal/texttable"
	"github.com/indexrun/indexrun/units"
)

// Cautions are printed at the foot of every setting sheet.
const Cautions = `This sheet is computed from the data it was given; it does not replace the design, the maker's
instructions or the judgement of licensed people, all of which, with the local codes, come first.
Before work: isolate mains and 24 V supplies, let hot pressurised water cool and relieve it, keep
fingers away from moving stems. Never power an actuator that is not mounted on its valve.
`

// WriteText writes the setting sheet for people: flows and valves, actuator
// settings, what to expect at five outputs, totals, warnings and cautions.
func (p *Plan) WriteText(w io.Writer) error {
	t := &textWriter{w: w}
	t.printf("SETTING SHEET: %s\n", countText(len(p.Units), "unit"))
	if p.Note != "" {
		t.printf("Catalogue: %s\n", p.Note)
	}
	t.section("Flows and valves", p.valveTable())
	t.printf("Needs: least pressure over the valve at its setting, or drop of the open two-way valve. Has: what the branch leaves for it.\n")
	t.printf("Authority of two-way valves: unbalanced / balanced to the design flow. Throttle: what a balancing valve takes.\n")
	t.section("Actuator settings", p.actuatorTable())
	t.section("Why", p.reasonTable())
	t.section("Expected at the controller's output", p.expectedTable())
	t.printf("Stem: length out of the retracted end, or turn clockwise; \"holds\": no valid signal, it stays where it is. Flow: at the pressure of the design.\n")
	t.section("Circuits", p.circuitTable())
	if index, need := p.Index(); index != nil {
		t.printf("Most pressure is needed by %s: %s over its branch.\n", index.Row.Tag, pressureText(need))
	}
	p.writeWarnings(t)
	p.writeGaps(t)
	t.printf("\nCautions\n%s", Cautions)
	return t.err
}

// textWriter keeps the first error.
type textWriter struct {
	w   io.Writer
	err error
}

func (t *textWriter) printf(format string, args ...any) {
	if t.err == nil {
		_, t.err = fmt.Fprintf(t.w, format, args...)
	}
}

func (t *textWriter) section(title string, table *texttable.Table) {
	t.printf("\n%s\n", title)
	if t.err == nil {
		_, t.err = table.WriteTo(t.w)
	}
}

func (p *Plan) valveTable() *texttable.Table {
	table := texttable.New("Unit", "Serves", ">Duty", ">Supply", ">Return", ">Flow", "Valve", ">Setting", ">Needs", ">Has", ">Margin", ">Authority", ">Throttle")
	for i := range p.Units {
		u := &p.Units[i]
		first, second := u.Flows()
		table.Row(append(append([]string{u.Row.Tag, orNone(u.Row.Serves)}, u.Row.Duty.cells(first)...), u.Valve.id(), u.Valve.settingText(),
			u.Valve.needsText(), pressureText(u.Valve.Has), u.Valve.marginText(), u.Valve.authorityText(), u.Valve.throttleText())...)
		if second > 0 {
			table.Row(append([]string{"", "second duty"}, u.Row.SecondDuty.cells(second)...)...)
		}
	}
	return table
}

// cells are heat, temperatures and flow.
func (d Duty) cells(flow units.Flow) []string {
	return []string{powerText(d.Heat), d.Supply.Fixed(units.CelsiusScale, 1), d.Return.Fixed(units.CelsiusScale, 1), flowText(flow)}
}

func (c *ValveChoice) needsText() string { return c.ifChosen(pressureText(c.Needs)) }

func (c *ValveChoice) marginText() string { return c.ifChosen(pressureText(c.Margin)) }

func (c *ValveChoice) ifChosen(text string) string {
	if c.Model == nil {
		return none
	}
	return text
}

func (c *ValveChoice) throttleText() string {
	if c.Throttle == 0 {
		return none
	}
	return pressureText(c.Throttle)
}

func (p *Plan) actuatorTable() *texttable.Table {
	table := texttable.New("Unit", "Actuator", "Input", "Action", "Closes", "Shaping", ">Stroke", ">Full stroke", "Feedback", "Power loss", "Open wire", "Below live zero", ">Closes against")
	for i := range p.Units {
		u := &p.Units[i]
		if u.Actuator.Model == nil {
			table.Row(u.Row.Tag, none)
			continue
		}
		c := &u.Actuator.Config
		table.Row(u.Row.Tag, u.Actuator.id(), u.Actuator.inputText(), c.Action.String(), c.ClosingEnd.String(), c.Shaping.String(),
			travelText(c), timeText(u.Actuator.FullTime), u.Actuator.feedbackText(), c.PowerLoss.String(), c.OpenWire.String(), belowText(c), pressureText(u.Actuator.CloseOff))
	}
	return table
}

// belowText is a setting of ranges with a live zero only.
func belowText(c *actuator.Config) string {
	if !c.Input.LiveZero() {
		return none
	}
	return c.BelowLiveZero.String()
}

func (c *ActuatorChoice) inputText() string {
	if c.Shunt > 0 {
		return c.Config.Input.String() + " over " + c.Shunt.String()
	}
	return c.Config.Input.String()
}

func (c *ActuatorChoice) feedbackText() string {
	if c.Config.Feedback.IsZero() {
		return none
	}
	if c.Config.FeedbackSense == actuator.FeedbackAsSignal {
		return c.Config.Feedback.String()
	}
	return c.Config.Feedback.String() + " " + c.Config.FeedbackSense.String()
}

func (p *Plan) reasonTable() *texttable.Table {
	table := texttable.New("Unit", "Choice")
	for i := range p.Units {
		u := &p.Units[i]
		if u.Valve.Model == nil {
			continue
		}
		table.Row(u.Row.Tag, "Valve "+u.Valve.id()+": "+u.Valve.Reason.String()+".")
		if u.Actuator.Model != nil {
			table.Row("", "Actuator "+u.Actuator.id()+": "+u.Actuator.Reason.String()+".")
		}
		if len(u.Valve.RunnersUp) > 0 {
			table.Row("", "Not taken: "+runnersUpText(u.Valve.RunnersUp)+".")
		}
	}
	return table
}

// runnersUpText names each valve that was not taken with what set it behind.
func runnersUpText(list []RunnerUp) string {
	parts := make([]string, len(list))
	for i, r := range list {
		parts[i] = r.Model.ID + " (" + r.Findings[0].What() + ")"
	}
	return strings.Join(parts, "; ")
}

func (p *Plan) expectedTable() *texttable.Table {
	table := texttable.New("Unit", ">Output", ">Signal", ">Feedback", ">Stem", ">Flow", ">Of design")
	for i := range p.Units {
		u := &p.Units[i]
		for j := range u.Expected {
			e := &u.Expected[j]
			tag := ""
			if j == 0 {
				tag = u.Row.Tag
			}
			table.Row(tag, percent(e.Output), signalText(e.Signal), signalText(e.Feedback),
				positionText(e, u.rotary()), e.ifMoves(flowText(e.Flow)), e.ifMoves(percent(float64(e.Flow/u.Design.Flow))))
		}
	}
	return table
}

// ifMoves gives way to a dash where the signal does not tell the position.
func (e *Expectation) ifMoves(text string) string {
	if e.Held {
		return none
	}
	return text
}

func (p *Plan) circuitTable() *texttable.Table {
	table := texttable.New("Circuit", ">Units", ">Heating", ">Cooling", ">Flow", "Index unit", ">Needs over its branch")
	for _, c := range p.Circuits {
		table.Row(orNone(c.Name), fmt.Sprint(c.Units), powerText(c.Heating), powerText(c.Cooling), c.Flow.Fixed(units.LitrePerSecond, 3), c.Index, pressureText(c.Pressure))
	}
	return table
}

func (p *Plan) writeWarnings(t *textWriter) {
	t.printf("\nWarnings\n")
	count := 0
	for i := range p.Units {
		for _, f := range p.Units[i].Warnings {
			count++
			t.printf("%s: %s.\n    What to do: %s.\n", p.Units[i].Row.Tag, f.What(), f.Advice())
		}
	}
	if count == 0 {
		t.printf("None.\n")
	}
}

// gapTags bounds how many units are named for each gap.
const gapTags = 8

func (p *Plan) writeGaps(t *textWriter) {
	var tags [lastGap + 1][]string
	for i := range p.Units {
		for _, g := range p.Units[i].Gaps() {
			tags[g] = append(tags[g], p.Units[i].Row.Tag)
		}
	}
	title := "\nNot looked into\n"
	for g, list := range tags {
		if len(list) == 0 {
			continue
		}
		named := strings.Join(list[:min(len(list), gapTags)], ", ")
		if more := len(list) - gapTags; more > 0 {
			named += fmt.Sprintf(" and %d more", more)
		}
		t.printf("%s%s: %s.\n", title, named, Gap(g).What())
		title = ""
	}
}
