package schedule

import (
	"encoding/csv"
	"io"
	"strings"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/units"
)

// planColumns are the columns that every unit has; those of the expectations
// follow them.
var planColumns = []struct {
	name string
	cell func(u *Unit) string
}{
	{"tag", func(u *Unit) string { return u.Row.Tag }},
	{"serves", func(u *Unit) string { return u.Row.Serves }},
	{"circuit", func(u *Unit) string { return u.Row.Circuit }},
	{"fluid", func(u *Unit) string { return u.Row.Fluid.String() }},
	{"duty", func(u *Unit) string { return powerText(u.Row.Duty.Heat) }},
	{"supply", func(u *Unit) string { return u.Row.Duty.Supply.Fixed(units.CelsiusScale, 1) }},
	{"return", func(u *Unit) string { return u.Row.Duty.Return.Fixed(units.CelsiusScale, 1) }},
	{"design flow", func(u *Unit) string { return flowText(u.Design.Flow) }},
	{"second duty", secondCell(func(u *Unit) string { return powerText(u.Row.SecondDuty.Heat) })},
	{"second supply", secondCell(func(u *Unit) string { return u.Row.SecondDuty.Supply.Fixed(units.CelsiusScale, 1) })},
	{"second return", secondCell(func(u *Unit) string { return u.Row.SecondDuty.Return.Fixed(units.CelsiusScale, 1) })},
	{"other flow", secondCell(func(u *Unit) string { return flowText(u.OtherFlow) })},
	{"mass flow", func(u *Unit) string { return u.Design.MassFlow.Fixed(units.KilogramPerSecond, 4) }},
	{"valve", func(u *Unit) string { return blank(u.Valve.id()) }},
	{"setting", func(u *Unit) string { return blank(u.Valve.settingText()) }},
	{"needs", func(u *Unit) string { return blank(u.Valve.needsText()) }},
	{"has", func(u *Unit) string { return pressureText(u.Valve.Has) }},
	{"margin", func(u *Unit) string { return blank(u.Valve.marginText()) }},
	{"authority open", func(u *Unit) string { return u.Valve.authorityCell(u.Valve.Authority.Open) }},
	{"authority design", func(u *Unit) string { return u.Valve.authorityCell(u.Valve.Authority.Design) }},
	{"throttle", func(u *Unit) string { return blank(u.Valve.throttleText()) }},
	{"actuator", func(u *Unit) string { return blank(u.Actuator.id()) }},
	{"input range", actuatorCell(func(c *ActuatorChoice) string { return c.Config.Input.String() })},
	{"shunt", actuatorCell(func(c *ActuatorChoice) string { return shuntCell(c) })},
	{"action", actuatorCell(func(c *ActuatorChoice) string { return c.Config.Action.String() })},
	{"closing end", actuatorCell(func(c *ActuatorChoice) string { return c.Config.ClosingEnd.String() })},
	{"shaping", actuatorCell(func(c *ActuatorChoice) string { return c.Config.Shaping.String() })},
	{"stroke", actuatorCell(func(c *ActuatorChoice) string { return travelCell(&c.Config) })},
	{"stroke mode", actuatorCell(func(c *ActuatorChoice) string { return c.Config.StrokeMode.String() })},
	{"full stroke", actuatorCell(func(c *ActuatorChoice) string { return blank(timeText(c.FullTime)) })},
	{"feedback", actuatorCell(func(c *ActuatorChoice) string { return blank(c.feedbackText()) })},
	{"power loss", actuatorCell(func(c *ActuatorChoice) string { return c.Config.PowerLoss.String() })},
	{"open wire", actuatorCell(func(c *ActuatorChoice) string { return c.Config.OpenWire.String() })},
	{"below live zero", actuatorCell(func(c *ActuatorChoice) string { return blank(belowText(&c.Config)) })},
	{"closes against", actuatorCell(func(c *ActuatorChoice) string { return blank(pressureText(c.CloseOff)) })},
	{"warnings", warningsCell},
}

// secondCell is empty for a unit with one duty.
func secondCell(cell func(*Unit) string) func(*Unit) string {
	return func(u *Unit) string {
		if u.Row.SecondDuty.IsZero() {
			return ""
		}
		return cell(u)
	}
}

// actuatorCell is empty for a unit without an actuator.
func actuatorCell(cell func(*ActuatorChoice) string) func(*Unit) string {
	return func(u *Unit) string {
		if u.Actuator.Model == nil {
			return ""
		}
		return cell(&u.Actuator)
	}
}

// blank turns the dash of the text form into an empty cell.
func blank(text string) string {
	if text == none {
		return ""
	}
	return text
}

func (c *ValveChoice) authorityCell(n float64) string {
	if !c.AuthorityKnown {
		return ""
	}
	return twoDecimals(n)
}

func shuntCell(c *ActuatorChoice) string {
	if c.Shunt == 0 {
		return ""
	}
	return c.Shunt.String()
}

func travelCell(c *actuator.Config) string {
	if c.Angle > 0 {
		return c.Angle.Fixed(units.Degree, 0)
	}
	return c.Stroke.Fixed(units.Millimetre, 1)
}

func warningsCell(u *Unit) string {
	texts := make([]string, len(u.Warnings))
	for i, f := range u.Warnings {
		texts[i] = f.Kind.String() + ": " + f.What()
	}
	return strings.Join(texts, "; ")
}

// WriteCSV writes one line a unit, with the units of measure in the cells, and
// four columns for each of the five expectations. Of two duties the design flow is
// that which is larger, the other flow the lesser.
func (p *Plan) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	header := make([]string, 0, len(planColumns)+4*len(expectedAt))
	for _, c := range planColumns {
		header = append(header, c.name)
	}
	for _, x := range expectedAt {
		for _, what := range []string{"signal", "feedback", "stem", "flow"} {
			header = append(header, what+" at "+percent(x))
		}
	}
	if err := out.Write(header); err != nil {
		return err
	}
	for i := range p.Units {
		if err := out.Write(p.Units[i].cells()); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func (u *Unit) cells() []string {
	cells := make([]string, 0, len(planColumns)+4*len(expectedAt))
	for _, c := range planColumns {
		cells = append(cells, c.cell(u))
	}
	for i := range expectedAt {
		if i >= len(u.Expected) {
			cells = append(cells, "", "", "", "")
			continue
		}
		e := &u.Expected[i]
		cells = append(cells, signalText(e.Signal), blank(signalText(e.Feedback)), positionText(e, u.rotary()), blank(e.ifMoves(flowText(e.Flow))))
	}
	return cells
}
