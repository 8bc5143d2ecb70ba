package actuator_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// truth is written by hand, without the model: where the stem ends up, and hence
// what a push-to-close or a push-to-open valve does. Its rows are those of the
// published table, its columns direct, direct, reverse, reverse with push-to-close,
// push-to-open in turn.
var truth = []struct {
	title    string
	failure  actuator.Failure
	input    signal.Range
	set      func(*actuator.Config)
	outcomes [4]actuator.Outcome
}{
	// A direct drive has its stem in at 0 signal, a reverse one has it out.
	{"0 signal", actuator.OnZeroSignal, signal.Range0To10V(), nil,
		[4]actuator.Outcome{open, closed, closed, open}},
	// The input takes the open wire for 0 V.
	{"open wire: reads as zero", actuator.OnOpenWire, signal.Range0To10V(), nil,
		[4]actuator.Outcome{open, closed, closed, open}},
	// The input takes the open wire for 10 V: direct out, reverse in.
	{"open wire: reads as full", actuator.OnOpenWire, signal.Range0To10V(),
		func(c *actuator.Config) { c.OpenWire = actuator.AsFullSignal },
		[4]actuator.Outcome{closed, open, open, closed}},
	{"open wire: noticed, holds", actuator.OnOpenWire, signal.Range0To10V(),
		func(c *actuator.Config) { c.OpenWire = actuator.HoldOnOpenWire },
		[4]actuator.Outcome{holds, holds, holds, holds}},
	// As 2 V: direct in, reverse out.
	{"below live zero: as lowest signal", actuator.OnBelowLiveZero, signal.Range2To10V(), nil,
		[4]actuator.Outcome{open, closed, closed, open}},
	{"below live zero: holds", actuator.OnBelowLiveZero, signal.Range2To10V(),
		func(c *actuator.Config) { c.BelowLiveZero = actuator.HoldBelowLiveZero },
		[4]actuator.Outcome{holds, holds, holds, holds}},
	// Out closes a push-to-close valve whatever the action, and so on.
	{"below live zero: to extended", actuator.OnBelowLiveZero, signal.Range2To10V(),
		func(c *actuator.Config) { c.BelowLiveZero = actuator.ToExtended },
		[4]actuator.Outcome{closed, open, closed, open}},
	{"below live zero: to retracted", actuator.OnBelowLiveZero, signal.Range2To10V(),
		func(c *actuator.Config) { c.BelowLiveZero = actuator.ToRetracted },
		[4]actuator.Outcome{open, closed, open, closed}},
	{"power lost: holds", actuator.OnPowerLoss, signal.Range0To10V(), nil,
		[4]actuator.Outcome{holds, holds, holds, holds}},
	{"power lost: spring extends", actuator.OnPowerLoss, signal.Range0To10V(),
		func(c *actuator.Config) { c.PowerLoss = actuator.SpringExtends },
		[4]actuator.Outcome{closed, open, closed, open}},
	{"power lost: spring retracts", actuator.OnPowerLoss, signal.Range0To10V(),
		func(c *actuator.Config) { c.PowerLoss = actuator.SpringRetracts },
		[4]actuator.Outcome{open, closed, open, closed}},
	// Fully out and staying there.
	{"end stop not found, on the valve", actuator.OnEndStopNotFound, signal.Range0To10V(), nil,
		[4]actuator.Outcome{closed, open, closed, open}},
}

const (
	open   = actuator.Open
	closed = actuator.Closed
	holds  = actuator.Holds
)

var columns = [4]struct {
	action  actuator.Action
	closing actuator.End
}{
	{actuator.Direct, actuator.Extended},
	{actuator.Direct, actuator.Retracted},
	{actuator.Reverse, actuator.Extended},
	{actuator.Reverse, actuator.Retracted},
}

func TestOutcomeAgainstTruth(t *testing.T) {
	for _, row := range truth {
		for i, column := range columns {
			cfg := actuator.Config{Input: row.input, Stroke: 5 * units.Millimetre, Action: column.action, ClosingEnd: column.closing}
			if row.set != nil {
				row.set(&cfg)
			}
			a, err := actuator.New(cfg)
			require.NoError(t, err)
			assert.Equal(t, row.outcomes[i], a.Outcome(row.failure), "%s, %v, closes %v", row.title, column.action, column.closing)
		}
	}
}

func TestPublishedTableAgainstTruth(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, actuator.WriteFailureTable(&b))
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")[2:]
	require.Len(t, lines, len(truth))
	for i, row := range truth {
		words := make([]string, len(row.outcomes))
		for j, outcome := range row.outcomes {
			words[j] = outcome.String()
		}
		title, cells := lines[i][:len(row.title)], strings.Fields(lines[i][len(row.title):])
		assert.Equal(t, row.title, title)
		assert.Equal(t, words, cells, row.title)
	}
}

// What the outcome must not depend on: shaping, stroke mode, running and spring time, stroke or
// angle, range (but for a live zero and its sense).
func TestOutcomeDependsOnTheFailureOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rapid.SampledFrom(truth).Draw(t, "row")
		i := rapid.IntRange(0, 3).Draw(t, "column")
		cfg := configs(t)
		cfg.Action, cfg.ClosingEnd = columns[i].action, columns[i].closing
		cfg.PowerLoss, cfg.OpenWire, cfg.BelowLiveZero = 0, 0, 0
		cfg.Input = rapid.SampledFrom([]signal.Range{signal.Range0To10V(), signal.Range0To20mA(), signal.Range5To10V()}).Draw(t, "input")
		if row.failure == actuator.OnBelowLiveZero {
			cfg.Input = rapid.SampledFrom([]signal.Range{signal.Range2To10V(), signal.Range4To20mA(), signal.Range1To5V()}).Draw(t, "input")
		}
		if row.set != nil {
			row.set(&cfg)
		}
		if cfg.PowerLoss == actuator.Hold {
			cfg.SpringTime = 0
		}
		a, err := actuator.New(cfg)
		if err != nil {
			t.Fatal(err)
		}
		if got := a.Outcome(row.failure); got != row.outcomes[i] {
			t.Fatalf("%v, want %v", got, row.outcomes[i])
		}
	})
}

func TestOutcomeOfOpenWireOnALiveZero(t *testing.T) {
	cfg := actuator.Config{Input: signal.Range4To20mA(), Stroke: 5 * units.Millimetre, OpenWire: actuator.AsZeroSignal, BelowLiveZero: actuator.ToExtended}
	a, err := actuator.New(cfg)
	require.NoError(t, err)
	assert.Equal(t, actuator.Closed, a.Outcome(actuator.OnOpenWire))
	assert.Equal(t, actuator.Closed, a.Outcome(actuator.OnBelowLiveZero))
	assert.Equal(t, actuator.Open, a.Outcome(actuator.OnZeroSignal), "4 mA is no failure")
}

func TestOutcomeNotApplicable(t *testing.T) {
	a, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre})
	require.NoError(t, err)
	assert.Equal(t, actuator.NotApplicable, a.Outcome(actuator.OnBelowLiveZero))
	assert.Equal(t, actuator.NotApplicable, actuator.Actuator{}.Outcome(actuator.OnZeroSignal))
	assert.Equal(t, actuator.NotApplicable, a.Outcome(actuator.Failure(9)))
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteFailureTablePassesTheErrorOn(t *testing.T) {
	assert.EqualError(t, actuator.WriteFailureTable(fullDisk{}), "disk full")
}
