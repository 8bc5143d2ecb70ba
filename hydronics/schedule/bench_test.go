package schedule_test

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/schedule"
)

// BenchmarkSelect100000 plans a schedule of 100 000 units made of the
// demonstration. Budget: 1 s.
func BenchmarkSelect100000(b *testing.B) {
	const units = 100_000
	demo, catalogue := demoFiles(b)
	rows := make([]schedule.Row, units)
	for i := range rows {
		rows[i] = demo[i%len(demo)]
		rows[i].Tag = fmt.Sprintf("%s-%d", rows[i].Tag, i)
	}
	b.ReportAllocs()
	for b.Loop() {
		plan, err := schedule.Select(rows, catalogue)
		require.NoError(b, err)
		require.Len(b, plan.Units, units)
	}
}

// demoFiles reads the demonstration of the plan example.
func demoFiles(t testing.TB) ([]schedule.Row, schedule.Catalogue) {
	t.Helper()
	rows, err := schedule.ReadCSV(bytes.NewReader(demoFile(t, "schedule.csv")))
	require.NoError(t, err)
	catalogue, err := schedule.ReadCatalogue(bytes.NewReader(demoFile(t, "catalogue.json")))
	require.NoError(t, err)
	return rows, catalogue
}

func demoFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("../../examples/plan/data/" + name)
	require.NoError(t, err)
	return data
}

// BenchmarkReadCSV reads a schedule of 100 000 units.
func BenchmarkReadCSV(b *testing.B) {
	lines := bytes.SplitAfter(demoFile(b, "schedule.csv"), []byte("\n"))
	var file bytes.Buffer
	file.Write(lines[0])
	for i := range 100_000 {
		line := lines[1+i%(len(lines)-2)]
		fmt.Fprintf(&file, "%d-%s", i, line)
	}
	b.SetBytes(int64(file.Len()))
	b.ReportAllocs()
	for b.Loop() {
		rows, err := schedule.ReadCSV(bytes.NewReader(file.Bytes()))
		require.NoError(b, err)
		require.Len(b, rows, 100_000)
	}
}
