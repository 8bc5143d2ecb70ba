package schedule

import (
	"fmt"
	"runtime"
	"sync"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Select finds for every row a valve and its setting, an actuator and its
// settings, and what to expect of them.
//
// For each unit every valve of the wanted kind and every actuator that can be
// mounted on it are weighed by the findings that they bring, and the pair with the
// least weight is taken; among equals the smallest valve, then the first of the
// catalogue. Nothing is left out because it is bad: the findings of the best pair
// are the warnings of the unit.
//
// A plan takes about 2.5 kB of memory for each unit.
//
// An invalid catalogue or row is an error that reports every fault; rows that
// [ReadCSV] returned are valid by themselves, but a temperature outside the range
// of the liquid's properties is found here.
func Select(rows []Row, catalogue Catalogue) (*Plan, error) {
	s, err := newStock(&catalogue)
	if err != nil {
		return nil, err
	}
	p := &Plan{Note: catalogue.Note, Units: make([]Unit, len(rows))}
	if err := s.selectAll(rows, p.Units); err != nil {
		return nil, err
	}
	p.Circuits = circuits(p.Units)
	return p, nil
}

// selectAll divides the rows among the processors: they do not depend on each
// other, and each goes to its own place.
func (s *stock) selectAll(rows []Row, into []Unit) error {
	workers := max(1, min(runtime.GOMAXPROCS(0), len(rows)/64))
	faults := make([]check.List, workers)
	var wait sync.WaitGroup
	for w := range workers {
		from, to := len(rows)*w/workers, len(rows)*(w+1)/workers
		wait.Go(func() {
			picker := newPicker(s)
			for i := from; i < to; i++ {
				addRowFault(&faults[w], &rows[i], picker.pick(&rows[i], &into[i]))
			}
		})
	}
	wait.Wait()
	all := check.List{Package: packageName}
	seen := map[string]bool{}
	for i := range rows {
		all.Require(!seen[rows[i].Tag], "tag", rows[i].Tag, "a tag of its own for each unit")
		seen[rows[i].Tag] = true
	}
	for w := range faults {
		all.Add(faults[w].Err())
	}
	return all.Err()
}

// addRowFault names the unit that a fault belongs to.
func addRowFault(l *check.List, r *Row, err error) {
	if err == nil {
		return
	}
	l.Package = packageName
	for _, one := range flatten(err) {
		name := fmt.Sprintf("unit %q", r.Tag)
		if r.Line > 0 {
			name += fmt.Sprintf(" (line %d)", r.Line)
		}
		if fault, ok := one.(*units.FieldError); ok {
			l.Fault(name+", "+fault.Field, fault.Value, fault.Want)
			continue
		}
		l.Fault(name, one, "a unit that can be planned")
	}
}
