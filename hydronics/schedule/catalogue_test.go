package schedule_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/schedule"
	"github.com/indexrun/indexrun/units"
)

const oneValve = `{"id": "V", "kind": "two-way", "kvs": "1 Kv", "stem": "push-to-close", "stroke": "5 mm", "characteristic": "linear 50"}`
const oneActuator = `{"id": "A", "ranges": ["0-10 V"], "actions": ["reverse"], "closing-ends": ["extended"], "shapings": ["linear"], "strokes": ["5 mm"]}`

func catalogueOf(valves, actuators string) string {
	return "{\"valves\": [" + valves + "],\n \"actuators\": [" + actuators + "]}"
}

func TestReadCatalogue(t *testing.T) {
	c, err := schedule.ReadCatalogue(strings.NewReader(catalogueOf(oneValve, oneActuator)))
	require.NoError(t, err)
	require.Len(t, c.Valves, 1)
	assert.Equal(t, units.Kv, c.Valves[0].Kvs)
	assert.Equal(t, 5*units.Millimetre, c.Actuators[0].Strokes[0])
}

// A catalogue written by encoding/json is read back as it was.
func TestCatalogueRoundTrip(t *testing.T) {
	_, want := demoFiles(t)
	text, err := json.Marshal(want)
	require.NoError(t, err)
	got, err := schedule.ReadCatalogue(bytes.NewReader(text))
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(want, got))
}

func TestReadCatalogueReportsEveryProblem(t *testing.T) {
	for name, tt := range map[string]struct {
		file string
		want []string
	}{
		"empty":             {"", []string{"1:1:"}},
		"nothing to choose": {`{"valves": [], "actuators": []}`, []string{"1:12: valves: got none", "1:29: actuators: got none"}},
		"missing":           {`{"valves": []}`, []string{"1:1: actuators: got nothing, want this member: it is required", "1:12: valves: got none"}},
		"unknown member": {`{"valves": [], "actuators": [], "colour": 1}`, []string{
			"1:12: valves: got none", "1:29: actuators: got none", `1:33: colour: got "colour", want one of the members note, valves, actuators`,
		}},
		"a bad cell hides no other fault": {catalogueOf(strings.NewReplacer("1 Kv", "1,5 Kv", `"id"`, `"actuators": ["B"], "id"`).Replace(oneValve), strings.Replace(oneActuator, `["5 mm"]`, "[]", 1)), []string{
			`1:28: valves[0].actuators[0]: got "B", want the id`, `1:71: valves[0].kvs: got "1,5 Kv"`, "2:139: actuators[0].strokes: got [], want strokes to set",
		}},
		"a number":          {catalogueOf(strings.Replace(oneValve, `"5 mm"`, "5", 1), oneActuator), []string{`1:94: valves[0].stroke: got 5, want a JSON string`}},
		"unknown unit":      {catalogueOf(strings.Replace(oneValve, `5 mm`, "5 furlong", 1), oneActuator), []string{`1:94: valves[0].stroke: got "5 furlong", want one of the units`}},
		"id twice":          {catalogueOf(oneValve+","+oneValve, oneActuator), []string{`1:140: valves[1].id: got "V", want an id of its own: valves[0] has this one`}},
		"refers to nothing": {catalogueOf(strings.Replace(oneValve, `"id"`, `"actuators": ["B"], "id"`, 1), oneActuator), []string{`1:28: valves[0].actuators[0]: got "B", want the id of an actuator of this catalogue`}},
		"stem and kind":     {catalogueOf(strings.Replace(oneValve, "two-way", "rotary-two-way", 1), oneActuator), []string{"1:74: valves[0].stem: got push-to-close"}},
		"no such valve":     {catalogueOf(strings.Replace(oneValve, "1 Kv", "-1 Kv", 1), oneActuator), []string{"1:51: valves[0].kvs: got -1 Kv"}},
		"no stroke":         {catalogueOf(oneValve, strings.Replace(oneActuator, `["5 mm"]`, "[]", 1)), []string{"2:139: actuators[0].strokes: got [], want strokes to set"}},
		"negative stroke":   {catalogueOf(oneValve, strings.Replace(oneActuator, `5 mm`, "-5 mm", 1)), []string{"2:140: actuators[0].strokes[0]: got -5 mm"}},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := schedule.ReadCatalogue(strings.NewReader(tt.file))
			var list schedule.FileErrors
			require.True(t, errors.As(err, &list), "%v", err)
			assert.ErrorIs(t, err, units.ErrInvalid)
			require.Len(t, list, len(tt.want), "%v", err)
			for i, want := range tt.want {
				assert.True(t, strings.HasPrefix(list[i].Error(), want), "%q\ndoes not start with\n%q", list[i].Error(), want)
			}
		})
	}
}
