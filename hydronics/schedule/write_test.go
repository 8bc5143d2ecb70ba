package schedule_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func plainPlan(t *testing.T) *schedule.Plan {
	plan, err := schedule.Select([]schedule.Row{plain()}, plainCatalogue())
	require.NoError(t, err)
	return plan
}

func TestWriteTextOfOneUnit(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, plainPlan(t).WriteText(&out))
	text := out.String()
	for _, want := range []string{
		"SETTING SHEET: 1 unit\nCatalogue: invented\n",
		"U     –       2.40 kW  6.0 °C  12.0 °C  0.0953 l/s  PI     mark 68.7  18.4 kPa  38.0 kPa  19.6 kPa          –         –\n",
		"U     A         0-10 V  reverse  extended  zero-based-equal-percentage 50  5.0 mm            –  0-10 V    hold        as-zero-signal  –                     700.0 kPa\n",
		"        50 %   5.00 V    1.24 V  4.38 mm  0.0136 l/s       14 %\n",
		"Most pressure is needed by U: 40.4 kPa over its branch.\n",
		"Warnings\nNone.\n",
	} {
		assert.Contains(t, text, want)
	}
	assert.True(t, strings.HasSuffix(text, schedule.Cautions))
}

// The quantities of the JSON form lose nothing.
func TestWriteJSONIsLossless(t *testing.T) {
	plan := plainPlan(t)
	var out bytes.Buffer
	require.NoError(t, plan.WriteJSON(&out))
	var got struct {
		Units []struct {
			Tag        string
			DesignFlow units.Flow `json:"design-flow"`
			Valve      struct {
				ID    string
				Mark  float64
				Needs units.Pressure
			}
			Actuator struct{ Settings actuator.Config }
			Expected []struct {
				Signal signal.Signal
				Flow   units.Flow
			}
		}
		Index string `json:"index-unit"`
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &got))
	require.Len(t, got.Units, 1)
	u := plan.Units[0]
	assert.Equal(t, u.Design.Flow, got.Units[0].DesignFlow)
	assert.Equal(t, u.Valve.Mark, got.Units[0].Valve.Mark)
	assert.Equal(t, u.Valve.Needs, got.Units[0].Valve.Needs)
	assert.Empty(t, cmp.Diff(u.Actuator.Config, got.Units[0].Actuator.Settings), "settings can be built again")
	require.Len(t, got.Units[0].Expected, 5)
	assert.Equal(t, u.Expected[3].Flow, got.Units[0].Expected[3].Flow)
	assert.Equal(t, u.Expected[3].Signal, got.Units[0].Expected[3].Signal)
	assert.Equal(t, "U", got.Index)
}

// Every cell of a quantity can be read back by its Parse function.
func TestWriteCSVHasUnitsInTheCells(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, plainPlan(t).WriteCSV(&out))
	lines, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, lines, 2)
	cell := map[string]string{}
	for i, name := range lines[0] {
		cell[name] = lines[1][i]
	}
	flow, err := units.ParseFlow(cell["design flow"])
	require.NoError(t, err)
	assert.InDelta(t, 0.0953, flow.In(units.LitrePerSecond), 1e-9)
	_, err = units.ParsePressure(cell["needs"])
	assert.NoError(t, err)
	_, err = signal.Parse(cell["feedback at 50 %"])
	assert.NoError(t, err)
	_, err = units.ParseLength(cell["stem at 25 %"])
	assert.NoError(t, err)
	assert.Equal(t, "reverse", cell["action"])
	assert.Empty(t, cell["warnings"])
}

// failing accepts so many bytes and then fails.
type failing struct{ left int }

var errFull = errors.New("disk full")

func (f *failing) Write(p []byte) (int, error) {
	if f.left -= len(p); f.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestWriteErrorsArePassedOn(t *testing.T) {
	plan := plainPlan(t)
	for _, room := range []int{0, 40, 900} {
		assert.ErrorIs(t, plan.WriteText(&failing{room}), errFull)
	}
	assert.ErrorIs(t, plan.WriteCSV(&failing{10}), errFull)
	assert.ErrorIs(t, plan.WriteJSON(&failing{10}), errFull)
}

func TestWordsOfTheChoices(t *testing.T) {
	row := plain()
	row.Kind, row.Response, row.OutputAction, row.AtOpenWire, row.NoiseLimit = schedule.RotaryTwoWay, schedule.LinearResponse, schedule.RisingCloses, schedule.WantHold, 42
	text, err := json.Marshal(row)
	require.NoError(t, err)
	var back schedule.Row
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, row, back)
	for kind := schedule.NoValve; kind <= schedule.Later; kind++ {
		word, err := kind.MarshalText()
		require.NoError(t, err)
		var got schedule.FindingKind
		require.NoError(t, got.UnmarshalText(word))
		assert.Equal(t, kind, got)
	}
	var level schedule.SoundLevel
	assert.ErrorIs(t, level.UnmarshalText([]byte("42 dB")), units.ErrInvalid)
	var time schedule.RunningTime
	assert.ErrorIs(t, time.UnmarshalText([]byte("75")), units.ErrInvalid)
}

// A plan within a larger document is what WriteJSON writes.
func TestMarshalIsWriteJSON(t *testing.T) {
	plan := plainPlan(t)
	var indented, compact bytes.Buffer
	require.NoError(t, plan.WriteJSON(&indented))
	data, err := json.Marshal(struct{ Plan schedule.Plan }{*plan})
	require.NoError(t, err)
	require.NoError(t, json.Compact(&compact, indented.Bytes()))
	assert.JSONEq(t, `{"Plan":`+compact.String()+`}`, string(data))
}
