package schedule

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/jsonfile"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// A Catalogue holds the valves and actuators to choose from. It is plain data;
// [ReadCatalogue] reads it from JSON, whose members are those of the tags here,
// every quantity a string with its unit:
//
//	{
//	  "note": "where the data come from",
//	  "valves": [{"id": "V1", "kind": "pressure-independent", "stem": "push-to-close",
//	    "stroke": "5 mm", "characteristic": "linear 50", "rating": "1600 kPa", "max-pressure": "400 kPa",
//	    "settings": [{"mark": 20, "flow": "60 l/h", "min-pressure": "16 kPa"},
//	                 {"mark": 100, "flow": "300 l/h", "min-pressure": "20 kPa"}]}],
//	  "actuators": [{"id": "A1", "ranges": ["0-10 V"], "actions": ["direct", "reverse"],
//	    "closing-ends": ["extended"], "shapings": ["linear"], "strokes": ["5 mm"]}]
//	}
type Catalogue struct {
	Note      string          `json:"note,omitempty"`
	Valves    []ValveModel    `json:"valves" file:"required"`
	Actuators []ActuatorModel `json:"actuators" file:"required"`
}

// A ValveModel is one valve of a catalogue. Kvs belongs to two-way valves,
// settings to pressure-independent ones; a stroke to stems that are pushed, an
// angle to those that turn. A figure that is left zero was not given and is not
// checked.
type ValveModel struct {
	ID   string `json:"id" file:"required"`
	Body string `json:"body,omitempty"` // what to order, in words
	Kind Kind   `json:"kind" file:"required"`

	Rating     units.Pressure    `json:"rating,omitzero"` // greatest gauge pressure of the liquid
	Coldest    units.Temperature `json:"coldest,omitzero"`
	Hottest    units.Temperature `json:"hottest,omitzero"`
	Connection units.Length      `json:"connection,omitzero"` // inside diameter at the ends

	Stem           valve.Stem           `json:"stem" file:"required"`
	Stroke         units.Length         `json:"stroke,omitzero"`
	Angle          units.Angle          `json:"angle,omitzero"`
	Characteristic valve.Characteristic `json:"characteristic" file:"required"`
	ClosingTravel  float64              `json:"closing-travel,omitzero"`
	Leakage        units.Ratio          `json:"leakage,omitzero"` // share of the open valve's coefficient

	Kvs              units.FlowCoefficient `json:"kvs,omitzero"`
	Settings         []Setting             `json:"settings,omitempty"`
	SettingKind      valve.SettingKind     `json:"setting-kind,omitzero"`
	MinPressureShare units.Ratio           `json:"min-pressure-share,omitzero"`
	ProportionalBand units.Ratio           `json:"proportional-band,omitzero"`
	MaxPressure      units.Pressure        `json:"max-pressure,omitzero"` // greatest pressure over the valve

	// FL, Fd and XFz are those of IEC 60534-2-1 and -8-4 at rated travel. Zero:
	// typical values of a contoured globe plug, or of a ball for rotary valves, and
	// the standard's estimate of xFz.
	FL  float64 `json:"fl,omitzero"`
	Fd  float64 `json:"fd,omitzero"`
	XFz float64 `json:"xfz,omitzero"`

	SeatArea units.Area   `json:"seat-area,omitzero"`
	Spring   units.Force  `json:"spring,omitzero"` // the valve's own spring
	Friction units.Force  `json:"friction,omitzero"`
	Torque   units.Torque `json:"torque,omitzero"` // needed to turn the stem at the greatest pressure

	// Actuators names those that the maker of the valve allows; empty: any that
	// fits.
	Actuators []string `json:"actuators,omitempty"`
}

// A Setting is one line of a pressure-independent valve's table.
type Setting struct {
	Mark        float64        `json:"mark" file:"required"`
	Flow        units.Flow     `json:"flow" file:"required"`
	MinPressure units.Pressure `json:"min-pressure" file:"required"`
}

// An ActuatorModel is one actuator of a catalogue with everything it can be set
// to.
type ActuatorModel struct {
	ID   string `json:"id" file:"required"`
	Body string `json:"body,omitempty"`

	Ranges      []signal.Range     `json:"ranges" file:"required"`
	Actions     []actuator.Action  `json:"actions" file:"required"`
	ClosingEnds []actuator.End     `json:"closing-ends" file:"required"`
	Shapings    []actuator.Shaping `json:"shapings" file:"required"`

	Strokes    []units.Length `json:"strokes,omitempty"`     // that can be set
	AdaptsFrom units.Length   `json:"adapts-from,omitzero"`  // least stroke that it adapts to
	AdaptsTo   units.Length   `json:"adapts-to,omitzero"`    // greatest one; zero: it does not adapt
	Angle      units.Angle    `json:"angle,omitzero"`        // of a rotary actuator
	Force      units.Force    `json:"force,omitzero"`        // of a linear one
	Torque     units.Torque   `json:"torque,omitzero"`       // of a rotary one
	RunTime    RunningTime    `json:"running-time,omitzero"` // for the greatest stroke or angle
	SpringTime RunningTime    `json:"spring-time,omitzero"`  // the same of its spring, without power

	Feedback      []signal.Range           `json:"feedback,omitempty"`
	FeedbackSense actuator.FeedbackSense   `json:"feedback-sense,omitzero"`   // not given: rises as the demand rises
	PowerLoss     []actuator.PowerLoss     `json:"power-loss,omitempty"`      // empty: holds
	OpenWire      []actuator.OpenWire      `json:"open-wire,omitempty"`       // empty: reads as zero signal
	BelowLiveZero []actuator.BelowLiveZero `json:"below-live-zero,omitempty"` // empty: reads as no demand
}

// ReadCatalogue reads a catalogue from JSON and checks it. All problems of the
// file are reported at once as [FileErrors]; an error of r itself is returned as
// it is.
func ReadCatalogue(r io.Reader) (Catalogue, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return Catalogue{}, err
	}
	var c Catalogue
	list := fileErrors(jsonfile.Decode(data, &c))
	if err := c.Validate(); err != nil {
		list = append(list, list.beside(c.place(data, err))...)
	}
	if err := list.inOrder(); err != nil {
		return Catalogue{}, err
	}
	return c, nil
}

// beside keeps those faults of a catalogue that do not follow from the problems with
// which it was read: where a model could not be read whole, only what it has in
// common with others is judged.
func (list FileErrors) beside(faults FileErrors) FileErrors {
	bad := map[string]bool{}
	for _, problem := range list {
		bad[modelOf(problem.Field)] = true
	}
	if bad["catalogue"] {
		return nil
	}
	return slices.DeleteFunc(faults, func(e *FileError) bool {
		shared := strings.HasSuffix(e.Field, ".id") || strings.Contains(e.Field, ".actuators[")
		return bad[modelOf(e.Field)] && !(shared && e.Value != `""`)
	})
}

// modelOf is the part of a path such as "valves[3].kvs" that names the model, or the
// whole list where there is none.
func modelOf(path string) string {
	model, _, _ := strings.Cut(path, ".")
	return model
}

func fileErrors(problems []jsonfile.Problem) FileErrors {
	var list FileErrors
	for _, p := range problems {
		at := position{p.Line, p.Column}
		if p.Path == "" {
			p.Path = "catalogue"
		}
		if p.Err != nil {
			list.addErr(at, p.Path, p.Value, p.Err)
			continue
		}
		list.add(at, p.Path, p.Value, p.Want)
	}
	return list
}

// place gives the faults of whole models the places of those models.
func (c *Catalogue) place(data []byte, err error) FileErrors {
	var list FileErrors
	for _, one := range flatten(err) {
		fault, ok := one.(*units.FieldError)
		if !ok {
			list.addErr(position{1, 1}, "catalogue", "the catalogue", one)
			continue
		}
		line, column := jsonfile.Locate(data, fault.Field)
		list.add(position{line, column}, fault.Field, fault.Value, fault.Want)
	}
	return list
}

// Validate reports everything that is wrong with the catalogue: models that
// cannot be built, names that stand twice, actuators that are named and not
// there.
func (c *Catalogue) Validate() error {
	l := check.List{Package: packageName}
	l.Require(len(c.Valves) > 0, "valves", "none", "at least one valve")
	l.Require(len(c.Actuators) > 0, "actuators", "none", "at least one actuator")
	seen := map[string]string{}
	for i := range c.Valves {
		path := "valves[" + strconv.Itoa(i) + "]"
		requireID(&l, path, c.Valves[i].ID, seen)
		c.Valves[i].validate(&l, path, c.hasActuator)
	}
	for i := range c.Actuators {
		path := "actuators[" + strconv.Itoa(i) + "]"
		requireID(&l, path, c.Actuators[i].ID, seen)
		c.Actuators[i].validate(&l, path)
	}
	return l.Err()
}

func requireID(l *check.List, path, id string, seen map[string]string) {
	if first, twice := seen[id]; twice {
		l.Fault(path+".id", strconv.Quote(id), "an id of its own: "+first+" has this one")
	}
	seen[id] = path
	l.Require(id != "", path+".id", `""`, "a name")
}

func (c *Catalogue) hasActuator(id string) bool {
	return slices.ContainsFunc(c.Actuators, func(a ActuatorModel) bool { return a.ID == id })
}

func (v *ValveModel) validate(l *check.List, path string, known func(string) bool) {
	check.Enum(l, path+".kind", v.Kind, lastKind)
	l.Require(v.Kind != AnyKind, path+".kind", v.Kind, "a kind of valve")
	l.Require((v.Stem == valve.Rotary) == v.Kind.rotary(), path+".stem", v.Stem, "a stem that goes with the kind "+v.Kind.String())
	l.Require(!v.Kind.independent() || v.Kvs == 0, path+".kvs", v.Kvs, "none: a pressure-independent valve has settings")
	l.Require(v.Kind.independent() || len(v.Settings) == 0, path+".settings", len(v.Settings), "none: a valve of the kind "+v.Kind.String()+" has a kvs")
	for i, id := range v.Actuators {
		l.Require(known(id), fmt.Sprintf("%s.actuators[%d]", path, i), strconv.Quote(id), "the id of an actuator of this catalogue")
	}
	check.NotNegative(l, path+".rating", v.Rating)
	check.NotNegative(l, path+".max-pressure", v.MaxPressure)
	check.NotNegative(l, path+".connection", v.Connection)
	check.NotNegative(l, path+".seat-area", v.SeatArea)
	check.NotNegative(l, path+".spring", v.Spring)
	check.NotNegative(l, path+".friction", v.Friction)
	check.NotNegative(l, path+".torque", v.Torque)
	for _, f := range []struct {
		name string
		x    float64
	}{{"fl", v.FL}, {"fd", v.Fd}, {"xfz", v.XFz}} {
		check.Within(l, path+"."+f.name, f.x, 0, 1)
	}
	_, err := v.build()
	addUnder(l, path, err)
}

func (a *ActuatorModel) validate(all *check.List, path string) {
	l := &check.List{Package: packageName}
	defer func() { all.Add(l.Err()) }()
	l.Require(len(a.Ranges) > 0, path+".ranges", "none", "at least one input range")
	l.Require(len(a.Actions) > 0, path+".actions", "none", "at least one action")
	l.Require(len(a.ClosingEnds) > 0, path+".closing-ends", "none", "at least one closing end")
	l.Require(len(a.Shapings) > 0, path+".shapings", "none", "at least one shaping")
	l.Require(a.AdaptsFrom >= 0 && a.AdaptsFrom <= a.AdaptsTo, path+".adapts-from", a.AdaptsFrom, "a stroke of zero … adapts-to")
	springs := slices.ContainsFunc(a.PowerLoss, func(p actuator.PowerLoss) bool { return p != actuator.Hold })
	l.Require(a.SpringTime == 0 || springs, path+".spring-time", a.SpringTime, "none: the actuator has no spring")
	linear := len(a.Strokes) > 0 || a.AdaptsTo > 0
	l.Require(linear != (a.Angle > 0), path+".strokes", fmt.Sprint(a.Strokes), "strokes to set or to adapt to, or else an angle")
	for i, s := range a.Strokes {
		check.Positive(l, fmt.Sprintf("%s.strokes[%d]", path, i), s)
	}
	if l.Err() == nil {
		for _, choice := range a.everySetting() {
			_, err := actuator.New(choice)
			addUnder(l, path, err)
		}
	}
}

// addUnder records the faults of a model under its place in the catalogue.
func addUnder(l *check.List, path string, err error) {
	if err == nil {
		return
	}
	for _, one := range flatten(err) {
		if fault, ok := one.(*units.FieldError); ok {
			l.Fault(path+"."+memberName(fault.Field), fault.Value, fault.Want)
			continue
		}
		l.Fault(path, one, "a model that can be built")
	}
}
