package schedule_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/indexrun/indexrun/hydronics/schedule"
)

// requirePlaced checks that every problem of a file has a place and a rule.
func requirePlaced(t *testing.T, err error) {
	var list schedule.FileErrors
	if !errors.As(err, &list) || len(list) == 0 {
		t.Fatalf("not a list of problems: %v", err)
	}
	for _, e := range list {
		if e.Line < 1 || e.Column < 1 || e.Want == "" || e.Field == "" {
			t.Errorf("problem without place or rule: %+v", e)
		}
	}
}

func FuzzReadCSV(f *testing.F) {
	f.Add(string(demoFile(f, "schedule.csv")))
	f.Add(header + "A,1 kW,6 °C,12 °C,60 kPa,,0-10 V\n")
	f.Add("tag,\"duty\n")
	_, catalogue := demoFiles(f)
	f.Fuzz(func(t *testing.T, file string) {
		rows, err := schedule.ReadCSV(strings.NewReader(file))
		if err != nil {
			requirePlaced(t, err)
			return
		}
		plan, err := schedule.Select(rows, catalogue)
		if err == nil && len(plan.Units) != len(rows) {
			t.Errorf("%d units from %d rows", len(plan.Units), len(rows))
		}
	})
}

func FuzzReadCatalogue(f *testing.F) {
	f.Add(string(demoFile(f, "catalogue.json")))
	f.Add(catalogueOf(oneValve, oneActuator))
	rows, _ := demoFiles(f)
	f.Fuzz(func(t *testing.T, file string) {
		catalogue, err := schedule.ReadCatalogue(strings.NewReader(file))
		if err != nil {
			requirePlaced(t, err)
			return
		}
		if _, err := schedule.Select(rows[:4], catalogue); err != nil {
			t.Errorf("a catalogue that was read is refused: %v", err)
		}
	})
}
