package actuator

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Config describes an actuator as it is built and as it is set: the jumpers,
// switches and data-sheet figures. It is plain data; [New] makes the model.
//
// In JSON the quantities are text with their unit ("5 mm"), words are
// kebab-case ("self-adapting") and the times are text such as "75s".
type Config struct {
	// Input is the range of the control signal.
	Input signal.Range `json:",omitzero"`
	// Action says which way the stem moves when the demand rises.
	Action Action
	// ClosingEnd is the end of the stem's travel at which the valve is closed:
	// Extended for a push-to-close valve, Retracted for a push-to-open valve.
	ClosingEnd End
	// Shaping is the actuator's own characteristic; the zero value is linear.
	Shaping Shaping `json:",omitzero"`

	// Stroke of a linear drive: what is set if the mode is Fixed, the greatest
	// it can make if it is SelfAdapting. Give exactly one of Stroke and Angle.
	Stroke units.Length `json:",omitzero"`
	// Angle of a rotary drive, in the same two senses.
	Angle units.Angle `json:",omitzero"`
	// StrokeMode says whether the signal is spread over the stroke set or over
	// the travel found.
	StrokeMode StrokeMode

	// Force of a linear drive (its nominal thrust); 0 = not stated.
	Force units.Force `json:",omitzero"`
	// Torque of a rotary drive; 0 = not stated.
	Torque units.Torque `json:",omitzero"`
	// RunningTime is the time for the whole of Stroke or Angle; 0 = not
	// stated. The speed is taken as constant, so a shorter travel takes less.
	RunningTime time.Duration `json:",omitzero"`

	// Feedback is the range of the position feedback; the zero Range = none.
	Feedback signal.Range `json:",omitzero"`
	// FeedbackSense says which way the feedback runs.
	FeedbackSense FeedbackSense

	// PowerLoss is what the stem does when the supply fails.
	PowerLoss PowerLoss
	// SpringTime is the time that a spring takes for the whole of Stroke or Angle
	// when the supply fails; 0 = not stated, taken to be RunningTime. Springs are
	// often faster than the motor: 10 to 20 s are usual (common practice, no
	// published source). The speed is taken as constant here too.
	SpringTime time.Duration `json:",omitzero"`
	// OpenWire is what the input makes of a floating wire.
	OpenWire OpenWire
	// BelowLiveZero is what a signal far below a live zero does.
	BelowLiveZero BelowLiveZero
}

// validate reports every fault of the configuration, joined.
func (c *Config) validate() error {
	l := check.List{Package: packageName}
	l.Require(!c.Input.IsZero(), "Input", "none", "the range of the control signal, such as signal.Range0To10V()")
	l.Add(c.Shaping.Err())
	c.checkTravel(&l)
	checkTime(&l, "RunningTime", c.RunningTime)
	if checkTime(&l, "SpringTime", c.SpringTime) && c.PowerLoss == Hold {
		l.Require(c.SpringTime == 0, "SpringTime", c.SpringTime, "none, since PowerLoss is "+Hold.String()+": a drive without a spring")
	}
	check.Enum(&l, "Action", c.Action, Reverse)
	check.Enum(&l, "ClosingEnd", c.ClosingEnd, Retracted)
	check.Enum(&l, "StrokeMode", c.StrokeMode, SelfAdapting)
	check.Enum(&l, "FeedbackSense", c.FeedbackSense, FeedbackRetracting)
	check.Enum(&l, "PowerLoss", c.PowerLoss, SpringRetracts)
	check.Enum(&l, "OpenWire", c.OpenWire, HoldOnOpenWire)
	check.Enum(&l, "BelowLiveZero", c.BelowLiveZero, ToRetracted)
	return l.Err()
}

func checkTime(l *check.List, field string, t time.Duration) bool {
	return l.Require(t >= 0 && t <= day, field, t, "zero to 24 hours")
}

// checkTravel requires a linear or a rotary drive, with the figures of its
// kind only.
func (c *Config) checkTravel(l *check.List) {
	if c.Stroke != 0 && c.Angle != 0 {
		l.Fault("Angle", c.Angle, "a stroke or an angle, not both")
	}
	check.NotNegative(l, "Force", c.Force)
	check.NotNegative(l, "Torque", c.Torque)
	if c.Angle != 0 {
		l.Require(c.Angle > 0 && c.Angle <= fullTurn, "Angle", c.Angle, "an angle above zero, a full turn at most")
		l.Require(c.Force == 0, "Force", c.Force, "no force for a rotary drive; state its torque")
		return
	}
	if !(c.Stroke >= leastStroke && c.Stroke <= greatestStroke) {
		l.Fault("Stroke", c.Stroke, "a stroke of "+leastStroke.String()+" … "+greatestStroke.String()+", or an angle for a rotary drive")
	}
	l.Require(c.Torque == 0, "Torque", c.Torque, "no torque for a linear drive; state its force")
}

const (
	fullTurn = units.Angle(2 * math.Pi)
	day      = 24 * time.Hour

	leastStroke    = 0.1 * units.Millimetre
	greatestStroke = units.Metre
)
