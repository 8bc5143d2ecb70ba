package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/indexrun/indexrun/internal/reference"
)

const (
	leastPoints = 3000
	// unexplained is the greatest relative difference that needs no reason.
	unexplained = 1e-6
)

// uncompared are the tables that no test compares with a model, and why.
var uncompared = map[string]string{}

// A law is one table with what the tests found of it.
type law struct {
	reference.Table
	points   int
	worst    []reference.Result // the greatest difference of each unit, the relative one first
	recorded string             // why a live comparison took the recorded table; empty where it did not
}

// join gives each table its results. It reports every table that is not
// compared, every difference that is not explained, and too few points.
func join(tables []reference.Table, results []reference.Result) ([]law, error) {
	var laws []law
	var faults []error
	total := 0
	for _, table := range tables {
		l := newLaw(table, results)
		switch {
		case uncompared[table.Name] != "":
			continue
		case l.points == 0:
			faults = append(faults, fmt.Errorf("%s: recorded but not compared", table.Name))
		case table.Tolerance == "" && l.differs():
			faults = append(faults, fmt.Errorf("%s: %s needs a tolerance line that explains it", table.Name, l.difference()))
		}
		laws = append(laws, l)
		total += l.points
	}
	if total < leastPoints {
		faults = append(faults, fmt.Errorf("%d points, want at least %d", total, leastPoints))
	}
	return laws, errors.Join(faults...)
}

func newLaw(table reference.Table, results []reference.Result) law {
	l := law{Table: table}
	for _, r := range results {
		if r.Table == table.Name {
			l.points = max(l.points, r.Points)
			l.add(r)
		}
	}
	slices.SortFunc(l.worst, func(a, b reference.Result) int { return strings.Compare(a.Unit, b.Unit) })
	return l
}

func (l *law) add(r reference.Result) {
	for i := range l.worst {
		if w := &l.worst[i]; w.Unit == r.Unit {
			w.Worst, w.Limit = max(w.Worst, r.Worst), max(w.Limit, r.Limit)
			return
		}
	}
	l.worst = append(l.worst, r)
}

// differs tells whether a difference is large enough to want a reason; what is
// large in a unit, nobody can say.
func (l *law) differs() bool {
	return slices.ContainsFunc(l.worst, func(r reference.Result) bool {
		return (r.Unit == "" || r.Unit == "1") && r.Worst > unexplained
	})
}

// difference is the cell of the table for the greatest differences.
func (l *law) difference() string {
	texts := make([]string, len(l.worst))
	for i, r := range l.worst {
		texts[i] = r.Difference()
	}
	return strings.Join(texts, "; ")
}
