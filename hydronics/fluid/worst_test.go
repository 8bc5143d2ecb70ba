package fluid

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/internal/reference"
)

// worst gathers the greatest relative difference of each property from a
// table, and where it was.
type worst struct {
	t     testing.TB
	order []string
	diff  map[string]float64
	where map[string]string
}

func newWorst(t testing.TB) *worst {
	return &worst{t: t, diff: map[string]float64{}, where: map[string]string{}}
}

func (w *worst) compare(row reference.Row, column string, got float64) {
	if _, seen := w.diff[column]; !seen {
		w.order = append(w.order, column)
		w.diff[column] = -1
	}
	// A NaN is not below the worst so far, and stays the worst.
	if d := reference.RelDiff(got, row.Float(column)); !(d <= w.diff[column]) {
		w.diff[column], w.where[column] = d, row.String()
	}
}

// require checks every column against a limit and logs the worst differences.
func (w *worst) require(limit float64) {
	w.t.Helper()
	assert.NotEmpty(w.t, w.order)
	for _, column := range w.order {
		w.t.Logf("%-12s worst relative difference %.1e", column, w.diff[column])
		assert.LessOrEqual(w.t, w.diff[column], limit, "%s at %s", column, w.where[column])
	}
}
