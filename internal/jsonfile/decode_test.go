package jsonfile_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/internal/jsonfile"
	"github.com/indexrun/indexrun/units"
)

type part struct {
	ID     string       `json:"id" file:"required"`
	Stroke units.Length `json:"stroke"`
	Share  float64      `json:"share"`
	Power  units.Power  `json:"power"`
}

type file struct {
	Note  string `json:"note"`
	Parts []part `json:"parts" file:"required"`
}

func TestDecodeReadsEveryKind(t *testing.T) {
	var got file
	problems := jsonfile.Decode([]byte("\ufeff"+`{"note": "n", "parts": [{"id": "a", "stroke": "5 mm", "share": 0.25, "power": "90 W"}]}`), &got)
	assert.Empty(t, problems)
	assert.Equal(t, file{"n", []part{{"a", 5 * units.Millimetre, 0.25, 90 * units.Watt}}}, got)
}

func TestDecodeReportsEveryProblemWithItsPlace(t *testing.T) {
	text := `{
  "note": 3,
  "extra": true,
  "parts": [
    {"stroke": 5, "id": "a", "id": "b"},
    {"stroke": "5 furlong", "share": "x", "power": "soon"},
    7
  ]
}`
	var got file
	var lines []string
	for _, p := range jsonfile.Decode([]byte(text), &got) {
		lines = append(lines, fmt.Sprintf("%d:%d %s", p.Line, p.Column, p.Path))
	}
	assert.Equal(t, []string{
		"2:11 note", "3:3 extra", "5:16 parts[0].stroke", "5:30 parts[0].id",
		"6:16 parts[1].stroke", "6:38 parts[1].share", "6:52 parts[1].power", "6:5 parts[1].id", "7:5 parts[2]",
	}, lines)
}

func TestDecodeReportsBrokenFiles(t *testing.T) {
	for name, text := range map[string]string{
		"empty":     "",
		"cut":       `{"parts": [`,
		"syntax":    `{"parts": [,]}`,
		"trailing":  `{"parts": []} {}`,
		"deep":      strings.Repeat("[", 1000),
		"not UTF-8": "{\"note\": \"\xff\"}",
		"bare word": `{parts: []}`,
	} {
		t.Run(name, func(t *testing.T) {
			problems := jsonfile.Decode([]byte(text), new(file))
			assert.NotEmpty(t, problems)
			assert.Positive(t, problems[0].Line)
			assert.Positive(t, problems[0].Column)
			assert.NotEmpty(t, problems[0].Want)
		})
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(`{"note": "n", "parts": [{"id": "a", "stroke": "5 mm"}]}`)
	f.Add(`{"parts": [1, {"id": null}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		for _, p := range jsonfile.Decode([]byte(text), new(file)) {
			if p.Line < 1 || p.Column < 1 || p.Want == "" && p.Err == nil {
				t.Errorf("problem without place or rule: %+v", p)
			}
		}
	})
}

func TestLocateFindsTheDeepestPartOfAPath(t *testing.T) {
	text := []byte("{\n \"note\": \"n\",\n \"parts\": [{\"id\": \"a\"},\n  {\"id\": \"b\"}]\n}")
	for path, want := range map[string][2]int{
		"parts[1].id":     {4, 10},
		"parts[1].stroke": {4, 3},
		"parts[7]":        {3, 11},
		"note":            {2, 10},
		"":                {1, 1},
	} {
		line, column := jsonfile.Locate(text, path)
		assert.Equal(t, want, [2]int{line, column}, path)
	}
}
