package schedule_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

const header = "tag,duty,supply,return,available pressure,branch drop,output range\n"

func TestReadCSVReadsEveryColumn(t *testing.T) {
	file := "\ufeffTag,serves,CIRCUIT,fluid,duty,supply,return,second_duty,second supply,second return,available pressure,branch drop," +
		"static pressure,shut-off head,valve kind,response,output range,output action,output low,output high," +
		"at zero signal,at open wire,at power loss,flow tolerance,# remark\r\n" +
		`F1,"Room 1, south",CHW,ethylene glycol 30 % mass,2.4 kW,6 °C,12 °C,3 kW,55 °C,45 °C,60 kPa,22 kPa,` +
		"4 bar,120 kPa,two-way,linear,4-20 mA,rising closes,5 mA,19 mA,open,closed,hold,7 %,anything\r\n\r\n"
	rows, err := schedule.ReadCSV(strings.NewReader(file))
	require.NoError(t, err)
	glycol, err := fluid.EthyleneGlycolByMass(0.3)
	require.NoError(t, err)
	want := []schedule.Row{{
		Tag: "F1", Serves: "Room 1, south", Circuit: "CHW", Fluid: glycol,
		Duty:       schedule.Duty{Heat: 2.4 * units.Kilowatt, Supply: units.Celsius(6), Return: units.Celsius(12)},
		SecondDuty: schedule.Duty{Heat: 3 * units.Kilowatt, Supply: units.Celsius(55), Return: units.Celsius(45)},
		Available:  60 * units.Kilopascal, BranchDrop: 22 * units.Kilopascal, StaticPressure: units.Gauge(4 * units.Bar), ShutOffHead: 120 * units.Kilopascal,
		Kind: schedule.TwoWay, Response: schedule.LinearResponse,
		Output: signal.Range4To20mA(), OutputAction: schedule.RisingCloses, OutputLow: signal.Milliamps(5), OutputHigh: signal.Milliamps(19),
		AtZeroSignal: schedule.WantOpen, AtOpenWire: schedule.WantClosed, AtPowerLoss: schedule.WantHold,
		Tolerance: 0.07, Line: 2,
	}}
	assert.Empty(t, cmp.Diff(want, rows))
}

func TestDifferenceStandsForTheReturn(t *testing.T) {
	file := "tag,duty,supply,difference,valve pressure,output range\n" +
		"C,1 kW,6 °C,6 K,20 kPa,0-10 V\nH,1 kW,70 °C,20 K,20 kPa,0-10 V\n"
	rows, err := schedule.ReadCSV(strings.NewReader(file))
	require.NoError(t, err)
	require.Len(t, rows, 2)
	assert.InDelta(t, 12, rows[0].Duty.Return.Celsius(), 1e-9)
	assert.True(t, rows[0].Duty.Cooling())
	assert.InDelta(t, 50, rows[1].Duty.Return.Celsius(), 1e-9)
	assert.False(t, rows[1].Duty.Cooling())
}

func TestStaticPressureIsGaugeOrSaysSo(t *testing.T) {
	for cell, want := range map[string]units.AbsolutePressure{
		"3 bar": units.Gauge(3 * units.Bar), "0 kPa": units.Atmospheric(), "-20 kPa": units.Gauge(-20 * units.Kilopascal), "3 bar abs": units.Absolute(3 * units.Bar), "": {},
	} {
		rows, err := schedule.ReadCSV(strings.NewReader("tag,duty,supply,return,valve pressure,output range,static pressure\nA,1 kW,6 °C,12 °C,20 kPa,0-10 V," + cell + "\n"))
		require.NoError(t, err, cell)
		assert.InDelta(t, float64(want.AboveVacuum()), float64(rows[0].StaticPressure.AboveVacuum()), 1e-9, cell)
	}
	_, err := schedule.ReadCSV(strings.NewReader("tag,duty,supply,return,valve pressure,output range,static pressure\nA,1 kW,6 °C,12 °C,20 kPa,0-10 V,-2 bar\n"))
	assert.ErrorContains(t, err, "2:35: static pressure: got")
}

// Each file has problems, told with line, column and rule.
func TestReadCSVReportsEveryProblem(t *testing.T) {
	for name, tt := range map[string]struct {
		file string
		want []string // starts of the problems
	}{
		"empty file":    {"", []string{"1:1: header: got an empty file"}},
		"only a header": {header, []string{"2:1: schedule: got no line"}},
		"semicolons":    {"tag;duty\n", []string{`1:1: header: got "tag;duty", want columns separated by commas`}},
		"missing column": {"tag,duty,supply\nA,1 kW,6 °C\n", []string{
			`1:1: header: got no column "output range"`, `1:1: header: got no column "return", want this column or "difference"`,
			`1:1: header: got no column "available pressure", want this column or "valve pressure"`,
		}},
		"unknown column": {"tag,duty,supply,return,valve pressure,output range,colour\n", []string{`1:52: header: got "colour", want one of tag,`}},
		"column twice":   {"tag,duty,supply,difference,available pressure,output range,tag\n", []string{`1:60: header: got "tag", want each column once`}},
		"decimal comma":  {header + `A,"2,4 kW",6 °C,12 °C,60 kPa,,0-10 V`, []string{`2:3: duty: got "2,4 kW", want a decimal point`}},
		"many at once": {header + "A,1 kW,6 °C,12 °C,60 kPa,,0-10 V\nA,-1 kW,6 °C,6 °C,,,0-12 X\nB,NaN,6,12 °C,1e999 kPa,1 furlong,0-10 V\n", []string{
			`3:1: tag: got "A", want a tag of its own: line 2 has this one`, "3:3: duty: got -1 kW", "3:15: return: got 6 °C", "3:21: available pressure: got nothing", "3:23: output range: got",
			`4:3: duty: got "NaN", want a finite number`, `4:7: supply: got "6", want a unit after the number`,
			`4:16: available pressure: got "1e999 kPa", want a finite number`, `4:26: branch drop: got "1 furlong", want one of the units`,
		}},
		"rules of a row": {header + "A,-1 kW,6 °C,6 °C,,,0-10 V\n", []string{
			"2:3: duty: got -1 kW, want a finite value above zero", "2:15: return: got 6 °C, want a temperature that differs",
			"2:21: available pressure: got nothing, want the pressure over the branch",
		}},
		"bad header, bad cell": {"tag,duty,supply,return,valve pressure,output ranges\nA,\"1,6 kW\",6 °C,12 °C,20 kPa,0-10 V\n", []string{
			`1:1: header: got no column "output range"`, `1:39: header: got "output ranges", want one of`, `2:3: duty: got "1,6 kW", want a decimal point and no thousands separators: the comma is ambiguous, write 1.6 kW`,
		}},
		"one bad cell hides no rule": {header + "A,3 kx,6 °C,12 °C,0 kPa,-22 kPa,0-10 V\n", []string{
			`2:3: duty: got "3 kx"`, "2:21: available pressure: got nothing", "2:27: branch drop: got -22 kPa",
		}},
		"nothing follows from a bad cell": {"tag,duty,supply,difference,valve pressure,output range,output low,output high\n" +
			"A,1 kW,6 °C,-6 K,20 kPa,0-10 V,,\nB,1 kW,six,6 K,20 kPa,0-10 V,,\nC,1 kW,6 °C,6 K,2 furlong,0-10 V,,\nD,1 kW,6 °C,6 K,20 kPa,0-10 V,12 V,\n", []string{
			"2:14: difference: got -6 K", `3:8: supply: got "six"`, `4:18: valve pressure: got "2 furlong"`, "5:32: output low: got 12 V",
		}},
		"temperatures of the liquid": {"tag,duty,supply,return,valve pressure,output range,fluid\n" +
			"A,1 kW,400 °C,12 °C,20 kPa,0-10 V,\nB,1 kW,6 °C,-6 °C,20 kPa,0-10 V,water\nC,1 kW,-60 °C,-50 °C,20 kPa,0-10 V,propylene glycol 30 % mass\n", []string{
			"2:8: supply: got 400 °C, want a temperature of water of 0 °C", "3:14: return: got -6 °C, want a temperature of water",
			"4:8: supply: got -60 °C", "4:16: return: got -50 °C",
		}},
		"decimal comma without quotation marks": {header + "A,2,4 kW,6 °C,12 °C,60 kPa,,0-10 V\n", []string{
			`2:1: line: got 8 cells, want 7 cells, as many as the header has; a decimal comma, as in "2,4 kW", splits a cell in two`,
		}},
		"a tag on two lines": {header + "\"A\nB\",1 kW,6 °C,12 °C,60 kPa,,0-10 V\n", []string{`2:1: tag: got "A\nB", want text in one line`}},
		"empty duty":         {header + "A,,6 °C,12 °C,60 kPa,,0-10 V\n", []string{"2:3: duty: got nothing, want a value"}},
		"supply that may heat or cool": {"tag,duty,supply,difference,valve pressure,output range\nA,1 kW,27 °C,5 K,20 kPa,0-10 V\n", []string{
			"2:15: difference: got 5 K, want a return temperature in its place: a supply of 27 °C may heat or cool",
		}},
		"UTF-16": {"\xff\xfet\x00a\x00", []string{"1:1: file: got text in UTF-16, want text in UTF-8"}},
		"enormous": {header + "A,1e300 kW,6 °C,6.001 °C,1e300 kPa,1 GPa,0-10 V\n", []string{
			"2:3: duty: got 1e+297 MW, want at most 10000 MW", "2:18: return: got 6.001 °C, want a temperature that differs", "2:28: available pressure: got 1e+300 kPa, want 0 kPa … 100000 kPa", "2:38: branch drop",
		}},
		"empty second duty": {"tag,duty,supply,return,second duty,second supply,second return,valve pressure,output range\nA,1 kW,6 °C,12 °C,,50 °C,40 °C,20 kPa,0-10 V\n", []string{
			"2:21: second duty: got nothing, want a finite value above zero",
		}},
		"below zero":      {header + "A,1 kW,6 °C,12 °C,-60 kPa,,0-10 V\n", []string{"2:21: available pressure: got -60 kPa"}},
		"no tag":          {header + ",1 kW,6 °C,12 °C,60 kPa,,0-10 V\n", []string{`2:1: tag: got nothing, want a value`}},
		"ragged line":     {header + "A,1 kW\n", []string{"2:1: line: got 2 cells, want 7 cells"}},
		"open quotation":  {header + `A,"1 kW,6 °C` + "\n", []string{"2:15: quotation marks"}},
		"not UTF-8":       {header + "A,1 kW,6 \xb0C,12 °C,60 kPa,,0-10 V\n", []string{"2:8: supply: got"}},
		"return and diff": {"tag,duty,supply,return,difference,valve pressure,output range\nA,1 kW,6 °C,12 °C,6 K,20 kPa,0-10 V\n", []string{"2:21: difference: got 6 K, want either"}},
		"limits": {"tag,duty,supply,return,valve pressure,output range,output low,output high\nA,1 kW,6 °C,12 °C,20 kPa,0-10 V,9 V,1 V\nB,1 kW,6 °C,12 °C,20 kPa,0-10 V,4 mA,\n", []string{
			"2:39: output high: got 1 V", "3:35: output low: got 4 mA",
		}},
	} {
		t.Run(name, func(t *testing.T) {
			rows, err := schedule.ReadCSV(strings.NewReader(tt.file))
			require.Error(t, err)
			assert.Nil(t, rows)
			assert.ErrorIs(t, err, units.ErrInvalid)
			var list schedule.FileErrors
			require.True(t, errors.As(err, &list))
			require.Len(t, list, len(tt.want), "%v", err)
			for i, want := range tt.want {
				assert.True(t, strings.HasPrefix(list[i].Error(), want), "%q\ndoes not start with\n%q", list[i].Error(), want)
			}
		})
	}
}

func TestReadErrorIsPassedOn(t *testing.T) {
	broken := errors.New("broken pipe")
	_, err := schedule.ReadCSV(iotest.ErrReader(broken))
	assert.ErrorIs(t, err, broken)
	_, err = schedule.ReadCatalogue(iotest.ErrReader(broken))
	assert.ErrorIs(t, err, broken)
}

// A hundred thousand bad lines are all reported, and the text of the error stays
// short.
func TestManyBadLines(t *testing.T) {
	const lines = 100_000
	file := header + strings.Repeat("A,x,6 °C,12 °C,60 kPa,,0-10 V\n", lines)
	_, err := schedule.ReadCSV(strings.NewReader(file))
	var list schedule.FileErrors
	require.True(t, errors.As(err, &list))
	assert.Len(t, list, 2*lines-1, "the duty of each line, and the tag of all but the first")
	assert.Less(t, len(err.Error()), 10_000)
	assert.Contains(t, err.Error(), fmt.Sprintf("and %d more", 2*lines-1-40))
}

func TestAMillionRows(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	const lines = 1_000_000
	var file strings.Builder
	file.WriteString(header)
	for i := range lines {
		fmt.Fprintf(&file, "%d,1 kW,6 °C,12 °C,60 kPa,,0-10 V\n", i)
	}
	rows, err := schedule.ReadCSV(strings.NewReader(file.String()))
	require.NoError(t, err)
	require.Len(t, rows, lines)
	assert.Equal(t, "999999", rows[lines-1].Tag)
}
