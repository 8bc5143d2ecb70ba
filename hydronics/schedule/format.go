package schedule

import (
	"math"
	"strconv"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// The digits of every output for people: what site instruments can show.

const none = "–"

func twoDecimals(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }

func percent(x float64) string { return strconv.FormatFloat(100*x, 'f', 0, 64) + " %" }

func flowText(q units.Flow) string { return q.Fixed(units.LitrePerSecond, 4) }

func pressureText(dp units.Pressure) string {
	if math.IsInf(float64(dp), 0) {
		return none
	}
	return dp.Fixed(units.Kilopascal, 1)
}

func powerText(p units.Power) string { return p.Fixed(units.Kilowatt, 2) }

func signalText(s signal.Signal) string {
	if v, ok := s.Voltage(); ok {
		return v.Fixed(units.Volt, 2)
	}
	if i, ok := s.Current(); ok {
		return i.Fixed(units.Milliampere, 2)
	}
	return none
}

// settingText is the dial's mark, or the Kvs of a valve without one.
func (c *ValveChoice) settingText() string {
	switch {
	case c.Model == nil:
		return none
	case c.Kvs > 0:
		return "Kvs " + strconv.FormatFloat(float64(c.Kvs), 'g', 4, 64)
	}
	return "mark " + strconv.FormatFloat(c.Mark, 'f', 1, 64)
}

func (c *ValveChoice) id() string {
	if c.Model == nil {
		return none
	}
	return c.Model.ID
}

func (c *ValveChoice) authorityText() string {
	if !c.AuthorityKnown {
		return none
	}
	return twoDecimals(c.Authority.Open) + " / " + twoDecimals(c.Authority.Design)
}

func (c *ActuatorChoice) id() string {
	if c.Model == nil {
		return none
	}
	return c.Model.ID
}

func travelText(cfg *actuator.Config) string {
	if cfg.Angle > 0 {
		return cfg.Angle.Fixed(units.Degree, 0)
	}
	text := cfg.Stroke.Fixed(units.Millimetre, 1)
	if cfg.StrokeMode == actuator.SelfAdapting {
		return "adapting, ≤ " + text
	}
	return text
}

func positionText(e *Expectation, rotary bool) string {
	if e.Held {
		return "holds"
	}
	if rotary {
		return e.Turn.Fixed(units.Degree, 1)
	}
	return e.Stem.Fixed(units.Millimetre, 2)
}

func timeText(d time.Duration) string {
	if d == 0 {
		return none
	}
	return strconv.FormatFloat(d.Seconds(), 'f', 0, 64) + " s"
}

func orNone(text string) string {
	if text == "" {
		return none
	}
	return text
}

func countText(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}
