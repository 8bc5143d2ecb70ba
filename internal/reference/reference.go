package reference

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

//go:embed data
var recorded embed.FS

// LiveVariable is the environment variable that names a folder of tables to be
// taken in place of the recorded ones.
const LiveVariable = "INDEXRUN_REFERENCE"

// Names lists the recorded tables in alphabetical order.
func Names() []string {
	files, _ := fs.Glob(recorded, "data/*.csv") // the pattern is valid
	names := make([]string, len(files))
	for i, file := range files {
		names[i] = strings.TrimSuffix(strings.TrimPrefix(file, "data/"), ".csv")
	}
	return names
}

// Open reads a table by its name, such as "water".
func Open(name string) (Table, error) {
	file, err := open(name + ".csv")
	if err != nil {
		return Table{}, fmt.Errorf("reference: %w", err)
	}
	defer file.Close()
	return Parse(name, file)
}

func open(file string) (fs.File, error) {
	if live, err := openLive(file); !errors.Is(err, fs.ErrNotExist) {
		return live, err
	}
	return recorded.Open("data/" + file)
}

// openLive opens a table of the folder of [LiveVariable]; its error is
// fs.ErrNotExist where there is no such table, or no folder is named.
func openLive(file string) (fs.File, error) {
	dir := os.Getenv(LiveVariable)
	if dir == "" {
		return nil, fs.ErrNotExist
	}
	return os.Open(filepath.Join(dir, file))
}

// IsLive tells whether [Open] takes a table from the folder of [LiveVariable]
// rather than the recorded one.
func IsLive(name string) bool {
	file, err := openLive(name + ".csv")
	if err != nil {
		return false
	}
	file.Close()
	return true
}

// Must is [Open] for tests: it ends the test if the table cannot be read.
func Must(t testing.TB, name string) Table {
	t.Helper()
	table, err := Open(name)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// RelDiff returns |got − want| / |want|: 0 if both are equal (zero and the
// infinities too), +Inf if only want is zero, NaN if either is NaN.
func RelDiff(got, want float64) float64 {
	if got == want {
		return 0
	}
	return math.Abs(got-want) / math.Abs(want)
}
