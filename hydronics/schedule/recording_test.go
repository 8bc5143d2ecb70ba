package schedule_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// The demonstration, worked out again by gen/plan.py from the same two files
// with its own laws and solver, has the same numbers. Which valve and actuator
// serve a unit is an input there.
func TestPlanOfTheDemonstrationAgreesWithTheRecording(t *testing.T) {
	c := reference.Compare(t, "plan")
	recorded := map[string][]reference.Row{}
	for row := range c.Rows() {
		recorded[row.Text("tag")] = append(recorded[row.Text("tag")], row)
	}
	rows, catalogue := demoFiles(t)
	plan, err := schedule.Select(rows, catalogue)
	require.NoError(t, err)
	for i := range plan.Units {
		unit := &plan.Units[i]
		want := recorded[unit.Row.Tag]
		delete(recorded, unit.Row.Tag)
		t.Run(unit.Row.Tag, func(t *testing.T) {
			require.Len(t, unit.Expected, len(want))
			if len(want) > 0 {
				checkChoice(t, c, unit, want[0])
			}
			for j, expected := range unit.Expected {
				checkExpectation(t, c, unit, expected, want[j])
			}
		})
	}
	assert.Empty(t, recorded, "recorded units that the plan lacks")
	c.Require(1e-9)
}

func checkChoice(t *testing.T, c *reference.Comparison, unit *schedule.Unit, want reference.Row) {
	t.Helper()
	require.Equal(t, want.Text("valve"), unit.Valve.Model.ID)
	require.Equal(t, want.Text("actuator"), unit.Actuator.Model.ID)
	assert.Equal(t, want.Text("action"), unit.Actuator.Config.Action.String())
	checkNear(c, want, "m_kg_s", unit.Design.MassFlow.In(units.KilogramPerSecond), 0)
	checkNear(c, want, "q_design_m3_s", unit.Design.Flow.In(units.CubicMetrePerSecond), 0)
	checkNear(c, want, "mark", unit.Valve.Mark, 0)

	has := want.Float("has_Pa")
	checkNear(c, want, "needs_Pa", unit.Valve.Needs.In(units.Pascal), 0)
	checkNear(c, want, "has_Pa", unit.Valve.Has.In(units.Pascal), 0)
	checkNear(c, want, "margin_Pa", unit.Valve.Margin.In(units.Pascal), has)
	checkNear(c, want, "throttle_Pa", unit.Valve.Throttle.In(units.Pascal), has)
	assert.Equal(t, want.Bool("authority_known"), unit.Valve.AuthorityKnown)
	checkNear(c, want, "authority_open", unit.Valve.Authority.Open, 0)
	checkNear(c, want, "authority_design", unit.Valve.Authority.Design, 0)
}

func checkExpectation(t *testing.T, c *reference.Comparison, unit *schedule.Unit, got schedule.Expectation, want reference.Row) {
	t.Helper()
	checkNear(c, want, "output", got.Output, 1)
	checkSignal(t, c, want, "signal", got.Signal)
	checkSignal(t, c, want, "feedback", got.Feedback)
	checkNear(c, want, "travel", got.Travel, 1)
	checkNear(c, want, "stem_mm", got.Stem.In(units.Millimetre), unit.Valve.Model.Stroke.In(units.Millimetre))
	checkNear(c, want, "turn_deg", got.Turn.In(units.Degree), unit.Valve.Model.Angle.In(units.Degree))
	checkNear(c, want, "q_m3_s", got.Flow.In(units.CubicMetrePerSecond), unit.Design.Flow.In(units.CubicMetrePerSecond))
}

func checkSignal(t *testing.T, c *reference.Comparison, want reference.Row, name string, got signal.Signal) {
	t.Helper()
	unit := map[signal.Kind]string{signal.KindNone: "none", signal.KindVoltage: "V", signal.KindCurrent: "mA"}[got.Kind()]
	assert.Equal(t, want.Text(name+"_unit"), unit, "%s of %s", name, want)
	checkNear(c, want, name+"_V_or_mA", got.Number(), 10)
}

// checkNear compares relatively, and with a hundredth of the full value where the
// number is smaller than that.
func checkNear(c *reference.Comparison, want reference.Row, column string, got, full float64) {
	const nearZero = 1e-2
	value := want.Float(column)
	if got == value {
		c.Note(want, column, 0, "")
		return
	}
	c.Note(want, column, (got-value)/max(math.Abs(value), nearZero*full), "")
}
