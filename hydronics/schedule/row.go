package schedule

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

const packageName = "schedule"

// A Row is one terminal unit of a schedule: what it must deliver, the pressure
// it gets, and how its controller speaks. A field that is left zero was not
// given; the comments say what that means.
type Row struct {
	Tag     string `json:"tag"`              // unique name of the unit
	Serves  string `json:"serves,omitempty"` // the room or zone
	Circuit string `json:"circuit,omitempty"`

	Fluid fluid.Fluid `json:"fluid"` // zero: water
	Duty  Duty        `json:"duty"`
	// SecondDuty is that of a two-pipe change-over unit in the other season;
	// its Heat is zero for a unit with one duty.
	SecondDuty Duty `json:"second-duty,omitzero"`

	// Available is the pressure over the whole branch (valve, terminal, pipes
	// and fittings) and BranchDrop what all but the valve take of it at design
	// flow. ValvePressure is the pressure over the valve alone. Give the
	// first two, or the last.
	Available     units.Pressure `json:"available-pressure,omitzero"`
	BranchDrop    units.Pressure `json:"branch-drop,omitzero"`
	ValvePressure units.Pressure `json:"valve-pressure,omitzero"`
	// StaticPressure is the pressure of the system at the valve's inlet, such as
	// units.Gauge(3 * units.Bar); zero: boiling, cavitation and noise are not looked
	// into, and the rating is compared with the shut-off head alone.
	StaticPressure units.AbsolutePressure `json:"static-pressure,omitzero"`
	// ShutOffHead is the pump's head at no flow, which the actuator must close
	// against; zero: the pressure available is taken.
	ShutOffHead units.Pressure `json:"shut-off-head,omitzero"`

	Kind     Kind     `json:"valve-kind"`
	Response Response `json:"response"`

	Output       signal.Range  `json:"output-range"`
	OutputAction OutputAction  `json:"output-action"`
	OutputLow    signal.Signal `json:"output-low,omitzero"`  // lower limit; zero: the range's own end
	OutputHigh   signal.Signal `json:"output-high,omitzero"` // upper limit; zero: the range's own end

	AtZeroSignal Wish `json:"at-zero-signal"`
	AtOpenWire   Wish `json:"at-open-wire"`
	AtPowerLoss  Wish `json:"at-power-loss"`

	// Tolerance is the specified tolerance of the flow, as a share of it; zero:
	// [DefaultTolerance].
	Tolerance units.Ratio `json:"flow-tolerance,omitzero"`

	// NoiseLimit is the level that the valve may make 1 m from the pipe; zero:
	// [DefaultNoiseLimit].
	NoiseLimit SoundLevel `json:"noise-limit,omitzero"`

	Line int `json:"-"` // line of the file it came from
}

// DefaultTolerance of a flow, ±10 %, where the designer gave none (common
// practice, no published source; tolerances are the designer's to specify).
const DefaultTolerance units.Ratio = 0.10

// A Duty is heat to be carried between two temperatures of the liquid: heating
// where the supply is the warmer, cooling where it is the colder.
type Duty struct {
	Heat   units.Power       `json:"heat"` // above zero, for cooling too
	Supply units.Temperature `json:"supply"`
	Return units.Temperature `json:"return"`
}

// Cooling reports whether the liquid takes heat up.
func (d Duty) Cooling() bool { return d.Supply.Compare(d.Return) < 0 }

// doubtful reports a duty that heats from a cold supply or cools from a warm one:
// as a rule a slip of the pen.
func (d Duty) doubtful() bool {
	if d.Cooling() {
		return d.Supply.Celsius() > warmCooling
	}
	return d.Supply.Celsius() < coolingBelow
}

// warmCooling is the supply temperature from which cooling is doubtful.
const warmCooling = 25.0 // °C

// A difference without a return temperature is read as cooling below the one and as
// heating above the other: a room is near 20 °C, condenser water below 30 °C.
const (
	coolingBelow = 20.0 // °C
	heatingAbove = 30.0 // °C
)

// ambiguous reports a supply temperature that may heat or cool.
func ambiguous(supply units.Temperature) bool {
	return supply.Celsius() >= coolingBelow && supply.Celsius() <= heatingAbove
}

// returnFor is the return temperature of a supply and an unsigned difference.
func returnFor(supply units.Temperature, difference units.TemperatureDifference) units.Temperature {
	if supply.Celsius() < coolingBelow {
		return supply.Add(difference)
	}
	return supply.Add(-difference)
}

// Bounds of what a row may ask for, far beyond any building: what is outside is a slip
// of the pen, and would leave the range of numbers further on.
const (
	greatestHeat     units.Power                 = 10 * 1000 * units.Megawatt
	greatestPressure units.Pressure              = 100 * units.Megapascal
	leastDifference  units.TemperatureDifference = 0.01
)

// IsZero reports whether no duty was given.
func (d Duty) IsZero() bool { return d == Duty{} }

// Validate reports everything that is wrong with the row by itself.
func (r *Row) Validate() error {
	l := check.List{Package: packageName}
	l.Require(r.Tag != "", "tag", `""`, "a unique name")
	for _, text := range []struct{ name, text string }{{"tag", r.Tag}, {"serves", r.Serves}, {"circuit", r.Circuit}} {
		if strings.ContainsFunc(text.text, unicode.IsControl) {
			l.Fault(text.name, strconv.Quote(text.text), "text in one line, without control characters")
		}
	}
	r.Duty.validate(&l, "", r.Fluid)
	if !r.SecondDuty.IsZero() {
		r.SecondDuty.validate(&l, "second ", r.Fluid)
	}
	r.validatePressures(&l)
	r.validateOutput(&l)
	check.Enum(&l, "valve kind", r.Kind, lastKind)
	check.Enum(&l, "response", r.Response, lastResponse)
	for _, w := range []struct {
		name string
		wish Wish
	}{{"at zero signal", r.AtZeroSignal}, {"at open wire", r.AtOpenWire}, {"at power loss", r.AtPowerLoss}} {
		check.Enum(&l, w.name, w.wish, lastWish)
	}
	check.Within(&l, "flow tolerance", r.Tolerance, 0, 0.5)
	check.Within(&l, "noise limit", r.NoiseLimit, 0, 120)
	return l.Err()
}

func (d Duty) validate(l *check.List, prefix string, f fluid.Fluid) {
	if check.Positive(l, prefix+"duty", d.Heat) && d.Heat > greatestHeat {
		l.Fault(prefix+"duty", d.Heat, "at most "+greatestHeat.String())
	}
	lowest, highest := f.TemperatureRange()
	for _, t := range []struct {
		name, want string
		t          units.Temperature
	}{
		{"supply", "a temperature", d.Supply}, {"return", "a temperature, or a difference to the supply", d.Return},
	} {
		switch {
		case t.t.IsZero():
			l.Fault(prefix+t.name, "nothing", t.want)
		case t.t.Compare(lowest) < 0 || t.t.Compare(highest) > 0:
			l.Fault(prefix+t.name, t.t, "a temperature of "+f.String()+" of "+lowest.String()+" … "+highest.String())
		}
	}
	if given := !d.Supply.IsZero() && !d.Return.IsZero(); given && math.Abs(float64(d.Supply.Sub(d.Return))) < float64(leastDifference) {
		l.Fault(prefix+"return", d.Return, "a temperature that differs from the supply's by at least "+leastDifference.String())
	}
}

func (r *Row) validatePressures(l *check.List) {
	for _, p := range []struct {
		name string
		dp   units.Pressure
	}{
		{"available pressure", r.Available}, {"branch drop", r.BranchDrop}, {"valve pressure", r.ValvePressure},
		{"shut-off head", r.ShutOffHead},
	} {
		check.Within(l, p.name, p.dp, 0, greatestPressure)
	}
	if !r.StaticPressure.IsZero() && !(r.StaticPressure.AboveVacuum() > 0 && r.StaticPressure.AboveVacuum() <= greatestPressure) {
		l.Fault("static pressure", r.StaticPressure, "a pressure above vacuum, up to "+units.Absolute(greatestPressure).String())
	}
	l.Require(r.Available != 0 || r.ValvePressure != 0, "available pressure", "nothing",
		"the pressure over the branch, or the pressure over the valve in its own column")
	if r.Available != 0 && r.ValvePressure != 0 {
		l.Fault("valve pressure", r.ValvePressure, "either the pressure over the branch or that over the valve, not both")
	}
	if r.ValvePressure != 0 && r.BranchDrop != 0 {
		l.Fault("branch drop", r.BranchDrop, "no branch drop beside the pressure over the valve: it is not part of it")
	}
}

func (r *Row) validateOutput(l *check.List) {
	if r.Output.IsZero() {
		l.Fault("output range", "nothing", `a range such as "0-10 V"`)
		return
	}
	check.Enum(l, "output action", r.OutputAction, lastOutputAction)
	low, high := r.limits()
	if !low.status {
		l.Fault("output low", r.OutputLow, "a signal within the range "+r.Output.String())
	}
	if !high.status || low.status && low.demand >= high.demand {
		l.Fault("output high", r.OutputHigh, "a signal within the range "+r.Output.String()+" that asks for more than output low")
	}
}

// limit is a limit of the controller's output, read on its range.
type limit struct {
	demand float64
	status bool
}

func (r *Row) limits() (low, high limit) {
	read := func(s signal.Signal, unset float64) limit {
		if s == (signal.Signal{}) {
			return limit{unset, true}
		}
		reading := r.Output.Read(s)
		return limit{reading.Demand, reading.Status == signal.InRange}
	}
	return read(r.OutputLow, 0), read(r.OutputHigh, 1)
}

// pressureForValve is what is left for the valve at design flow.
func (r *Row) pressureForValve() units.Pressure {
	if r.ValvePressure > 0 {
		return r.ValvePressure
	}
	return r.Available - r.BranchDrop
}

// gaugePressure is the static pressure above the atmosphere's, 0 if it was not given.
func (r *Row) gaugePressure() units.Pressure {
	if r.StaticPressure.IsZero() {
		return 0
	}
	return r.StaticPressure.Sub(units.Atmospheric())
}

// closeAgainst is the pressure that the actuator must close against.
func (r *Row) closeAgainst() units.Pressure {
	return max(r.ShutOffHead, r.Available, r.ValvePressure)
}
