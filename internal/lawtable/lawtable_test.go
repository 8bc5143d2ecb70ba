package main

import (
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
)

// table makes a recorded table of invented content.
func table(t *testing.T, name, tolerance string) reference.Table {
	t.Helper()
	text := fmt.Sprintf("# law: law of %s\n# source: a | b\n# version: 1\n# generator: gen/x.py\n# units: 1\n%sx\n1\n", name, tolerance)
	parsed, err := reference.Parse(name, strings.NewReader(text))
	require.NoError(t, err)
	return parsed
}

func someLaws(t *testing.T) []law {
	t.Helper()
	laws, err := join([]reference.Table{table(t, "a", ""), table(t, "b", "# tolerance: rounded\n")}, []reference.Result{
		{Table: "a", Column: "x", Points: 1500, Worst: 2e-15, Limit: 1e-14},
		{Table: "b", Column: "x", Points: 20, Worst: 0.25, Limit: 0.5},
		{Table: "b", Column: "x", Unit: "dB", Points: 9, Worst: 3, Limit: 5},
		{Table: "a", Column: "y", Points: 2980, Worst: 1e-15, Limit: 2e-15},
	})
	require.NoError(t, err)
	return laws
}

const written = `| law | source | points | worst relative difference | note |
|---|---|--:|--:|---|
| [law of a](internal/reference/data/a.csv) | a \| b; 1 | 2980 | 2.0e-15 |  |
| [law of b](internal/reference/data/b.csv) | a \| b; 1 | 20 | 2.5e-01; 3 dB | rounded |
| **sum of 2 tables** | | **3000** | | |
`

func TestMarkdown(t *testing.T) {
	assert.Equal(t, written, markdown(someLaws(t)))
}

func TestLines(t *testing.T) {
	var out strings.Builder
	require.NoError(t, writeLines(&out, someLaws(t)))
	assert.Equal(t, "a    2980 points  2.0e-15\nb    20 points    2.5e-01; 3 dB\nsum  3000 points  \n", out.String())
}

func TestJoinRefuses(t *testing.T) {
	_, err := join([]reference.Table{table(t, "a", ""), table(t, "b", ""), table(t, "c", "")}, []reference.Result{
		{Table: "a", Points: 2999, Worst: 2e-6}, {Table: "c", Points: 0, Unit: "1", Worst: 2e-6},
	})
	require.Error(t, err)
	assert.Equal(t, "a: 2.0e-06 needs a tolerance line that explains it\n"+
		"b: recorded but not compared\nc: recorded but not compared\n2999 points, want at least 3000", err.Error())
	_, err = join([]reference.Table{table(t, "a", "")}, []reference.Result{{Table: "a", Points: 5000, Unit: "1", Worst: 2e-6}})
	assert.ErrorContains(t, err, "2e-06 absolute needs a tolerance line")
	_, err = join([]reference.Table{table(t, "a", "")}, []reference.Result{{Table: "a", Points: 5000, Unit: "ulp", Worst: 0.5}})
	assert.NoError(t, err)
}

func TestCheckAllowsWhatAnotherMachineFinds(t *testing.T) {
	laws := someLaws(t)
	assert.NoError(t, compare(written, laws))
	for name, c := range map[string]struct{ old, new, want string }{
		"another machine":  {"2.0e-15", "9.0e-15", ""},
		"unit within":      {"3 dB", "4.9 dB", ""},
		"unit alike":       {"; 3 dB", "; 0.31 dB", ""},
		"typed":            {"2.5e-01", "2.0e-02", "2.0e-02"},
		"unit typed":       {"; 3 dB", "; 0.2 dB", "; 0.2 dB"},
		"zero typed":       {"2.5e-01", "0", "| 0;"},
		"negative":         {"2.0e-15", "-2.0e-15", "-2.0e-15"},
		"no difference":    {"2.0e-15", "NaN", "NaN"},
		"another unit":     {"; 3 dB", "; 3 l/s", "3 l/s"},
		"rounding":         {"2.0e-15", "0", ""},
		"above the limit":  {"2.0e-15", "2.0e-14", "2.0e-14"},
		"unit above":       {"3 dB", "6 dB", "6 dB"},
		"no number":        {"2.0e-15", "small", "small"},
		"one is missing":   {"; 3 dB", "", "2.5e-01 | rounded"},
		"number of points": {"| 2980 |", "| 2981 |", "| 2981 |"},
		"law":              {"law of a", "law of z", "law of z"},
		"note":             {"rounded", "cut", "cut"},
		"sum":              {"**3000**", "**3001**", "**3001**"},
		"missing row":      {written[strings.Index(written, "| [law of b]"):strings.Index(written, "| **sum")], "", "5 lines, want 6"},
		"missing cell":     {" |  |\n", " |\n", "2.0e-15 |\n"},
		"empty":            {written, "", "go run ./internal/lawtable"},
	} {
		t.Run(name, func(t *testing.T) {
			changed := strings.Replace(written, c.old, c.new, 1)
			require.NotEqual(t, written, changed)
			if err := compare(changed, laws); c.want == "" {
				assert.NoError(t, err)
			} else {
				assert.ErrorContains(t, err, c.want)
			}
		})
	}
}

// Every table either has random points or is declared as fixed, and no other is.
func TestFixedTables(t *testing.T) {
	random := regexp.MustCompile(`^seed \d+, \d+ random points$`)
	isRandom := func(note string) bool { return random.MatchString(note) }
	rest := maps.Clone(fixed)
	for _, name := range reference.Names() {
		reason, declared := fixed[name]
		delete(rest, name)
		if name == "wetcoil" { // random, but recorded
			assert.NotEmpty(t, reason)
			continue
		}
		assert.Equal(t, slices.ContainsFunc(reference.Must(t, name).Notes, isRandom), !declared, name)
	}
	assert.Empty(t, rest, "no such tables")
}

func TestLiveComparisonIsWhole(t *testing.T) {
	laws := func() []law {
		return []law{{Table: table(t, "water", ""), points: 10100}, {Table: table(t, "ucum", ""), points: 77}}
	}
	live := func(names ...string) func(string) bool {
		return func(name string) bool { return slices.Contains(names, name) }
	}
	whole := laws()
	require.NoError(t, checkLive(whole, live("water"), 10000))
	var out strings.Builder
	require.NoError(t, writeLines(&out, whole))
	assert.Contains(t, out.String(), "\nrecorded, not made live:\nucum  the codes of a published list\n")
	assert.NotContains(t, out.String(), "water  the")

	assert.EqualError(t, checkLive(laws(), live("water"), 10101), "water: compared in 10100 points, want 10101")
	assert.EqualError(t, checkLive(laws(), live(), 0), "water: the recorded table was taken, want a live one or a reason in fixed")
	assert.ErrorContains(t, checkLive(laws(), live("water", "ucum"), 0), "ucum: is live, but fixed has a reason why not: ")
}

func TestPageKeepsWhatIsAround(t *testing.T) {
	const text = "# Title\n" + opening + "old\n" + closing + "\nend\n"
	doc, err := split([]byte(text))
	require.NoError(t, err)
	assert.Equal(t, document{"# Title\n", "old\n", "\nend\n"}, doc)
	assert.Equal(t, text, string(doc.join()))
}

// The page is looked at before any test is run.
func TestUpdateNeedsThePageAndItsMarkers(t *testing.T) {
	t.Chdir(t.TempDir())
	assert.ErrorIs(t, update(true), os.ErrNotExist)
	for _, text := range []string{"", opening, closing, closing + opening} {
		require.NoError(t, os.WriteFile(page, []byte(text), 0o600))
		assert.ErrorContains(t, update(false), "DEVELOPERS.md: no lines")
	}
}
