package actuator

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Drive is an actuator in time: a model of its states, stepped by the caller.
// It has no clock of its own: the same steps always give the same result, and a
// step split into several gives what the whole would, to within rounding.
//
// On every power-up a drive calibrates: it extends the stem to the valve's end
// stop, then, if it is self-adapting or closes at the other end, it retracts to
// that stop too, then it tracks the signal at constant speed. A drive with
// nothing to push against ends in EndStopNotFound. Without power it holds, or its
// spring moves the stem, in the spring time of the configuration or, where that is
// not stated, at the speed of the motor.
// A drive that holds its position without a valid signal stops where it is. All
// this is common practice, no published source.
//
// A Drive changes with each step and is not safe for concurrent use; copies are
// independent. The zero Drive stays unpowered.
type Drive struct {
	m         Mounted
	coupled   bool
	full      float64 // seconds for the whole stroke by the motor
	spring    float64 // and by the spring
	state     State
	seeking   End
	extension float64
}

// Snapshot is what a drive shows after a step.
type Snapshot struct {
	State State
	// Extension is how far the stem is out, as a fraction of the valve's stroke,
	// or of the drive's own without a valve.
	Extension float64
	// Travel is the relative travel of the valve; 0 without a valve.
	Travel float64
	// FoundTravel (or FoundAngle) is what a self-adapting drive reports once it
	// tracks; 0 otherwise.
	FoundTravel units.Length
	FoundAngle  units.Angle
}

// NewDrive returns a drive mounted on a valve, not powered yet, with its stem at
// an extension of 0 … 1 of the valve's stroke (the nearest that the valve's stops
// allow). Its running time must be stated.
func NewDrive(m Mounted, extension float64) (Drive, error) { return newDrive(m, true, extension) }

// NewDriveWithoutValve returns a drive that is mounted on nothing, with its stem
// at an extension of 0 … 1 of its own stroke. It is here to show what happens:
// never power a drive that is not mounted on its valve.
func NewDriveWithoutValve(a Actuator, extension float64) (Drive, error) {
	m, err := a.mountOnOwn()
	if err != nil {
		return Drive{}, err
	}
	return newDrive(m, false, extension)
}

func newDrive(m Mounted, coupled bool, extension float64) (Drive, error) {
	l := check.List{Package: packageName}
	full, spring := m.fullTravelTime(), m.fullSpringTime()
	l.Require(full > 0, "RunningTime", m.at().drive.cfg.RunningTime, "a running time above zero, which the steps need")
	check.Within(&l, "Extension", extension, 0, 1)
	if err := l.Err(); err != nil {
		return Drive{}, err
	}
	d := Drive{m: m, coupled: coupled, full: full, spring: spring}
	in, out := m.stops()
	d.extension = max(in, min(extension, out))
	return d, nil
}

// mountOnOwn mounts the drive on a valve of its own stroke or angle.
func (a Actuator) mountOnOwn() (Mounted, error) {
	if a.Rotary() {
		return a.MountOnRotary(a.cfg.Angle)
	}
	return a.MountOn(a.cfg.Stroke)
}

// Step lets time pass with the supply on or off and a signal at the input, and
// returns what the drive shows at the end. A duration below zero counts as zero.
func (d *Drive) Step(dt time.Duration, powered bool, s signal.Signal) Snapshot {
	if d.full > 0 {
		full := d.full
		if !powered {
			full = d.spring
		}
		d.run(max(0, dt.Seconds())/full, powered, s)
	}
	return d.Snapshot()
}

// Snapshot returns what the drive shows.
func (d *Drive) Snapshot() Snapshot {
	r := Snapshot{State: d.state, Extension: d.extension}
	if d.coupled {
		r.Travel = d.m.toStem.at(d.extension)
	}
	if d.state == Tracking {
		found := d.m.Mismatch()
		r.FoundTravel, r.FoundAngle = found.FoundTravel, found.FoundAngle
	}
	return r
}

// Recalibrate starts calibration again on a powered drive, as its button does
// after it has been mounted at last. Without power it does nothing.
func (d *Drive) Recalibrate() {
	if d.state != Unpowered {
		d.state, d.seeking = Calibrating, Extended
	}
}

// run spends the way that the stem can make in a step, a fraction of the stroke.
func (d *Drive) run(way float64, powered bool, s signal.Signal) {
	switch {
	case !powered:
		d.state = Unpowered
	case d.state == Unpowered:
		d.state, d.seeking = Calibrating, Extended
	}
	for d.state == Calibrating {
		var arrived bool
		if way, arrived = d.moveTo(d.end(d.seeking), way); !arrived {
			return
		}
		d.nextLeg()
	}
	if goal, moving := d.goal(s); moving {
		d.moveTo(goal, way)
	}
}

// nextLeg follows the arrival at the end that calibration was seeking.
func (d *Drive) nextLeg() {
	switch {
	case !d.coupled:
		d.state = EndStopNotFound
	case d.seeking == Extended && d.m.place.drive.seeksBothStops():
		d.seeking = Retracted
	default:
		d.state = Tracking
	}
}

// goal returns the extension that the stem moves to outside calibration.
func (d *Drive) goal(s signal.Signal) (extension float64, moving bool) {
	switch d.state {
	case Tracking:
		p := d.m.Respond(s)
		return p.Extension, !p.Held
	case Unpowered:
		switch d.m.place.drive.cfg.PowerLoss {
		case SpringExtends:
			return d.end(Extended), true
		case SpringRetracts:
			return d.end(Retracted), true
		}
	}
	return 0, false
}

func (d *Drive) end(e End) float64 {
	in, out := d.m.stops()
	if e == Extended {
		return out
	}
	return in
}

// slack forgives what rounding leaves of a way that was split into many steps.
const slack = 1e-12

// moveTo moves the stem towards a goal and returns the way left over.
func (d *Drive) moveTo(goal, way float64) (left float64, arrived bool) {
	need := math.Abs(goal - d.extension)
	if need > way+slack {
		d.extension += math.Copysign(way, goal-d.extension)
		return 0, false
	}
	d.extension = goal
	return max(0, way-need), true
}
