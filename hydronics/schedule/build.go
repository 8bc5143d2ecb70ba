package schedule

import (
	"math"
	"strings"
	"time"
	"unicode"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// build makes the model of a valve, at its highest setting if it has settings.
func (v *ValveModel) build() (valve.Valve, error) {
	if v.Kind.independent() {
		return valve.NewPressureIndependent(v.independentConfig())
	}
	return valve.NewTwoWay(v.twoWayConfig())
}

func (v *ValveModel) twoWayConfig() valve.TwoWayConfig {
	return valve.TwoWayConfig{
		Kvs: v.Kvs, Stem: v.Stem, Stroke: v.Stroke, Angle: v.Angle, Curve: v.Characteristic,
		ClosingTravel: v.ClosingTravel, Leakage: v.Leakage,
		MaxPressure: v.MaxPressure, SeatArea: v.SeatArea, SpringForce: v.Spring,
	}
}

func (v *ValveModel) independentConfig() valve.PressureIndependentConfig {
	settings := make([]valve.Setting, len(v.Settings))
	for i, s := range v.Settings {
		settings[i] = valve.Setting(s)
	}
	return valve.PressureIndependentConfig{
		Settings: settings, SettingKind: v.SettingKind, MinPressureShare: v.MinPressureShare,
		ProportionalBand: v.ProportionalBand, Stem: v.Stem, Stroke: v.Stroke, Angle: v.Angle,
		Curve: v.Characteristic, ClosingTravel: v.ClosingTravel, Leakage: v.Leakage,
		MaxPressure: v.MaxPressure, SeatArea: v.SeatArea, SpringForce: v.Spring,
	}
}

// everySetting lists configurations that use each choice of the model at least
// once, for validation.
func (a *ActuatorModel) everySetting() []actuator.Config {
	var list []actuator.Config
	base := a.config(a.Ranges[0], a.travelFor(0, 0))
	for _, r := range a.Ranges {
		c := base
		c.Input = r
		list = append(list, c)
	}
	for _, s := range a.Shapings {
		c := base
		c.Shaping = s
		list = append(list, c)
	}
	for _, f := range a.Feedback {
		c := base
		c.Feedback = f
		list = append(list, c)
	}
	return list
}

// travel is how an actuator's stroke or angle is set.
type travel struct {
	stroke units.Length
	angle  units.Angle
	mode   actuator.StrokeMode
}

// travelFor returns the setting that suits a valve best: the stroke to set that
// is nearest, or self-adapting if that covers it.
func (a *ActuatorModel) travelFor(stroke units.Length, angle units.Angle) travel {
	if a.Angle > 0 {
		return travel{angle: a.Angle}
	}
	if a.AdaptsTo > 0 && (len(a.Strokes) == 0 || stroke >= a.AdaptsFrom && stroke <= a.AdaptsTo) {
		return travel{stroke: a.AdaptsTo, mode: actuator.SelfAdapting}
	}
	best := a.Strokes[0]
	for _, s := range a.Strokes[1:] {
		if distance(s, stroke) < distance(best, stroke) {
			best = s
		}
	}
	return travel{stroke: best}
}

func distance(a, b units.Length) units.Length { return max(a-b, b-a) }

// config is the model's configuration with one input range and one travel, and
// the first of every other choice.
func (a *ActuatorModel) config(input signal.Range, t travel) actuator.Config {
	c := actuator.Config{
		Input: input, Action: a.Actions[0], ClosingEnd: a.ClosingEnds[0], Shaping: a.Shapings[0],
		Stroke: t.stroke, Angle: t.angle, StrokeMode: t.mode,
		Force: a.Force, Torque: a.Torque, RunningTime: a.timeFor(a.RunTime, t),
		OpenWire: first(a.OpenWire), BelowLiveZero: first(a.BelowLiveZero),
		FeedbackSense: a.FeedbackSense,
	}
	a.setPowerLoss(&c, first(a.PowerLoss), t)
	return c
}

// setPowerLoss sets what the actuator does without power, and how fast.
func (a *ActuatorModel) setPowerLoss(c *actuator.Config, loss actuator.PowerLoss, t travel) {
	c.PowerLoss, c.SpringTime = loss, 0
	if loss != actuator.Hold {
		c.SpringTime = a.timeFor(a.SpringTime, t)
	}
}

// timeFor is a time of the catalogue for the travel that is set: the speed is that of
// the greatest stroke.
func (a *ActuatorModel) timeFor(greatestStroke RunningTime, t travel) time.Duration {
	if t.angle > 0 {
		return time.Duration(greatestStroke)
	}
	greatest := a.AdaptsTo
	for _, s := range a.Strokes {
		greatest = max(greatest, s)
	}
	return time.Duration(math.Round(float64(greatestStroke) * float64(t.stroke/greatest)))
}

// first returns the first choice, or the zero value where none is listed.
func first[T any](choices []T) T { return choiceAt(choices, 0) }

// memberName turns the name of a Go field into that of its JSON member:
// "Settings[2].MinPressure" into "settings[2].min-pressure".
func memberName(field string) string {
	var b strings.Builder
	previous := '.'
	for _, r := range field {
		if unicode.IsUpper(r) && unicode.IsLetter(previous) {
			b.WriteByte('-')
		}
		b.WriteRune(unicode.ToLower(r))
		previous = r
	}
	return b.String()
}
