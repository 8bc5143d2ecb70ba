package wiring

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// What a load without further statement has: common practice, no published source.
const (
	usualNominal   = 24 * units.Volt
	usualTolerance = 20 * units.Percent
)

// Load describes what a device draws from the supply and what it tolerates: the
// figures of its data sheet.
type Load struct {
	// Power is the apparent power at the nominal voltage, for the sizing of cables; on a
	// direct supply the power. 0 = draws nothing.
	Power ApparentPower
	// Nominal is the voltage the power is stated for; 0 = 24 V.
	Nominal units.Voltage `json:",omitzero"`
	// Below and Above are the tolerance of the supply voltage as shares of the nominal
	// voltage; 0 = 20 %, 19.2 … 28.8 V of 24 V. Direct supplies are often stated with
	// −10 % (both common practice).
	Below, Above units.Ratio `json:",omitzero"`
	// Model says how the current follows the voltage; the zero value is ConstantPower.
	Model LoadModel
	// Rectification says in which half waves the load draws; the zero value is HalfWave.
	Rectification Rectification
}

func (d Load) check(l *check.List, field string) {
	check.NotNegative(l, field+".Power", d.Power)
	if d.Nominal != 0 {
		checkVoltage(l, field+".Nominal", d.Nominal)
	}
	check.Enum(l, field+".Model", d.Model, ConstantResistance)
	check.Enum(l, field+".Rectification", d.Rectification, FullWave)
	l.Require(d.Below >= 0 && d.Below < units.One, field+".Below", d.Below, "zero for 20 %, or a share below 100 %")
	l.Require(d.Above >= 0 && d.Above < units.One, field+".Above", d.Above, "zero for 20 %, or a share below 100 %")
}

func (d Load) nominal() units.Voltage { return orElse(d.Nominal, usualNominal) }

// lowest returns the least supply voltage that the load tolerates.
func (d Load) lowest() units.Voltage {
	return d.nominal() * units.Voltage(1-orElse(d.Below, usualTolerance))
}

func (d Load) highest() units.Voltage {
	return d.nominal() * units.Voltage(1+orElse(d.Above, usualTolerance))
}

// margin returns how far a voltage is within the tolerance, negative outside.
func (d Load) margin(u units.Voltage) units.Voltage { return min(u-d.lowest(), d.highest()-u) }

// current returns the effective current in amperes at u volts, and its derivative.
func (d Load) current(u float64) (amperes, slope float64) {
	s, nominal := float64(d.Power), float64(d.nominal())
	switch d.Model {
	case ConstantCurrent:
		return s / nominal, 0
	case ConstantResistance:
		slope = s / (nominal * nominal)
		return slope * u, slope
	default:
		return s / u, -s / (u * u)
	}
}

func orElse[Q ~float64](given, usual Q) Q {
	if given == 0 {
		return usual
	}
	return given
}
