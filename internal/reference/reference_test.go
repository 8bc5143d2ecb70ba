package reference_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/reference"
)

// Open itself refuses a table without its header, without rows or with a cell
// that is not the number it should be.
func TestEveryTableIsWhole(t *testing.T) {
	require.NotEmpty(t, reference.Names())
	for _, name := range reference.Names() {
		t.Run(name, func(t *testing.T) {
			table := reference.Must(t, name)
			assert.FileExists(t, table.Generator)
			for row := range table.Rows() {
				for _, column := range table.Columns {
					if column.Unit == reference.WordUnit {
						assert.NotEmpty(t, row.Text(column.Name), row)
					} else {
						number := row.Float(column.Name)
						assert.Falsef(t, math.IsNaN(number) || math.IsInf(number, 0), "%s: %s", column.Name, row)
					}
				}
			}
		})
	}
}

func TestEveryGeneratorMakesATable(t *testing.T) {
	used := map[string]bool{}
	for _, name := range reference.Names() {
		used[reference.Must(t, name).Generator] = true
	}
	scripts, err := filepath.Glob("gen/*.*")
	require.NoError(t, err)
	for _, script := range scripts {
		base := filepath.Base(script)
		if ext := filepath.Ext(base); (ext == ".py" || ext == ".mjs") && !strings.HasPrefix(base, "common.") {
			assert.True(t, used[filepath.ToSlash(script)], script)
		}
	}
}

// Two libraries by different hands, pint and one for UCUM, give one factor.
func TestUnitLibrariesAgree(t *testing.T) {
	type key struct{ quantity, unit string }
	ucum := map[key]reference.Row{}
	for row := range reference.Must(t, "ucum").Rows() {
		ucum[key{row.Text("quantity"), row.Text("unit")}] = row
	}
	for row := range reference.Must(t, "units").Rows() {
		if other, ok := ucum[key{row.Text("quantity"), row.Text("unit")}]; ok {
			assert.Less(t, reference.RelDiff(other.Float("factor"), row.Float("factor")), 1e-15, row)
			assert.Less(t, reference.RelDiff(other.Float("offset"), row.Float("offset")), 1e-15, row)
			delete(ucum, key{row.Text("quantity"), row.Text("unit")})
		}
	}
	assert.Empty(t, ucum, "units of ucum.csv that units.csv lacks")
}

const small = `# law: doubling
# source: a textbook
# version: second edition
# generator: gen/none.py
# units: text, m, 1
# tolerance: counted on fingers
# note: a made-up table
what,x_m,twice
a,1,2
b,1e-3,0.002
`

func TestParse(t *testing.T) {
	table, err := reference.Parse("small", strings.NewReader(small))
	require.NoError(t, err)
	assert.Equal(t, "doubling", table.Law)
	assert.Equal(t, "counted on fingers", table.Tolerance)
	assert.Equal(t, []string{"a made-up table"}, table.Notes)
	assert.Equal(t, []reference.Column{{"what", "text"}, {"x_m", "m"}, {"twice", "1"}}, table.Columns)
	assert.Equal(t, 2, table.Len())
	var seen []string
	for row := range table.Rows() {
		assert.InEpsilon(t, 2*row.Float("x_m"), row.Float("twice"), 1e-15)
		assert.True(t, row.Bool("twice"))
		seen = append(seen, row.Text("what"))
		assert.PanicsWithValue(t, `reference: small: no column "what" of that kind among [{what text} {x_m m} {twice 1}]`,
			func() { row.Float("what") })
	}
	assert.Equal(t, []string{"a", "b"}, seen)
}

func TestParseRefuses(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"missing header line":  {"# source: a textbook\n", "", `no header line "source"`},
		"unknown header line":  {"# note:", "# remark:", `unknown header line "remark"`},
		"header without value": {"# note: a made-up table", "# note", "is not of the form"},
		"units do not fit":     {"text, m, 1", "text, m", "3 columns but 2 units"},
		"no rows":              {"a,1,2\nb,1e-3,0.002\n", "", "no rows"},
		"missing cell":         {"a,1,2", "a,1", "wrong number of fields"},
		"not a number":         {"a,1,2", "a,one,2", "row 1: x_m"},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(small, c.old, c.new, 1)
			require.NotEqual(t, small, text)
			_, err := reference.Parse("small", strings.NewReader(text))
			assert.ErrorContains(t, err, c.want)
		})
	}
}

func TestLiveFolderTakesPrecedence(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "water.csv"), []byte(small), 0o600))
	t.Setenv(reference.LiveVariable, dir)
	assert.Equal(t, "doubling", reference.Must(t, "water").Law)
	assert.True(t, reference.IsLive("water"))
	assert.NotEqual(t, "doubling", reference.Must(t, "glycol").Law)
	assert.False(t, reference.IsLive("glycol"))
	_, err := reference.Open("no-such-table")
	assert.ErrorContains(t, err, "no-such-table.csv")
	t.Setenv(reference.LiveVariable, "")
	assert.False(t, reference.IsLive("water"))
}

func TestRelDiff(t *testing.T) {
	for _, c := range []struct{ got, want, diff float64 }{
		{1, 1, 0}, {0, 0, 0}, {1.5, 1, 0.5}, {-1, 1, 2}, {1, -2, 1.5}, {1, 0, math.Inf(1)}, {math.Inf(1), math.Inf(1), 0},
	} {
		assert.Equal(t, c.diff, reference.RelDiff(c.got, c.want), "%v", c) // exact by definition
	}
	assert.True(t, math.IsNaN(reference.RelDiff(math.NaN(), 1)))
}

func FuzzParse(f *testing.F) {
	f.Add(small)
	f.Add("# law: a\n# source: b\n# version: c\n# generator: d\n# units: text\nx\n\"")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := reference.Parse("fuzz", strings.NewReader(text))
		if err != nil {
			assert.Zero(t, table.Len())
			return
		}
		assert.Positive(t, table.Len())
		for row := range table.Rows() {
			assert.NotEmpty(t, row.String())
		}
	})
}
