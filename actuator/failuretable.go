package actuator

import (
	"io"

	"github.com/indexrun/indexrun/internal/texttable"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// WriteFailureTable writes what every failure does to the valve, for each
// action, stem and setting. Every word in it comes from running the model
// ([Actuator.Outcome]); the example shows the table.
func WriteFailureTable(w io.Writer) error {
	t := texttable.New("action", "direct", "direct", "reverse", "reverse")
	t.Row("stem", "push-to-close", "push-to-open", "push-to-close", "push-to-open")
	for _, c := range failureCases() {
		outcomes, err := c.outcomes()
		if err != nil {
			return err
		}
		t.Row(append([]string{c.title}, outcomes...)...)
	}
	_, err := t.WriteTo(w)
	return err
}

// failureCase is a row of the table: a failure and the setting it meets.
type failureCase struct {
	title   string
	failure Failure
	cfg     Config
}

// outcomes runs the model for the columns of the table.
func (c failureCase) outcomes() ([]string, error) {
	var row []string
	for _, action := range []Action{Direct, Reverse} {
		for _, closing := range []End{Extended, Retracted} {
			cfg := c.cfg
			cfg.Action, cfg.ClosingEnd = action, closing
			a, err := New(cfg)
			if err != nil {
				return nil, err
			}
			row = append(row, a.Outcome(c.failure).String())
		}
	}
	return row, nil
}

// failureCases lists the rows. The stroke is any, since no outcome depends on it.
func failureCases() []failureCase {
	trueZero := Config{Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre}
	liveZero := Config{Input: signal.Range2To10V(), Stroke: 5 * units.Millimetre}
	rows := []failureCase{{"0 signal", OnZeroSignal, trueZero}}
	for o, title := range [...]string{AsZeroSignal: "reads as zero", AsFullSignal: "reads as full", HoldOnOpenWire: "noticed, holds"} {
		c := trueZero
		c.OpenWire = OpenWire(o)
		rows = append(rows, failureCase{"open wire: " + title, OnOpenWire, c})
	}
	for b, title := range [...]string{AsLowestSignal: "as lowest signal", HoldBelowLiveZero: "holds",
		ToExtended: "to extended", ToRetracted: "to retracted"} {
		c := liveZero
		c.BelowLiveZero = BelowLiveZero(b)
		rows = append(rows, failureCase{"below live zero: " + title, OnBelowLiveZero, c})
	}
	for p, title := range [...]string{Hold: "holds", SpringExtends: "spring extends", SpringRetracts: "spring retracts"} {
		c := trueZero
		c.PowerLoss = PowerLoss(p)
		rows = append(rows, failureCase{"power lost: " + title, OnPowerLoss, c})
	}
	return append(rows, failureCase{"end stop not found, on the valve", OnEndStopNotFound, trueZero})
}
