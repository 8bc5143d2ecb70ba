package valve_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// One value of each kind used by several goroutines at once: the race detector
// has the say.
func TestConcurrentUse(t *testing.T) {
	ball := must(valve.NewTwoWay(twoWayConfig(ballCurve())))
	var users sync.WaitGroup
	for _, v := range []valve.Valve{ball, coilValve(), fanCoilValve()} {
		want := v.Flow(0.4, 30*units.Kilopascal)
		for range 4 {
			users.Go(func() {
				for range 100 {
					h, err := v.TravelForFlow(want, 30*units.Kilopascal)
					assert.NoError(t, err)
					assert.InDelta(t, 0.4, h, 1e-12)
				}
			})
		}
	}
	users.Wait()
}
