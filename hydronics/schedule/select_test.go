package schedule_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
	"github.com/indexrun/indexrun/valve/sizing"
)

// plain is a unit that the plain catalogue serves without a warning.
func plain() schedule.Row {
	return schedule.Row{
		Tag: "U", Duty: schedule.Duty{Heat: 2.4 * units.Kilowatt, Supply: units.Celsius(6), Return: units.Celsius(12)},
		Available: 60 * units.Kilopascal, BranchDrop: 22 * units.Kilopascal, ShutOffHead: 120 * units.Kilopascal,
		StaticPressure: units.Gauge(300 * units.Kilopascal), Output: signal.Range0To10V(),
	}
}

// independentValve and twoWayValve are invented.
func independentValve() schedule.ValveModel {
	return schedule.ValveModel{
		ID: "PI", Kind: schedule.PressureIndependent, Rating: 1600 * units.Kilopascal,
		Coldest: units.Celsius(0), Hottest: units.Celsius(90),
		Stroke: 5 * units.Millimetre, Characteristic: valve.Linear(50), ProportionalBand: 0.05, MaxPressure: 400 * units.Kilopascal,
		SeatArea: 110 * units.SquareMillimetre, Spring: 35 * units.Newton, Friction: 8 * units.Newton,
		Settings: []schedule.Setting{
			{Mark: 20, Flow: 100 * units.LitrePerHour, MinPressure: 16.2 * units.Kilopascal},
			{Mark: 100, Flow: 500 * units.LitrePerHour, MinPressure: 21 * units.Kilopascal},
		},
	}
}

func twoWayValve() schedule.ValveModel {
	return schedule.ValveModel{
		ID: "TW", Kind: schedule.TwoWay, Kvs: 0.63 * units.Kv, Rating: 1600 * units.Kilopascal,
		Stroke: 5 * units.Millimetre, Characteristic: valve.EqualPercentage(50), MaxPressure: 400 * units.Kilopascal,
	}
}

func smallDrive() schedule.ActuatorModel {
	return schedule.ActuatorModel{
		ID: "A", Ranges: []signal.Range{signal.Range0To10V(), signal.Range2To10V()},
		Actions: []actuator.Action{actuator.Direct, actuator.Reverse}, ClosingEnds: []actuator.End{actuator.Extended, actuator.Retracted},
		Shapings: []actuator.Shaping{actuator.Linear(), actuator.ZeroBasedEqualPercentage(50)}, Strokes: []units.Length{5 * units.Millimetre},
		Force: 120 * units.Newton, PowerLoss: []actuator.PowerLoss{actuator.Hold, actuator.SpringExtends},
		Feedback: []signal.Range{signal.Range0To10V()},
	}
}

func plainCatalogue() schedule.Catalogue {
	return schedule.Catalogue{
		Note: "invented", Valves: []schedule.ValveModel{independentValve()}, Actuators: []schedule.ActuatorModel{smallDrive()},
	}
}

func selectOne(t *testing.T, row schedule.Row, catalogue schedule.Catalogue) schedule.Unit {
	t.Helper()
	plan, err := schedule.Select([]schedule.Row{row}, catalogue)
	require.NoError(t, err)
	require.Len(t, plan.Units, 1)
	return plan.Units[0]
}

func kinds(list []schedule.Finding) []schedule.FindingKind {
	var kinds []schedule.FindingKind
	for _, f := range list {
		kinds = append(kinds, f.Kind)
	}
	return kinds
}

func TestPlainUnitHasNoWarning(t *testing.T) {
	u := selectOne(t, plain(), plainCatalogue())
	assert.Empty(t, u.Warnings)
	assert.Equal(t, "PI", u.Valve.Model.ID)
	// 2.4 kW over 6 K: 0.0953 l/s of water, which is mark 68.7 by a straight line
	// between 100 l/h at 20 and 500 l/h at 100 (recomputed by hand).
	assert.InDelta(t, 343.2, u.Design.Flow.In(units.LitrePerHour), 0.3)
	assert.InDelta(t, 20+80*(u.Design.Flow.In(units.LitrePerHour)-100)/400, u.Valve.Mark, 0.05)
	assert.InEpsilon(t, 38e3, float64(u.Valve.Has), 1e-12)
	assert.Equal(t, u.Valve.Has-u.Valve.Needs, u.Valve.Margin)

	assert.Equal(t, actuator.Reverse, u.Actuator.Config.Action, "a rising signal opens a push-to-close valve by retracting")
	assert.True(t, actuator.ZeroBasedEqualPercentage(50).Equal(u.Actuator.Config.Shaping), "equal percentage on a linear valve")
	assert.InEpsilon(t, float64((120-35-8)/110e-6), float64(u.Actuator.CloseOff), 1e-12)

	require.Len(t, u.Expected, 5)
	for i, volts := range []float64{0, 2.5, 5, 7.5, 10} {
		assert.Equal(t, signal.Volts(volts), u.Expected[i].Signal)
	}
	last := u.Expected[4]
	assert.InEpsilon(t, float64(u.Design.Flow), float64(last.Flow), 0.05, "within the proportional band")
	assert.Equal(t, signal.Volts(10), last.Feedback)
	assert.Zero(t, last.Stem, "open: the stem is in")
	assert.InEpsilon(t, 5e-3, float64(u.Expected[0].Stem), 1e-12)
}

func TestFeedbackTakesTheSenseOfTheCatalogue(t *testing.T) {
	c := plainCatalogue()
	c.Actuators[0].FeedbackSense = actuator.FeedbackExtending
	u := selectOne(t, plain(), c)
	require.Equal(t, actuator.FeedbackExtending, u.Actuator.Config.FeedbackSense)
	assert.Equal(t, signal.Volts(10), u.Expected[0].Feedback, "closed: the stem is out")
	assert.Equal(t, signal.Volts(0), u.Expected[4].Feedback, "open: the stem is in")
}

// Each change to the plain unit or catalogue brings one kind of warning.
func TestWarnings(t *testing.T) {
	type change func(*schedule.Row, *schedule.Catalogue)
	glycol, err := fluid.PropyleneGlycolByMass(0.2)
	require.NoError(t, err)
	for name, tt := range map[string]struct {
		change change
		want   []schedule.FindingKind
	}{
		"no valve":            {func(r *schedule.Row, _ *schedule.Catalogue) { r.Kind = schedule.TwoWay }, []schedule.FindingKind{schedule.NoValve}},
		"not enough pressure": {func(r *schedule.Row, _ *schedule.Catalogue) { r.BranchDrop = 45 * units.Kilopascal }, []schedule.FindingKind{schedule.NotEnoughPressure}},
		"no pressure at all":  {func(r *schedule.Row, _ *schedule.Catalogue) { r.BranchDrop = 75 * units.Kilopascal }, []schedule.FindingKind{schedule.NothingLeft, schedule.NotEnoughPressure, schedule.OutsideTolerance}},
		"nothing left": {func(r *schedule.Row, _ *schedule.Catalogue) {
			r.Available, r.BranchDrop = 70*units.Kilopascal, 80*units.Kilopascal
		}, []schedule.FindingKind{schedule.NothingLeft, schedule.OutsideTolerance}},
		"cannot move": {func(_ *schedule.Row, c *schedule.Catalogue) { c.Actuators[0].Force = 40 * units.Newton }, []schedule.FindingKind{schedule.TooWeak}},
		"cannot move against its spring": {func(_ *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Stem, c.Valves[0].Spring = valve.PushToOpen, 150*units.Newton
		}, []schedule.FindingKind{schedule.TooWeak}},
		"out of reach":     {func(r *schedule.Row, _ *schedule.Catalogue) { r.Duty.Heat *= 2 }, []schedule.FindingKind{schedule.FlowOutOfReach, schedule.OutsideTolerance}},
		"below the lowest": {func(r *schedule.Row, _ *schedule.Catalogue) { r.Duty.Heat /= 10 }, []schedule.FindingKind{schedule.BelowLowestSetting, schedule.OutsideTolerance}},
		"rating":           {func(r *schedule.Row, _ *schedule.Catalogue) { r.StaticPressure = units.Gauge(1550 * units.Kilopascal) }, []schedule.FindingKind{schedule.RatingExceeded}},
		"too hot": {func(r *schedule.Row, _ *schedule.Catalogue) {
			r.Duty = schedule.Duty{Heat: 4 * units.Kilowatt, Supply: units.Celsius(95), Return: units.Celsius(85)}
		}, []schedule.FindingKind{schedule.TemperatureOutside}},
		"above the limit": {func(r *schedule.Row, _ *schedule.Catalogue) { r.ShutOffHead = 450 * units.Kilopascal }, []schedule.FindingKind{schedule.AbovePressureLimit}},
		"close-off":       {func(_ *schedule.Row, c *schedule.Catalogue) { c.Actuators[0].Force = 50 * units.Newton }, []schedule.FindingKind{schedule.WeakCloseOff}},
		"range":           {func(r *schedule.Row, _ *schedule.Catalogue) { r.Output = signal.Range0To5V() }, []schedule.FindingKind{schedule.RangeNotSettable, schedule.OutsideTolerance}},
		"shunt":           {func(r *schedule.Row, _ *schedule.Catalogue) { r.Output = signal.Range4To20mA() }, []schedule.FindingKind{schedule.NeedsShunt}},
		"action": {func(_ *schedule.Row, c *schedule.Catalogue) {
			c.Actuators[0].Actions = []actuator.Action{actuator.Direct}
		}, []schedule.FindingKind{schedule.ActionNotSettable}},
		"shaping": {func(_ *schedule.Row, c *schedule.Catalogue) {
			c.Actuators[0].Shapings = []actuator.Shaping{actuator.Linear()}
		}, []schedule.FindingKind{schedule.ShapingNotSettable}},
		"stem": {func(_ *schedule.Row, c *schedule.Catalogue) {
			c.Actuators[0].ClosingEnds = []actuator.End{actuator.Retracted}
		}, []schedule.FindingKind{schedule.StemMismatch}},
		"stroke":                     {func(_ *schedule.Row, c *schedule.Catalogue) { c.Actuators[0].Strokes[0] = 5.5 * units.Millimetre }, []schedule.FindingKind{schedule.StrokeMismatch}},
		"no actuator":                {func(_ *schedule.Row, c *schedule.Catalogue) { c.Actuators[0].Strokes[0] = 2 * units.Millimetre }, []schedule.FindingKind{schedule.NoActuator}},
		"zero signal":                {func(r *schedule.Row, _ *schedule.Catalogue) { r.AtZeroSignal = schedule.WantOpen }, []schedule.FindingKind{schedule.WrongAtZeroSignal}},
		"open wire":                  {func(r *schedule.Row, _ *schedule.Catalogue) { r.AtOpenWire = schedule.WantOpen }, []schedule.FindingKind{schedule.WrongAtOpenWire}},
		"power loss":                 {func(r *schedule.Row, _ *schedule.Catalogue) { r.AtPowerLoss = schedule.WantOpen }, []schedule.FindingKind{schedule.WrongAtPowerLoss}},
		"power loss that can be met": {func(r *schedule.Row, _ *schedule.Catalogue) { r.AtPowerLoss = schedule.WantClosed }, nil},
		"freezing": {func(r *schedule.Row, c *schedule.Catalogue) {
			r.Fluid, r.Duty.Supply, r.Duty.Return = glycol, units.Celsius(-6), units.Celsius(0)
			c.Valves[0].Coldest = units.Celsius(-20)
		}, []schedule.FindingKind{schedule.FreezingMargin}},
		"limits": {func(r *schedule.Row, _ *schedule.Catalogue) { r.OutputHigh = signal.Volts(9) }, []schedule.FindingKind{schedule.LimitedSignal, schedule.OutsideTolerance}},
		"change-over": {func(r *schedule.Row, _ *schedule.Catalogue) {
			r.SecondDuty = schedule.Duty{Heat: units.Kilowatt, Supply: units.Celsius(50), Return: units.Celsius(40)}
		}, []schedule.FindingKind{schedule.ChangeOverFlows}},
		"oversized": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0] = twoWayValve()
			r.Available, r.BranchDrop, r.ValvePressure = 0, 0, 120*units.Kilopascal
			r.Duty.Heat = 1.2 * units.Kilowatt
		}, []schedule.FindingKind{schedule.Oversized}},
		"authority": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0] = twoWayValve()
			r.Available, r.BranchDrop = 150*units.Kilopascal, 115*units.Kilopascal
		}, []schedule.FindingKind{schedule.LowAuthority}},
		"fast": {func(_ *schedule.Row, c *schedule.Catalogue) { c.Valves[0].Connection = 7 * units.Millimetre }, []schedule.FindingKind{schedule.FastConnection}},
		"cavitation": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Connection = 16 * units.Millimetre
			r.Duty.Supply, r.Duty.Return = units.Celsius(88), units.Celsius(82)
			r.StaticPressure = units.Gauge(25 * units.Kilopascal)
		}, []schedule.FindingKind{schedule.Cavitation}},
		"no cavitation with the measured xFz of a special trim": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Connection, c.Valves[0].XFz = 16*units.Millimetre, 0.95
			r.Duty.Supply, r.Duty.Return = units.Celsius(88), units.Celsius(82)
			r.StaticPressure = units.Gauge(25 * units.Kilopascal)
		}, nil},
		"cavitation to the end": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Connection = 16 * units.Millimetre
			r.Available, r.StaticPressure = 300*units.Kilopascal, units.Gauge(10*units.Kilopascal)
		}, []schedule.FindingKind{schedule.Cavitation}},
		"boiling": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Hottest = units.Celsius(140)
			r.Duty = schedule.Duty{Heat: 5 * units.Kilowatt, Supply: units.Celsius(130), Return: units.Celsius(115)}
			r.StaticPressure = units.Gauge(10 * units.Kilopascal)
		}, []schedule.FindingKind{schedule.Boiling}},
		"shut-off head above the rating": {func(r *schedule.Row, c *schedule.Catalogue) {
			r.StaticPressure, c.Valves[0].Rating = units.AbsolutePressure{}, 100*units.Kilopascal
		}, []schedule.FindingKind{schedule.RatingExceeded}},
		"lower limit": {func(r *schedule.Row, _ *schedule.Catalogue) { r.OutputLow = signal.Volts(3) }, []schedule.FindingKind{schedule.NeverCloses}},
		"spring of the valve": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Stem = valve.PushToOpen
			c.Valves[0].Spring = 15 * units.Newton
			c.Actuators[0].ClosingEnds = []actuator.End{actuator.Retracted}
		}, []schedule.FindingKind{schedule.WeakSpring}},
		"spring of the valve not stated": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Stem, c.Valves[0].Spring = valve.PushToOpen, 0
			c.Actuators[0].ClosingEnds = []actuator.End{actuator.Retracted}
		}, nil},
		"open wire behind a shunt": {func(r *schedule.Row, c *schedule.Catalogue) {
			r.Output, r.AtOpenWire = signal.Range4To20mA(), schedule.WantOpen
			c.Actuators[0].OpenWire = []actuator.OpenWire{actuator.AsFullSignal}
			c.Actuators[0].BelowLiveZero = []actuator.BelowLiveZero{actuator.HoldBelowLiveZero}
		}, []schedule.FindingKind{schedule.NeedsShunt, schedule.WrongAtOpenWire}},
		"second duty cavitates": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Connection = 16 * units.Millimetre
			r.SecondDuty = schedule.Duty{Heat: 2.3 * units.Kilowatt, Supply: units.Celsius(88), Return: units.Celsius(82)}
			r.StaticPressure = units.Gauge(25 * units.Kilopascal)
		}, []schedule.FindingKind{schedule.Cavitation}},
		"open system": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Connection = 16 * units.Millimetre
			r.StaticPressure = units.Gauge(0)
			r.Available = 90 * units.Kilopascal
		}, []schedule.FindingKind{schedule.Cavitation}},
		"too long to adapt": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Actuators[0].Strokes, c.Actuators[0].AdaptsFrom, c.Actuators[0].AdaptsTo = nil, 6*units.Millimetre, 8*units.Millimetre
		}, []schedule.FindingKind{schedule.StrokeMismatch}},
		"no branch drop": {func(r *schedule.Row, _ *schedule.Catalogue) { r.BranchDrop = 0 }, []schedule.FindingKind{schedule.NoBranchDrop}},
		"mistyped cooling": {func(r *schedule.Row, _ *schedule.Catalogue) {
			r.Duty.Supply, r.Duty.Return = r.Duty.Return, r.Duty.Supply
		}, []schedule.FindingKind{schedule.DoubtfulDirection}},
		"mistyped heating": {func(r *schedule.Row, _ *schedule.Catalogue) {
			r.Duty = schedule.Duty{Heat: 3 * units.Kilowatt, Supply: units.Celsius(60), Return: units.Celsius(70)}
		}, []schedule.FindingKind{schedule.DoubtfulDirection}},
		"noise": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0].Connection = 16 * units.Millimetre
			r.NoiseLimit, r.StaticPressure = 5, units.Gauge(900*units.Kilopascal)
			r.Available = 350 * units.Kilopascal
			r.ShutOffHead = 380 * units.Kilopascal
		}, []schedule.FindingKind{schedule.Noise}},
		"thick": {func(r *schedule.Row, c *schedule.Catalogue) {
			c.Valves[0] = twoWayValve()
			c.Valves[0].Connection = 16 * units.Millimetre
			require.NoError(t, r.Fluid.UnmarshalText([]byte("propylene glycol 50 % mass")))
			r.Duty = schedule.Duty{Heat: 1.5 * units.Kilowatt, Supply: units.Celsius(-10), Return: units.Celsius(-4)}
		}, []schedule.FindingKind{schedule.ViscousFlow}},
	} {
		t.Run(name, func(t *testing.T) {
			row, catalogue := plain(), plainCatalogue()
			tt.change(&row, &catalogue)
			u := selectOne(t, row, catalogue)
			assert.Equal(t, tt.want, kinds(u.Warnings), "%v", u.Warnings)
			for _, f := range u.Warnings {
				assert.NotEmpty(t, f.What())
				assert.NotEmpty(t, f.Advice())
				assert.NotContains(t, f.String(), "{")
			}
		})
	}
}

// Valves that nobody would take without viscosity come back when it makes the others
// worse: more choice gives no worse an answer.
func TestViscosityBringsBackWhatWasLeftOut(t *testing.T) {
	row := plain()
	require.NoError(t, row.Fluid.UnmarshalText([]byte("propylene glycol 50 % mass")))
	row.Kind = schedule.TwoWay
	row.Duty = schedule.Duty{Heat: 350, Supply: units.Celsius(-4), Return: units.Celsius(-9)}
	row.BranchDrop = 20 * units.Kilopascal
	choice := func(variants int) *schedule.ValveChoice {
		catalogue := plainCatalogue()
		catalogue.Valves = nil
		for _, kvs := range []units.FlowCoefficient{0.1, 0.16, 0.25, 0.4, 0.63, 1, 1.6} {
			for i := range variants {
				v := twoWayValve()
				v.ID, v.Kvs, v.Connection = fmt.Sprintf("%v-%d", kvs, i), kvs*units.Kv, 12.6*units.Millimetre
				catalogue.Valves = append(catalogue.Valves, v)
			}
		}
		u := selectOne(t, row, catalogue)
		return &u.Valve
	}
	few, many := choice(1), choice(6)
	assert.Equal(t, few.Kvs, many.Kvs)
	assert.Positive(t, many.Margin)
}

// What set a valve behind the chosen one stands first, and is not what both have.
func TestRunnersUpSayWhatDecided(t *testing.T) {
	row, catalogue := plain(), plainCatalogue()
	row.AtZeroSignal = schedule.WantOpen // which no pair can give
	hot, twin := independentValve(), independentValve()
	hot.ID, hot.Hottest = "cold only", units.Celsius(8)
	twin.ID = "twin"
	catalogue.Valves = append(catalogue.Valves, hot, twin)
	u := selectOne(t, row, catalogue)
	require.Equal(t, "PI", u.Valve.Model.ID)
	require.Len(t, u.Valve.RunnersUp, 2)
	assert.Equal(t, []schedule.FindingKind{schedule.Later, schedule.WrongAtZeroSignal}, kinds(u.Valve.RunnersUp[0].Findings))
	assert.Equal(t, []schedule.FindingKind{schedule.TemperatureOutside, schedule.WrongAtZeroSignal}, kinds(u.Valve.RunnersUp[1].Findings))
	assert.Contains(t, u.Valve.Reason.String(), "of 3")
}

func TestAnActuatorIsShownAsItIs(t *testing.T) {
	catalogue := plainCatalogue()
	catalogue.Actuators[0].ClosingEnds = []actuator.End{actuator.Retracted}
	u := selectOne(t, plain(), catalogue)
	assert.Equal(t, actuator.Retracted, u.Actuator.Config.ClosingEnd)
	assert.Empty(t, u.Expected)
}

func TestSmallestValveWithoutFaultIsTaken(t *testing.T) {
	catalogue := plainCatalogue()
	large := independentValve()
	large.ID, large.Settings = "large", []schedule.Setting{
		{Mark: 1, Flow: 200 * units.LitrePerHour, MinPressure: 16 * units.Kilopascal},
		{Mark: 2, Flow: 900 * units.LitrePerHour, MinPressure: 22 * units.Kilopascal},
	}
	catalogue.Valves = []schedule.ValveModel{large, independentValve()}
	u := selectOne(t, plain(), catalogue)
	assert.Equal(t, "PI", u.Valve.Model.ID)
	require.Len(t, u.Valve.RunnersUp, 1)
	assert.Equal(t, "large", u.Valve.RunnersUp[0].Model.ID)
	assert.Equal(t, []schedule.FindingKind{schedule.Larger}, kinds(u.Valve.RunnersUp[0].Findings))
	assert.Contains(t, u.Valve.Reason.String(), "smallest, of 2")
}

// A two-way valve: the drop of the open valve, what a balancing valve takes, and
// both authorities, recomputed here from the definition of Kv.
func TestTwoWayValveInItsBranch(t *testing.T) {
	catalogue := plainCatalogue()
	catalogue.Valves[0] = twoWayValve()
	u := selectOne(t, plain(), catalogue)
	q := u.Design.Flow.In(units.CubicMetrePerHour)
	drop := math.Pow(q/0.63, 2) * float64(u.Design.Density) / 999.10 * 1e5
	assert.InEpsilon(t, drop, float64(u.Valve.Needs), 1e-9)
	assert.InEpsilon(t, 38e3-drop, float64(u.Valve.Throttle), 1e-9)
	require.True(t, u.Valve.AuthorityKnown)
	assert.InEpsilon(t, drop/60e3, u.Valve.Authority.Design, 1e-9)
	assert.InEpsilon(t, drop/(drop+22e3), u.Valve.Authority.Open, 1e-9)
	assert.InEpsilon(t, float64(u.Design.Flow), float64(u.Expected[4].Flow), 1e-9, "balanced to the design flow")
	half := u.Expected[2]
	phi := math.Pow(50, -0.5)
	installed := 1 / math.Sqrt(1-drop/60e3+drop/60e3/(phi*phi))
	assert.InEpsilon(t, installed, float64(half.Flow/u.Design.Flow), 1e-9, "VDI/VDE 2173")
}

func TestRisingClosesTurnsTheAction(t *testing.T) {
	row := plain()
	row.OutputAction = schedule.RisingCloses
	u := selectOne(t, row, plainCatalogue())
	assert.Equal(t, actuator.Direct, u.Actuator.Config.Action)
	assert.Greater(t, u.Expected[0].Flow, u.Expected[4].Flow)
	assert.Empty(t, u.Warnings)
}

// A controller that sends 10–0 V meets an actuator for 0–10 V by the action.
func TestInverseRangeTurnsTheAction(t *testing.T) {
	row := plain()
	row.Output = signal.Range0To10V().Inverse()
	u := selectOne(t, row, plainCatalogue())
	assert.Empty(t, u.Warnings)
	assert.Equal(t, signal.Range0To10V(), u.Actuator.Config.Input)
	assert.Equal(t, actuator.Direct, u.Actuator.Config.Action)
	assert.Equal(t, signal.Volts(0), u.Expected[4].Signal)
	assert.InEpsilon(t, float64(u.Design.Flow), float64(u.Expected[4].Flow), 0.05)
}

func TestCircuitsAddUp(t *testing.T) {
	a, b, c := plain(), plain(), plain()
	a.Tag, a.Circuit = "A", "CHW"
	b.Tag, b.Circuit, b.BranchDrop = "B", "CHW", 30*units.Kilopascal
	c.Tag, c.Circuit = "C", "LTHW"
	c.Duty = schedule.Duty{Heat: 3 * units.Kilowatt, Supply: units.Celsius(70), Return: units.Celsius(60)}
	plan, err := schedule.Select([]schedule.Row{a, b, c}, plainCatalogue())
	require.NoError(t, err)
	require.Len(t, plan.Circuits, 2)
	chw := plan.Circuits[0]
	assert.Equal(t, "CHW", chw.Name)
	assert.Equal(t, 2, chw.Units)
	assert.InEpsilon(t, 4800, float64(chw.Cooling), 1e-12)
	assert.Zero(t, chw.Heating)
	assert.Equal(t, "B", chw.Index)
	assert.InEpsilon(t, 3000, float64(plan.Circuits[1].Heating), 1e-12)
	index, need := plan.Index()
	assert.Equal(t, "B", index.Row.Tag)
	assert.Equal(t, index.Valve.Needs+30*units.Kilopascal, need)
}

// The processors share the rows, and the plan does not depend on how.
func TestPlanOfManyIsThePlanOfEach(t *testing.T) {
	demo, catalogue := demoFiles(t)
	var rows []schedule.Row
	for i := range 20 {
		for _, r := range demo {
			r.Tag += strings.Repeat("x", i)
			rows = append(rows, r)
		}
	}
	plan, err := schedule.Select(rows, catalogue)
	require.NoError(t, err)
	for i, r := range demo {
		alone := selectOne(t, r, catalogue)
		last := plan.Units[len(rows)-len(demo)+i]
		last.Row.Tag = r.Tag
		assert.Empty(t, cmp.Diff(alone.Expected, last.Expected), r.Tag)
		assert.Equal(t, kinds(alone.Warnings), kinds(last.Warnings), r.Tag)
	}
}

func TestSelectRefuses(t *testing.T) {
	frozen := plain()
	frozen.Tag, frozen.Duty.Supply = "frozen", units.Celsius(-5)
	twin := plain()
	for name, tt := range map[string]struct {
		rows      []schedule.Row
		catalogue schedule.Catalogue
		want      string
	}{
		"empty catalogue": {[]schedule.Row{plain()}, schedule.Catalogue{}, "valves"},
		"empty row":       {[]schedule.Row{{}}, plainCatalogue(), "tag"},
		"frozen":          {[]schedule.Row{plain(), frozen}, plainCatalogue(), `unit "frozen"`},
		"tags":            {[]schedule.Row{plain(), twin}, plainCatalogue(), "a tag of its own"},
	} {
		t.Run(name, func(t *testing.T) {
			plan, err := schedule.Select(tt.rows, tt.catalogue)
			require.Error(t, err)
			assert.Nil(t, plan)
			assert.True(t, errors.Is(err, units.ErrInvalid))
			assert.ErrorContains(t, err, tt.want)
		})
	}
}

func TestEmptyScheduleIsAnEmptyPlan(t *testing.T) {
	plan, err := schedule.Select(nil, plainCatalogue())
	require.NoError(t, err)
	index, need := plan.Index()
	assert.Nil(t, index)
	assert.Zero(t, need)
	var out strings.Builder
	require.NoError(t, plan.WriteText(&out))
	assert.Contains(t, out.String(), "None.")
}

// An actuator that sees no valid signal and holds tells no position: nothing of the
// plan may be NaN.
func TestHeldOutputs(t *testing.T) {
	row, catalogue := plain(), plainCatalogue()
	drive := &catalogue.Actuators[0]
	drive.Ranges, drive.BelowLiveZero = []signal.Range{signal.Range2To10V()}, []actuator.BelowLiveZero{actuator.HoldBelowLiveZero}
	plan, err := schedule.Select([]schedule.Row{row}, catalogue)
	require.NoError(t, err)
	u := plan.Units[0]
	assert.Equal(t, []schedule.FindingKind{schedule.RangeNotSettable}, kinds(u.Warnings))
	assert.Equal(t, schedule.Expectation{Output: 0, Signal: signal.Volts(0), Held: true}, u.Expected[0])
	assert.False(t, u.Expected[4].Held)
	assert.Positive(t, u.Expected[4].Flow)
	var text, csv, json bytes.Buffer
	require.NoError(t, errors.Join(plan.WriteText(&text), plan.WriteCSV(&csv), plan.WriteJSON(&json)))
	for _, form := range []string{text.String(), csv.String(), json.String()} {
		assert.NotContains(t, form, "NaN")
	}
	assert.Contains(t, text.String(), "0.00 V         –    holds           –          –\n")
	assert.Contains(t, csv.String(), "0.00 V,,holds,,")
	assert.Contains(t, json.String(), `"held": true`)

	drive.Ranges, drive.OpenWire = []signal.Range{signal.Range0To5V()}, []actuator.OpenWire{actuator.HoldOnOpenWire}
	row.Output = signal.Range4To20mA()
	u = selectOne(t, row, catalogue)
	assert.True(t, u.Expected[0].Held && u.Expected[4].Held)
	assert.Equal(t, []schedule.FindingKind{schedule.RangeNotSettable}, kinds(u.Warnings))
}

// Where nothing is large enough the largest is nearest.
func TestOfHopelessValvesTheNearestIsTaken(t *testing.T) {
	row, catalogue := plain(), plainCatalogue()
	row.Duty.Heat = 20 * units.Megawatt
	for i := range 3 {
		v := independentValve()
		v.ID = "V" + string(rune('A'+i))
		for j := range v.Settings {
			v.Settings[j].Flow *= units.Flow(math.Pow(3, float64(i)))
		}
		catalogue.Valves = append(catalogue.Valves, v)
	}
	u := selectOne(t, row, catalogue)
	assert.Equal(t, "VC", u.Valve.Model.ID)
	assert.Equal(t, "VB", u.Valve.RunnersUp[0].Model.ID)
}

// A running time is that of the greatest stroke, at one speed.
func TestRunningTimeOfTheStrokeThatIsSet(t *testing.T) {
	catalogue := plainCatalogue()
	catalogue.Actuators[0].Strokes = []units.Length{5 * units.Millimetre, 20 * units.Millimetre}
	catalogue.Actuators[0].RunTime = schedule.RunningTime(80 * time.Second)
	u := selectOne(t, plain(), catalogue)
	assert.Equal(t, 20*time.Second, u.Actuator.Config.RunningTime)
	assert.Equal(t, 20*time.Second, u.Actuator.FullTime)
	assert.Zero(t, u.Actuator.Config.SpringTime, "it holds")

	catalogue.Actuators[0].SpringTime = schedule.RunningTime(12 * time.Second)
	row := plain()
	row.AtPowerLoss = schedule.WantClosed
	u = selectOne(t, row, catalogue)
	assert.Equal(t, actuator.SpringExtends, u.Actuator.Config.PowerLoss)
	assert.Equal(t, 3*time.Second, u.Actuator.Config.SpringTime)
	catalogue.Actuators[0].PowerLoss = nil
	_, err := schedule.Select([]schedule.Row{plain()}, catalogue)
	assert.ErrorContains(t, err, "spring-time: got 12s, want none")
}

// A setting that stops the stem leaves a part of the stroke: a fixed stroke no longer
// fits, one that is set does, and the curve that is left is another one. With ratio R =
// 50 half a lift makes R^½ = 7.07 of it: alone it passes 0.38 of the flow at half
// output, with an equal-percentage shaping on top it misses the 0.14 wanted by 0.11 at
// its worst.
func TestLiftLimitingSettings(t *testing.T) {
	row, catalogue := plain(), plainCatalogue()
	v := &catalogue.Valves[0]
	v.SettingKind, v.Characteristic, v.Leakage = valve.LiftLimiting, valve.EqualPercentage(50), 0.0001
	v.Settings[1].Flow = 2433 * units.LitrePerHour // the design flow is 1/√50 of it: half the lift
	v.Settings[0].Flow = 200 * units.LitrePerHour
	u := selectOne(t, row, catalogue)
	assert.Equal(t, []schedule.FindingKind{schedule.ShapingNotSettable, schedule.StrokeMismatch}, kinds(u.Warnings))
	assert.Contains(t, u.Warnings[1].What(), "the actuator makes 5 mm, the valve 2.5 mm")
	assert.Equal(t, "zero-based-equal-percentage 50", u.Actuator.Config.Shaping.String())

	catalogue.Actuators[0].Strokes = []units.Length{2.5 * units.Millimetre, 5 * units.Millimetre}
	u = selectOne(t, row, catalogue)
	assert.Equal(t, []schedule.FindingKind{schedule.ShapingNotSettable}, kinds(u.Warnings))
	assert.InEpsilon(t, 2.5e-3, float64(u.Actuator.Config.Stroke), 1e-12)
	for _, e := range u.Expected {
		assert.InDelta(t, min(1, e.Travel/0.5), actuator.ZeroBasedEqualPercentage(50).At(e.Output), 0.01, "the whole signal counts")
	}
	v.Settings[1].Flow = 400 * units.LitrePerHour // nearly the whole lift
	u = selectOne(t, row, catalogue)
	assert.Equal(t, "linear", u.Actuator.Config.Shaping.String())
}

// The setting of a pressure-independent valve for thick liquid: at its mark water has
// the design flow over the ratio of the Reynolds factors of IEC 60534-2-1, which are
// worked out here with the standard's equation for the pressures of that flow.
func TestViscousSetting(t *testing.T) {
	row, catalogue := plain(), plainCatalogue()
	v := &catalogue.Valves[0]
	v.Connection, v.Coldest = 16*units.Millimetre, units.Celsius(-20)
	require.NoError(t, row.Fluid.UnmarshalText([]byte("propylene glycol 50 % mass")))
	row.Duty = schedule.Duty{Heat: 0.5 * units.Kilowatt, Supply: units.Celsius(-10), Return: units.Celsius(-7)}
	u := selectOne(t, row, catalogue)
	assert.Equal(t, []schedule.FindingKind{schedule.ViscousFlow}, kinds(u.Warnings))

	atMark := func(mark float64) (units.Flow, units.Pressure) { // water
		share := (mark - 20) / 80
		q := (100 + 400*share) * float64(units.LitrePerHour)
		low, high := math.Pow(100*float64(units.LitrePerHour), 2), math.Pow(500*float64(units.LitrePerHour), 2)
		return units.Flow(q), units.Pressure(16.2e3 + 4.8e3*(q*q-low)/(high-low))
	}
	water, needs := atMark(u.Valve.Mark)
	assert.InEpsilon(t, float64(needs), float64(u.Valve.Needs), 1e-9)
	liquid := u.Design.Liquid
	thin := water * units.Flow(math.Sqrt(float64(valve.ReferenceDensity/liquid.Density())))
	factor := func(q units.Flow, state fluid.State) float64 {
		kv := valve.CoefficientFor(thin, needs, liquid.Density())
		at := sizing.Case{
			Liquid: sizing.Liquid{Density: state.Density(), VapourPressure: units.Absolute(units.Kilopascal), Viscosity: state.KinematicViscosity()},
			Inlet:  units.Absolute(100 * units.Bar), Valve: sizing.GlobeContouredOpening.Valve(16 * units.Millimetre),
		}
		lo, hi := units.Pressure(1), 99*units.Bar // the pressure that makes the flow, by halving
		for range 200 {
			middle := (lo + hi) / 2
			at.Outlet = at.Inlet.Add(-middle)
			r, err := sizing.Flow(kv, at)
			require.NoError(t, err)
			if r.Flow < q {
				lo = middle
			} else {
				hi = middle
			}
		}
		r, err := sizing.Flow(kv, at)
		require.NoError(t, err)
		return r.FR
	}
	state, err := fluid.Water().At(units.Celsius(20), units.Absolute(300*units.Kilopascal))
	require.NoError(t, err)
	ratio := factor(u.Design.Flow, liquid) / factor(thin, state)
	assert.Less(t, ratio, 0.8)
	assert.InEpsilon(t, float64(u.Design.Flow), ratio*float64(thin), 1e-6)
	assert.InEpsilon(t, float64(u.Design.Flow), float64(u.Expected[4].Flow), 0.05, "within the proportional band")
}
