package hydronics_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// recordedValve is the valve of a row, whose travels stay above the closing
// region.
func recordedValve(t *testing.T, row reference.Row) valve.ThreeWay {
	var control, bypass valve.Characteristic
	require.NoError(t, control.UnmarshalText([]byte(row.Text("control"))))
	require.NoError(t, bypass.UnmarshalText([]byte(row.Text("bypass"))))
	val, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Control: valve.PortConfig{Kvs: units.FlowCoefficient(row.Float("Kvs_control")), Curve: control},
		Bypass:  valve.PortConfig{Kvs: units.FlowCoefficient(row.Float("Kvs_bypass")), Curve: bypass},
		Stroke:  15 * units.Millimetre, Density: units.Density(row.Float("rho_kg_m3")),
	})
	require.NoError(t, err)
	return val
}

func recordedCircuit(t *testing.T, row reference.Row) hydronics.Circuit {
	val := recordedValve(t, row)
	r := func(pipe string) hydronics.Resistance { return hydronics.Resistance(row.Float("R_" + pipe)) }
	header, pump := units.Pressure(row.Float("header_Pa")), units.Pressure(row.Float("pump_Pa"))
	cp := units.SpecificHeat(row.Float("cp_J_kgK"))
	var c hydronics.Circuit
	var err error
	switch row.Text("circuit") {
	case "mixing":
		c, err = hydronics.NewMixingCircuit(val, hydronics.MixingConfig{
			Header: header, Pump: pump, Primary: r("primary"), Bypass: r("bypass"), Consumer: r("consumer"), SpecificHeat: cp,
		})
	case "diverting":
		c, err = hydronics.NewDivertingCircuit(val, hydronics.DivertingConfig{
			Header: header, Primary: r("primary"), Bypass: r("bypass"), Consumer: r("consumer"), SpecificHeat: cp,
		})
	case "injection":
		c, err = hydronics.NewInjectionCircuit(val, hydronics.InjectionConfig{
			Header: header, Pump: pump, Primary: r("primary"), Injection: r("injection"), Bypass: r("bypass"),
			Consumer: r("consumer"), Common: r("common"), SpecificHeat: cp,
		})
	case "throttled":
		c, err = hydronics.NewThrottledInjectionCircuit(val.Control(), hydronics.ThrottledInjectionConfig{
			Header: header, Pump: pump, Primary: r("primary"), Consumer: r("consumer"), Common: r("common"), SpecificHeat: cp,
		})
	}
	require.NoError(t, err, row)
	return c
}

// Outside check: all four circuits against their loop equations, solved by
// bisection in 28-digit decimals by another tool. Flows are compared beside the
// greatest one, since a difference of two has no digits of its own, and
// temperatures beside the change from the source to the consumer's return.
func TestCircuitsAgainstRecording(t *testing.T) {
	c := reference.Compare(t, "threeway")
	for row := range c.Rows() {
		source := units.AbsoluteKelvin(row.Float("T_source_K"))
		s := recordedCircuit(t, row).WithHeat(row.Float("travel"), source, units.Power(row.Float("heat_W")))
		c.Check(row, "dp_valve_Pa", float64(s.ValvePressure))

		greatest := max(row.Float("q_consumer_m3_s"), row.Float("q_primary_m3_s"))
		flow := func(column string, q units.Flow) { c.Note(row, column, (float64(q)-row.Float(column))/greatest, "") }
		flow("q_consumer_m3_s", s.Consumer)
		flow("q_primary_m3_s", s.Primary)
		flow("q_control_m3_s", s.Control)
		flow("q_bypass_m3_s", s.Bypass)
		flow("q_recirculated_m3_s", s.Recirculated)

		change := row.Float("T_consumer_return_K") - row.Float("T_source_K")
		temperature := func(column string, got units.Temperature) {
			c.Note(row, column, (got.Kelvin()-row.Float(column))/change, "")
		}
		temperature("T_consumer_supply_K", s.ConsumerSupply)
		temperature("T_consumer_return_K", s.ConsumerReturn)
		temperature("T_primary_return_K", s.PrimaryReturn)
	}
	c.Require(1e-12)
}
