package schedule

import (
	"encoding/json"
	"math"
	"strings"

	"github.com/indexrun/indexrun/internal/words"
)

// A Finding is something about a unit that somebody must know or do: a warning
// of the plan, or the reason why a model was not chosen.
type Finding struct {
	Kind FindingKind
	Got  Value // what is there; empty where the kind says it all
	Want Value // what it is compared with; empty where the kind says it all
}

// FindingKind tells what was found.
type FindingKind uint8

// The kinds of finding. Limits that the kinds speak of are constants of this
// package or figures of the schedule and the catalogue.
const (
	NoValve FindingKind = iota
	NoActuator
	TooWeak
	NothingLeft
	NotEnoughPressure
	FlowOutOfReach
	BelowLowestSetting
	Oversized
	LowAuthority
	RatingExceeded
	TemperatureOutside
	AbovePressureLimit
	RangeNotSettable
	NeedsShunt
	ActionNotSettable
	ShapingNotSettable
	StemMismatch
	StrokeMismatch
	WeakCloseOff
	WeakSpring
	WrongAtZeroSignal
	WrongAtOpenWire
	WrongAtPowerLoss
	FreezingMargin
	LimitedSignal
	ChangeOverFlows
	OutsideTolerance
	FastConnection
	ViscousFlow
	Cavitation
	Boiling
	Noise
	NoBranchDrop
	DoubtfulDirection
	NeverCloses
	Larger
	Later
	lastFindingKind = Later
)

// findingText is how a kind is named, weighed and told. A weight of a
// thousand means that the pair cannot work; the weights of the others rank
// what is worse, and are this package's own.
type findingText struct {
	word   string
	weight int
	text   string // {got} and {want} stand for the values
	advice string
}

var findingTexts = [...]findingText{
	NoValve:            {"no-valve", 1000, "the catalogue has no valve of the kind {want}", "add one to the catalogue or ask for another kind"},
	NoActuator:         {"no-actuator", 1000, "no actuator of the catalogue fits the valve {want}", "add one that can be mounted on it: linear or rotary as the valve is, of about its stroke or angle, and among those that the catalogue allows"},
	TooWeak:            {"too-weak", 900, "the actuator makes {got}, the valve needs {want} to move", "take a stronger actuator"},
	NothingLeft:        {"nothing-left", 0, "the branch without the valve takes {got} of the {want} there: nothing is left for the valve", "raise the pressure at the branch or lower its other losses; the valve is chosen for three tenths of the pressure there"},
	NotEnoughPressure:  {"not-enough-pressure", 400, "the valve needs {want} and gets {got}", "raise the pressure at the branch, lower its other losses or take a larger valve"},
	FlowOutOfReach:     {"flow-out-of-reach", 900, "the highest setting gives {got}, the unit needs {want}", "take a larger valve or two in parallel"},
	BelowLowestSetting: {"below-lowest-setting", 60, "the lowest setting gives {got}, the unit needs {want}", "take a smaller valve or expect more than the design flow"},
	Oversized:          {"oversized", 40, "with this liquid the coefficient is {got}, {want} would do", "take a smaller valve: this one works near its seat"},
	LowAuthority:       {"low-authority", 80, "the authority is {got}, {want} is the least to aim at", "give the valve a larger share of the branch's pressure, or take a pressure-independent valve"},
	RatingExceeded:     {"rating-exceeded", 500, "the body is rated for {want}, static pressure and shut-off head make {got}", "take a body of a higher rating"},
	TemperatureOutside: {"temperature-outside", 500, "the liquid reaches {got}, the valve is made for {want}", "take a valve made for that temperature"},
	AbovePressureLimit: {"above-pressure-limit", 150, "up to {got} can stand over the valve, its greatest is {want}", "limit the pressure of the branch with a differential pressure controller"},
	RangeNotSettable:   {"range-not-settable", 300, "the controller sends {want}, which the actuator cannot be set to: it takes {got}", "change the controller's output range or the actuator"},
	NeedsShunt:         {"needs-shunt", 5, "the controller sends {want} and the actuator takes {got}: a shunt makes one of the other", "fit the resistor that the actuator settings name, of 0.1 %, across its input"},
	ActionNotSettable:  {"action-not-settable", 300, "a rising signal would move the valve the wrong way: the action must be {want}, the actuator has {got}", "reverse the controller's output or take another actuator"},
	ShapingNotSettable: {"shaping-not-settable", 30, "with the shaping {got} the response is not {want}", "take an actuator with a matching shaping, or a valve with that characteristic"},
	StemMismatch:       {"stem-mismatch", 250, "the valve closes with the stem {want}, the actuator is made for {got}", "take an actuator whose closing end can be set"},
	StrokeMismatch:     {"stroke-mismatch", 100, "the actuator makes {got}, the valve {want}", "set the actuator's stroke to the valve's or take a self-adapting one"},
	WeakCloseOff:       {"weak-close-off", 200, "the actuator closes against {got}, the pump can make {want}", "take a stronger actuator"},
	WeakSpring:         {"weak-spring", 200, "the valve's own spring closes it against {got}, the pump can make {want}", "limit the pressure over the branch, or take a valve with a stronger spring or a smaller seat"},
	WrongAtZeroSignal:  {"wrong-at-zero-signal", 60, "at the lower end of the signal the valve ends {got}, wanted is {want}", "let the controller's output run the other way, with the actuator's action to match; at a signal that is valid no actuator holds"},
	WrongAtOpenWire:    {"wrong-at-open-wire", 40, "with the signal wire open the valve ends {got}, wanted is {want}", "take another actuator, or a live-zero range with a set failure position"},
	WrongAtPowerLoss:   {"wrong-at-power-loss", 90, "without power the valve ends {got}, wanted is {want}", "take an actuator that does so: one with a spring to that end, or one without a spring to hold"},
	FreezingMargin:     {"freezing-margin", 0, "the liquid comes within {got} of freezing, {want} is the least to keep", "keep the liquid warmer, or raise its share of glycol"},
	LimitedSignal:      {"limited-signal", 0, "the controller's limits end the demand at {got}, the valve is fully open at {want}", "widen the limits of the output"},
	ChangeOverFlows:    {"change-over-flows", 0, "the second duty needs {got}, the setting is for {want}", "let the controller limit its output in that season, or accept the larger flow"},
	OutsideTolerance:   {"outside-tolerance", 0, "full signal is expected to give {got}, the design flow is {want}", "see the other warnings of this unit; where there is none, limit the pressure over the valve or correct its setting by as much"},
	FastConnection:     {"fast-connection", 20, "the liquid runs at {got} in the valve's connection, {want} is the most to aim at", "take a larger body"},
	ViscousFlow:        {"viscous-flow", 10, "flow through the valve is not turbulent: its coefficient falls to {got} of the rated one", "nothing at design flow, where this is reckoned with; expect less than shown at small openings and in the cold"},
	Cavitation:         {"cavitation", 120, "throttled, the valve reaches a pressure ratio xF of {got}, cavitation begins at {want}", "raise the static pressure, lower the pressure over the valve or take a trim with a higher xFz"},
	Boiling:            {"boiling", 0, "the liquid boils at {want} where it is hottest, the static pressure makes {got}", "check the static pressure and the temperatures: this unit cannot run so"},
	NoBranchDrop:       {"no-branch-drop", 0, "the branch counts as having no pressure drop beside the valve's", "give the drop of terminal, pipes and fittings at design flow"},
	DoubtfulDirection:  {"doubtful-direction", 0, "a supply of {got} with a return of {want} is unusual for either season", "check the temperatures"},
	NeverCloses:        {"never-closes", 0, "at the closing end of the controller's output the valve stays open by {want} of its travel and passes {got}", "widen the limits of the output, or give controller and actuator the same range"},
	Noise:              {"noise", 30, "the valve is expected to make {got} at 1 m, {want} is the limit", "lower the pressure over the valve or take a larger or quieter one"},
	Larger:             {"larger", 1, "it is larger", "nothing, if it must be taken"},
	Later:              {"later", 1, "it is as good, and comes later in the catalogue", "nothing, if it must be taken"},
}

var findingWords = func() words.List {
	l := words.List{Package: packageName, Field: "finding"}
	for _, t := range findingTexts {
		l.Words = append(l.Words, t.word)
	}
	return l
}()

// String returns the word for the kind, such as "low-authority".
func (k FindingKind) String() string { return findingWords.Text(uint8(k)) }

// MarshalText returns the word for the kind.
func (k FindingKind) MarshalText() ([]byte, error) { return findingWords.Marshal(uint8(k)) }

// UnmarshalText reads the word.
func (k *FindingKind) UnmarshalText(text []byte) error { return words.Into(&findingWords, text, k) }

// What says in a sentence what was found.
func (f Finding) What() string {
	return strings.NewReplacer("{got}", f.Got.String(), "{want}", f.Want.String()).Replace(f.text().text)
}

// Advice says what can be done about it.
func (f Finding) Advice() string { return f.text().advice }

// String returns What and Advice in one line.
func (f Finding) String() string { return f.What() + ": " + f.Advice() }

// MarshalJSON writes the kind, the two texts and the values.
func (f Finding) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Kind   FindingKind `json:"kind"`
		What   string      `json:"what"`
		Advice string      `json:"advice"`
	}{f.Kind, f.What(), f.Advice()})
}

func (f Finding) text() *findingText { return &findingTexts[min(f.Kind, lastFindingKind)] }

// findings is a list being made, with the weight of each and their sum.
type findings struct {
	list    []Finding
	weights []int
	weight  int
}

func (fs *findings) add(kind FindingKind, got, want Value) { fs.addScaled(kind, got, want, 1) }

// addScaled adds a finding whose weight grows with how far the limit is missed.
func (fs *findings) addScaled(kind FindingKind, got, want Value, times float64) {
	weight := int(float64(findingTexts[kind].weight) * growth(times))
	fs.list, fs.weights = append(fs.list, Finding{kind, got, want}), append(fs.weights, weight)
	fs.weight += weight
}

// of is the weight of the findings of one kind.
func (fs *findings) of(kind FindingKind) int {
	sum := 0
	for i, f := range fs.list {
		if f.Kind == kind {
			sum += fs.weights[i]
		}
	}
	return sum
}

// growth is by how much a weight grows with the times that a limit is missed. It is
// bounded, so that what cannot work stays the worst, and still rises beyond what
// counts, so that of two hopeless choices the nearer one is taken.
func growth(times float64) float64 {
	const (
		counts = 14.0
		decade = 0.03 // for each power of ten beyond
	)
	if times < counts {
		return times
	}
	return min(counts+float64(decade*math.Log10(times/counts)), counts+1)
}

func (fs *findings) reset() { fs.list, fs.weights, fs.weight = fs.list[:0], fs.weights[:0], 0 }
