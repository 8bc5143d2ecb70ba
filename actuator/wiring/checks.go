package wiring

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Bounds of what can be given. They are far beyond any cable of the trade and keep the
// arithmetic sound.
const (
	mostVoltage    = 1000 * units.Volt
	leastVoltage   = 1 * units.Volt
	mostResistance = 1000 * units.Kilohm
	leastInput     = 1 * units.Ohm
	mostLength     = 1000 * units.Kilometre
	coldestCelsius = -50
	hottestCelsius = 150
	mostParallel   = 1000
	greatestSignal = 100 * units.Volt
)

func checkVoltage(l *check.List, field string, v units.Voltage) {
	check.Within(l, field, v, leastVoltage, mostVoltage)
}

func checkResistance(l *check.List, field string, r units.Resistance) {
	check.Within(l, field, r, 0, mostResistance)
}

// checkInput allows an infinite resistance beside zero, which stands for one.
func checkInput(l *check.List, field string, r units.Resistance) {
	l.Require(r == 0 || r >= leastInput, field, r, "1 Ω or more, or zero for an ideal input")
}

func checkLength(l *check.List, field string, x units.Length) {
	check.Within(l, field, x, 0, mostLength)
}

func checkTemperature(l *check.List, field string, t units.Temperature) {
	l.Require(t.IsZero() || t.Celsius() >= coldestCelsius && t.Celsius() <= hottestCelsius, field, t,
		"none for 20 °C, or -50 … 150 °C")
}

func checkSignal(l *check.List, field string, s signal.Signal) {
	v, ok := s.Voltage()
	l.Require(ok && v >= -greatestSignal && v <= greatestSignal, field, s,
		"a voltage up to 100 V; a current signal is not altered by the common, see NewLoop")
}
