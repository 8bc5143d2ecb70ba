package reference

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// ResultsVariable is the environment variable that names a folder to which each
// [Comparison] of a passing test adds a file of its results.
const ResultsVariable = "INDEXRUN_LAWTABLE"

// A Result is what a [Comparison] found for one column of a table.
type Result struct {
	Table   string
	Package string // that has the model, by its import path
	Column  string
	Unit    string  // of the differences; empty for relative ones, "1" for pure numbers
	Points  int     // rows compared
	Worst   float64 // greatest difference
	Limit   float64 // that the test allows
}

// String returns the result in one line for the log of a test.
func (r Result) String() string {
	return fmt.Sprintf("%s, %s: differences up to %s in %d points, limit %.2g", r.Table, r.Column, r.Difference(), r.Points, r.Limit)
}

// Difference returns the greatest difference with its unit, in two digits.
func (r Result) Difference() string {
	switch {
	case r.Worst == 0:
		return "0"
	case r.Unit == "":
		return fmt.Sprintf("%.1e", r.Worst)
	case r.Unit == "1":
		return fmt.Sprintf("%.2g absolute", r.Worst)
	}
	return fmt.Sprintf("%.2g %s", r.Worst, r.Unit)
}

// ReadResults reads all that comparisons wrote to a folder.
func ReadResults(dir string) ([]Result, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil {
		return nil, err
	}
	var all []Result
	for _, file := range files {
		results, err := readResults(file)
		if err != nil {
			return nil, fmt.Errorf("reference: %s: %w", file, err)
		}
		all = append(all, results...)
	}
	return all, nil
}

func readResults(file string) (results []Result, err error) {
	in, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	for decoder := json.NewDecoder(in); ; {
		var r Result
		if err := decoder.Decode(&r); errors.Is(err, io.EOF) {
			return results, nil
		} else if err != nil {
			return nil, err
		}
		results = append(results, r)
	}
}
