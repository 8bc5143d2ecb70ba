package schedule_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/units"
)

// Each figure that is taken away from a unit of which everything is known leaves a gap.
func TestGaps(t *testing.T) {
	for name, tt := range map[string]struct {
		change func(*schedule.Row, *schedule.ValveModel, *schedule.ActuatorModel)
		want   []schedule.Gap
	}{
		"everything is known": {func(*schedule.Row, *schedule.ValveModel, *schedule.ActuatorModel) {}, nil},
		"static pressure": {func(r *schedule.Row, _ *schedule.ValveModel, _ *schedule.ActuatorModel) {
			r.StaticPressure = units.AbsolutePressure{}
		},
			[]schedule.Gap{schedule.NoStaticPressure}},
		"connection":    {func(_ *schedule.Row, v *schedule.ValveModel, _ *schedule.ActuatorModel) { v.Connection = 0 }, []schedule.Gap{schedule.NoConnection}},
		"seat":          {func(_ *schedule.Row, v *schedule.ValveModel, _ *schedule.ActuatorModel) { v.SeatArea = 0 }, []schedule.Gap{schedule.NoForces}},
		"force":         {func(_ *schedule.Row, _ *schedule.ValveModel, a *schedule.ActuatorModel) { a.Force = 0 }, []schedule.Gap{schedule.NoForces}},
		"shut-off head": {func(r *schedule.Row, _ *schedule.ValveModel, _ *schedule.ActuatorModel) { r.ShutOffHead = 0 }, []schedule.Gap{schedule.NoShutOffHead}},
		"rating":        {func(_ *schedule.Row, v *schedule.ValveModel, _ *schedule.ActuatorModel) { v.Rating = 0 }, []schedule.Gap{schedule.NoLimits}},
		"hottest": {func(_ *schedule.Row, v *schedule.ValveModel, _ *schedule.ActuatorModel) {
			v.Hottest = units.Temperature{}
		},
			[]schedule.Gap{schedule.NoLimits}},
		"branch of a two-way valve": {func(r *schedule.Row, v *schedule.ValveModel, _ *schedule.ActuatorModel) {
			r.Available, r.BranchDrop, r.ValvePressure = 0, 0, 35*units.Kilopascal
			v.Kind, v.Settings, v.Kvs, v.ProportionalBand = schedule.TwoWay, nil, 0.63*units.Kv, 0
		}, []schedule.Gap{schedule.NoBranch}},
	} {
		t.Run(name, func(t *testing.T) {
			row, catalogue := plain(), plainCatalogue()
			catalogue.Valves[0].Connection = 16 * units.Millimetre
			tt.change(&row, &catalogue.Valves[0], &catalogue.Actuators[0])
			u := selectOne(t, row, catalogue)
			assert.Equal(t, tt.want, u.Gaps())
		})
	}
}
