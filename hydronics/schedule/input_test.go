package schedule_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// However a controller's output is brought to an actuator, its ends close and open the
// valve, and half of it is half of the demand.
func TestEveryWayToBringAnOutputToAnActuator(t *testing.T) {
	custom := func(at0, at1 signal.Signal) signal.Range {
		r, err := signal.NewRange(at0, at1)
		require.NoError(t, err)
		return r
	}
	for name, tt := range map[string]struct {
		output signal.Range
		low    signal.Signal
		offers signal.Range
		set    signal.Range
		shunt  units.Resistance
		action actuator.Action
	}{
		"the same":                {signal.Range2To10V(), signal.Signal{}, signal.Range2To10V(), signal.Range2To10V(), 0, actuator.Reverse},
		"turned over":             {signal.Range0To10V().Inverse(), signal.Signal{}, signal.Range0To10V(), signal.Range0To10V(), 0, actuator.Direct},
		"500 Ω":                   {signal.Range4To20mA(), signal.Signal{}, signal.Range2To10V(), signal.Range2To10V(), 500, actuator.Reverse},
		"500 Ω from zero":         {signal.Range0To20mA(), signal.Signal{}, signal.Range0To10V(), signal.Range0To10V(), 500, actuator.Reverse},
		"500 Ω turned over":       {signal.Range4To20mA().Inverse(), signal.Signal{}, signal.Range2To10V(), signal.Range2To10V(), 500, actuator.Direct},
		"250 Ω":                   {signal.Range4To20mA(), signal.Signal{}, signal.Range1To5V(), signal.Range1To5V(), 250, actuator.Reverse},
		"250 Ω from zero":         {signal.Range0To20mA(), signal.Signal{}, signal.Range0To5V(), signal.Range0To5V(), 250, actuator.Reverse},
		"a lower limit":           {signal.Range0To10V(), signal.Volts(2), signal.Range2To10V(), signal.Range2To10V(), 0, actuator.Reverse},
		"a limit of an odd range": {custom(signal.Volts(0), signal.Volts(8)), signal.Volts(2), custom(signal.Volts(2), signal.Volts(8)), custom(signal.Volts(2), signal.Volts(8)), 0, actuator.Reverse},
	} {
		t.Run(name, func(t *testing.T) {
			row, catalogue := plain(), plainCatalogue()
			row.Output, row.OutputLow = tt.output, tt.low
			catalogue.Actuators[0].Ranges = []signal.Range{tt.offers}
			u := selectOne(t, row, catalogue)
			assert.Equal(t, tt.set, u.Actuator.Config.Input)
			assert.Equal(t, tt.shunt, u.Actuator.Shunt)
			assert.Equal(t, tt.action, u.Actuator.Config.Action)
			if tt.shunt > 0 {
				assert.Equal(t, []schedule.FindingKind{schedule.NeedsShunt}, kinds(u.Warnings))
			} else {
				assert.Empty(t, u.Warnings)
			}
			require.Len(t, u.Expected, 5)
			plainly := selectOne(t, plain(), plainCatalogue())
			for i, e := range u.Expected {
				assert.InDelta(t, plainly.Expected[i].Travel, e.Travel, 1e-12)
			}
		})
	}
}
