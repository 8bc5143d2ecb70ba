package actuator_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func newDrive(t *testing.T, m actuator.Mounted, extension float64) actuator.Drive {
	t.Helper()
	d, err := actuator.NewDrive(m, extension)
	require.NoError(t, err)
	return d
}

func in100Seconds(c *actuator.Config) { c.RunningTime = 100 * time.Second }

func both(changes ...func(*actuator.Config)) func(*actuator.Config) {
	return func(c *actuator.Config) {
		for _, change := range changes {
			change(c)
		}
	}
}

// By hand: 8 mm in 100 s on a valve of 5 mm is 62.5 s for its stroke. From half way
// out calibration takes 31.25 s to the closed stop and 62.5 s to the open one, then
// the stem goes 31.25 s for 5 V.
func TestSelfAdaptingCalibration(t *testing.T) {
	m := onStroke(t, 8, 5, both(selfAdapting, in100Seconds))
	d := newDrive(t, m, 0.5)
	assert.Equal(t, actuator.Snapshot{Extension: 0.5, Travel: 0.5}, d.Snapshot())

	steps := []struct {
		dt        time.Duration
		state     actuator.State
		extension float64
		found     float64 // mm
	}{
		{0, actuator.Calibrating, 0.5, 0},
		{25 * time.Second, actuator.Calibrating, 0.9, 0},
		{12500 * time.Millisecond, actuator.Calibrating, 0.9, 0}, // 6.25 s out, 6.25 s back
		{56250 * time.Millisecond, actuator.Tracking, 0, 5},
		{25 * time.Second, actuator.Tracking, 0.4, 5},
		{time.Hour, actuator.Tracking, 0.5, 5},
	}
	for i, step := range steps {
		got := d.Step(step.dt, true, signal.Volts(5))
		assert.Equal(t, step.state, got.State, "step %d", i)
		assert.InDelta(t, step.extension, got.Extension, 1e-9, "step %d", i)
		assert.InDelta(t, 1-step.extension, got.Travel, 1e-9, "step %d", i)
		assert.InDelta(t, step.found, got.FoundTravel.In(units.Millimetre), 1e-9, "step %d", i)
	}
	took, ok := m.CalibrationTime(0.5)
	assert.True(t, ok)
	assert.Equal(t, 93750*time.Millisecond, took)
	took, _ = m.RunningTime(0, 0.5)
	assert.Equal(t, 31250*time.Millisecond, took)
}

func TestFixedDriveSeeksTheClosedStopOnly(t *testing.T) {
	pushToClose := onStroke(t, 5, 5, in100Seconds)
	took, _ := pushToClose.CalibrationTime(0.25)
	assert.Equal(t, 75*time.Second, took)
	d := newDrive(t, pushToClose, 0.25)
	assert.Equal(t, actuator.Calibrating, d.Step(74*time.Second, true, signal.Volts(10)).State)
	assert.Equal(t, actuator.Snapshot{State: actuator.Tracking, Extension: 1}, d.Step(time.Second, true, signal.Volts(0)))

	pushToOpen := onStroke(t, 5, 5, both(in100Seconds, func(c *actuator.Config) { c.ClosingEnd = actuator.Retracted }))
	took, _ = pushToOpen.CalibrationTime(0.25)
	assert.Equal(t, 175*time.Second, took, "out, then in to the closed stop")
}

// Without a valve the stem runs out to its full extension and stays there.
func TestDriveWithoutValve(t *testing.T) {
	for _, closing := range []actuator.End{actuator.Extended, actuator.Retracted} {
		m := onStroke(t, 5, 5, both(in100Seconds, selfAdapting, func(c *actuator.Config) { c.ClosingEnd = closing }))
		d, err := actuator.NewDriveWithoutValve(m.Actuator(), 0)
		require.NoError(t, err)
		got := d.Step(50*time.Second, true, signal.Volts(0))
		assert.Equal(t, actuator.Snapshot{State: actuator.Calibrating, Extension: 0.5}, got)
		got = d.Step(50*time.Second, true, signal.Volts(0))
		assert.Equal(t, actuator.Snapshot{State: actuator.EndStopNotFound, Extension: 1}, got)
		for _, volts := range []float64{0, 5, 10} {
			assert.Equal(t, got, d.Step(time.Hour, true, signal.Volts(volts)), "deaf to the signal")
		}
		d.Recalibrate()
		assert.Equal(t, actuator.EndStopNotFound, d.Step(time.Hour, true, signal.Volts(0)).State, "still no valve")
		assert.Equal(t, actuator.Unpowered, d.Step(time.Hour, false, signal.Volts(0)).State)
	}
}

func TestPowerLoss(t *testing.T) {
	for loss, extension := range map[actuator.PowerLoss]float64{actuator.Hold: 0.5, actuator.SpringExtends: 0.75, actuator.SpringRetracts: 0.25} {
		d := newDrive(t, onStroke(t, 5, 5, both(in100Seconds, func(c *actuator.Config) { c.PowerLoss = loss })), 0.5)
		require.Equal(t, actuator.Tracking, d.Step(time.Hour, true, signal.Volts(5)).State)
		got := d.Step(25*time.Second, false, signal.Volts(5))
		assert.Equal(t, actuator.Unpowered, got.State)
		assert.InDelta(t, extension, got.Extension, 1e-9, "%v", loss)
		d.Recalibrate()
		assert.Equal(t, actuator.Unpowered, d.Snapshot().State, "the button does nothing")
		assert.Equal(t, actuator.Calibrating, d.Step(0, true, signal.Volts(5)).State, "power is back")
	}
}

// By hand: 15 s for 10 mm are 7.5 s for a valve of 5 mm, so that the spring closes it
// from 80 % open in 6 s. The motor takes 100 s for 10 mm, 10 s for a fifth of the valve,
// and is the measure of a spring that states no time: 40 s.
func TestSpringTime(t *testing.T) {
	for end, closing := range map[actuator.PowerLoss]actuator.End{
		actuator.SpringExtends: actuator.Extended, actuator.SpringRetracts: actuator.Retracted,
	} {
		for spring, seconds := range map[time.Duration]float64{15 * time.Second: 6, 0: 40, time.Hour: 1440} {
			m := onStroke(t, 10, 5, both(in100Seconds, func(c *actuator.Config) {
				c.StrokeMode, c.PowerLoss, c.ClosingEnd, c.SpringTime = actuator.SelfAdapting, end, closing, spring
				if closing == actuator.Retracted {
					c.Action = actuator.Direct
				}
			}))
			d := newDrive(t, m, 0)
			require.InDelta(t, 0.8, d.Step(time.Hour, true, signal.Volts(8)).Travel, 1e-12)
			closes := time.Duration(seconds * float64(time.Second))
			assert.InDelta(t, 0.4, d.Step(closes/2, false, signal.Volts(8)).Travel, 1e-9, "%v %v", end, spring)
			assert.InDelta(t, 0.8/seconds*0.001, d.Step(closes/2-time.Millisecond, false, signal.Volts(8)).Travel, 1e-9)
			assert.Equal(t, 0.0, d.Step(time.Millisecond, false, signal.Volts(8)).Travel, "%v %v", end, spring)
			require.Equal(t, 0.0, d.Step(time.Hour, true, signal.Volts(0)).Travel)
			assert.InDelta(t, 0.2, d.Step(10*time.Second, true, signal.Volts(10)).Travel, 1e-9, "the motor keeps its own time")
		}
	}
}

// A spring slower than the motor is waited for.
func TestOutcomeWithASlowSpring(t *testing.T) {
	a, err := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre, RunningTime: 10 * time.Second,
		PowerLoss: actuator.SpringExtends, SpringTime: 10 * time.Minute,
	})
	require.NoError(t, err)
	assert.Equal(t, actuator.Closed, a.Outcome(actuator.OnPowerLoss))
}

func TestHeldDriveStopsWhereItIs(t *testing.T) {
	d := newDrive(t, onStroke(t, 5, 5, both(in100Seconds, func(c *actuator.Config) { c.OpenWire = actuator.HoldOnOpenWire })), 1)
	d.Step(0, true, signal.Volts(10))
	moving := d.Step(20*time.Second, true, signal.Volts(10))
	assert.InDelta(t, 0.8, moving.Extension, 1e-9)
	assert.Equal(t, moving, d.Step(time.Hour, true, signal.Signal{}))
}

func TestRotaryDriveReportsItsAngle(t *testing.T) {
	a, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Angle: 95 * units.Degree, StrokeMode: actuator.SelfAdapting,
		RunningTime: 95 * time.Second})
	require.NoError(t, err)
	m, err := a.MountOnRotary(90 * units.Degree)
	require.NoError(t, err)
	d := newDrive(t, m, 0)
	took, _ := m.CalibrationTime(0)
	assert.Equal(t, 180*time.Second, took)
	assert.Equal(t, actuator.Calibrating, d.Step(took-time.Millisecond, true, signal.Volts(0)).State)
	got := d.Step(2*time.Millisecond, true, signal.Volts(0))
	assert.Equal(t, actuator.Tracking, got.State)
	assert.InDelta(t, 90, got.FoundAngle.In(units.Degree), 1e-9)
}

func TestDriveFaults(t *testing.T) {
	_, err := actuator.NewDrive(onStroke(t, 5, 5, nil), 0.5)
	assert.Equal(t, []string{"RunningTime"}, faultyFields(t, err))
	_, err = actuator.NewDrive(onStroke(t, 5, 5, in100Seconds), math.NaN())
	assert.Equal(t, []string{"Extension"}, faultyFields(t, err))
	_, err = actuator.NewDrive(actuator.Mounted{}, 0.5)
	assert.Equal(t, []string{"RunningTime"}, faultyFields(t, err))
	_, err = actuator.NewDriveWithoutValve(actuator.Actuator{}, 0.5)
	assert.ErrorIs(t, err, units.ErrInvalid)

	var d actuator.Drive
	d.Recalibrate()
	assert.Equal(t, actuator.Snapshot{}, d.Step(time.Hour, true, signal.Volts(5)), "the zero Drive")
}

func TestSplittingAStepChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := mounts(t)
		whole, err := actuator.NewDrive(m, rapid.Float64Range(0, 1).Draw(t, "extension"))
		if err != nil {
			t.Fatal(err)
		}
		split := whole
		for range 3 {
			s := m.Actuator().Config().Input.Encode(rapid.Float64Range(0, 1).Draw(t, "demand"))
			powered := rapid.Bool().Draw(t, "powered")
			var total time.Duration
			for range 5 {
				part := time.Duration(rapid.Int64Range(0, int64(5*time.Minute)).Draw(t, "part"))
				total += part
				split.Step(part, powered, s)
			}
			a, b := whole.Step(total, powered, s), split.Snapshot()
			if a.State != b.State || math.Abs(a.Extension-b.Extension) > 1e-9 || math.Abs(a.Travel-b.Travel) > 1e-9 {
				t.Fatalf("%+v, in parts %+v", a, b)
			}
		}
	})
}

// The closed form against the model: one millisecond before, the drive still
// calibrates, one after it does not.
func TestCalibrationTimeIsThatOfTheDrive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := mounts(t)
		start := rapid.Float64Range(0, 1).Draw(t, "extension")
		d, err := actuator.NewDrive(m, start)
		if err != nil {
			t.Fatal(err)
		}
		took, ok := m.CalibrationTime(start)
		if !ok {
			t.Fatal("no time")
		}
		if took > time.Millisecond {
			if got := d.Step(took-time.Millisecond, true, signal.Signal{}); got.State != actuator.Calibrating {
				t.Fatalf("too early: %+v", got)
			}
		}
		if got := d.Step(2*time.Millisecond, true, signal.Signal{}); got.State != actuator.Tracking {
			t.Fatalf("too late: %+v", got)
		}
	})
}

func TestRunningTime(t *testing.T) {
	m := onStroke(t, 10, 5, in100Seconds)
	for _, tt := range []struct {
		from, to float64
		want     time.Duration
	}{{0, 1, 50 * time.Second}, {1, 0, 50 * time.Second}, {0.2, 0.5, 15 * time.Second}, {-1, 2, 50 * time.Second}, {0.3, 0.3, 0}} {
		got, ok := m.RunningTime(tt.from, tt.to)
		assert.True(t, ok)
		assert.Equal(t, tt.want, got)
	}
	_, ok := m.RunningTime(math.NaN(), 1)
	assert.False(t, ok)
	_, ok = m.CalibrationTime(math.NaN())
	assert.False(t, ok)
	unstated := onStroke(t, 10, 5, nil)
	_, ok = unstated.RunningTime(0, 1)
	assert.False(t, ok)
	short := onStroke(t, 4, 5, in100Seconds)
	got, _ := short.RunningTime(0, 1)
	assert.Equal(t, 100*time.Second, got, "as far as it gets")
}
