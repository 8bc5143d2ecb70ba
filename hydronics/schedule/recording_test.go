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
	recorded := map[string][]reference.Row{}
	for row := range reference.Must(t, "plan").Rows() {
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
				assertSameChoice(t, unit, want[0])
			}
			for j, expected := range unit.Expected {
				assertSameExpectation(t, unit, expected, want[j])
			}
		})
	}
	assert.Empty(t, recorded, "recorded units that the plan lacks")
}

func assertSameChoice(t *testing.T, unit *schedule.Unit, want reference.Row) {
	t.Helper()
	require.Equal(t, want.Text("valve"), unit.Valve.Model.ID)
	require.Equal(t, want.Text("actuator"), unit.Actuator.Model.ID)
	assert.Equal(t, want.Text("action"), unit.Actuator.Config.Action.String())
	assertNear(t, want, "m_kg_s", unit.Design.MassFlow.In(units.KilogramPerSecond), 0)
	assertNear(t, want, "q_design_m3_s", unit.Design.Flow.In(units.CubicMetrePerSecond), 0)
	assertNear(t, want, "mark", unit.Valve.Mark, 0)

	has := want.Float("has_Pa")
	assertNear(t, want, "needs_Pa", unit.Valve.Needs.In(units.Pascal), 0)
	assertNear(t, want, "has_Pa", unit.Valve.Has.In(units.Pascal), 0)
	assertNear(t, want, "margin_Pa", unit.Valve.Margin.In(units.Pascal), has)
	assertNear(t, want, "throttle_Pa", unit.Valve.Throttle.In(units.Pascal), has)
	assert.Equal(t, want.Bool("authority_known"), unit.Valve.AuthorityKnown)
	assertNear(t, want, "authority_open", unit.Valve.Authority.Open, 0)
	assertNear(t, want, "authority_design", unit.Valve.Authority.Design, 0)
}

func assertSameExpectation(t *testing.T, unit *schedule.Unit, got schedule.Expectation, want reference.Row) {
	t.Helper()
	assertNear(t, want, "output", got.Output, 1)
	assertSameSignal(t, want, "signal", got.Signal)
	assertSameSignal(t, want, "feedback", got.Feedback)
	assertNear(t, want, "travel", got.Travel, 1)
	assertNear(t, want, "stem_mm", got.Stem.In(units.Millimetre), unit.Valve.Model.Stroke.In(units.Millimetre))
	assertNear(t, want, "turn_deg", got.Turn.In(units.Degree), unit.Valve.Model.Angle.In(units.Degree))
	assertNear(t, want, "q_m3_s", got.Flow.In(units.CubicMetrePerSecond), unit.Design.Flow.In(units.CubicMetrePerSecond))
}

func assertSameSignal(t *testing.T, want reference.Row, name string, got signal.Signal) {
	t.Helper()
	unit := map[signal.Kind]string{signal.KindNone: "none", signal.KindVoltage: "V", signal.KindCurrent: "mA"}[got.Kind()]
	assert.Equal(t, want.Text(name+"_unit"), unit, "%s of %s", name, want)
	assertNear(t, want, name+"_V_or_mA", got.Number(), 10)
}

// assertNear wants a difference of at most 1e-9 of the recorded number, or of a
// hundredth of the full value where the number is smaller than that.
func assertNear(t *testing.T, want reference.Row, column string, got, full float64) {
	t.Helper()
	const within, nearZero = 1e-9, 1e-2
	value := want.Float(column)
	assert.InDelta(t, value, got, within*max(math.Abs(value), nearZero*full), "%s of %s", column, want)
}
