package wiring_test

import (
	"encoding"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Every device of random chains against an independent solution by node voltages.
func TestChainsAgainstNodeVoltages(t *testing.T) {
	var rows []reference.Row
	c := reference.Compare(t, "wiring")
	for row := range c.Rows() {
		if len(rows) > 0 && rows[0].Text("chain") != row.Text("chain") {
			compareChain(t, c, rows)
			rows = rows[:0]
		}
		rows = append(rows, row)
	}
	compareChain(t, c, rows)
	c.Require(1e-12)
}

func compareChain(t *testing.T, c *reference.Comparison, rows []reference.Row) {
	t.Helper()
	cfg := recordedConfig(t, rows)
	chain, err := wiring.New(cfg)
	require.NoError(t, err, rows[0])
	for i, row := range rows {
		d := at(t, chain, i)
		c.Check(row, "at_V", float64(d.Supply))
		c.Check(row, "current_A", float64(d.Current))
		c.CheckAbs(row, "seen_V", d.Seen.Number())
		c.CheckAbs(row, "ripple_V", float64(d.Ripple))
		if line, ok := chain.Transfer(i); ok {
			c.CheckAbs(row, "seen_V", line.At(d.Sent).Number())
		}
	}
}

func recordedConfig(t *testing.T, rows []reference.Row) wiring.Config {
	t.Helper()
	first := rows[0]
	conductor := func(column string) wiring.Conductor {
		return wiring.PerLength(units.Resistance(first.Float(column))*units.Ohm, units.Kilometre)
	}
	cfg := wiring.Config{
		Supply: wiring.Supply{
			Voltage: units.Voltage(first.Float("supply_V")) * units.Volt, Resistance: units.Resistance(first.Float("source_ohm")) * units.Ohm,
		},
		Cable: wiring.Cable{
			Conductor: conductor("supply_ohm_km"), Common: conductor("common_ohm_km"),
			Signal: conductor("signal_ohm_km"), SignalCommon: conductor("signal_common_ohm_km"),
		},
		Temperature: units.Celsius(first.Float("temperature_C")),
		Output:      units.Resistance(first.Float("output_ohm")) * units.Ohm,
		Tail:        units.Length(first.Float("tail_m")) * units.Metre,
	}
	read(t, first, "kind", &cfg.Supply.Kind)
	read(t, first, "supply_end", &cfg.SupplyEnd)
	read(t, first, "controller_end", &cfg.ControllerEnd)
	read(t, first, "common", &cfg.Common)
	for _, row := range rows {
		d := wiring.Device{
			Length: units.Length(row.Float("length_m")) * units.Metre,
			Load: wiring.Load{
				Power: wiring.ApparentPower(row.Float("power_VA")) * wiring.VoltAmpere, Nominal: units.Voltage(row.Float("nominal_V")) * units.Volt,
			},
			Input: units.Resistance(row.Float("input_ohm")) * units.Ohm,
		}
		read(t, row, "model", &d.Load.Model)
		read(t, row, "rectification", &d.Load.Rectification)
		read(t, row, "feed", &d.Feed)
		switch d.Feed {
		case wiring.OwnSignal:
			d.Signal = signal.Volts(row.Float("own_signal_V"))
		case wiring.SharedSignal:
			cfg.Signal = signal.Volts(row.Float("shared_signal_V"))
		}
		cfg.Devices = append(cfg.Devices, d)
	}
	return cfg
}

func read(t *testing.T, row reference.Row, column string, into encoding.TextUnmarshaler) {
	t.Helper()
	require.NoError(t, into.UnmarshalText([]byte(row.Text(column))), row)
}
