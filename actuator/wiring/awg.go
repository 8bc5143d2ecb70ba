package wiring

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// copperResistivity is that of standard annealed copper at 20 °C, 1/58 Ω·mm²/m, in
// Ω·mm²/km (IEC 60028).
const copperResistivity = 1000.0 / 58

const (
	thinnestGauge = 40
	wireGaugeStep = 92.0
)

// AWG is a solid conductor of American wire gauge n, 0 … 40, of standard annealed
// copper. The diameter is 0.127 mm·92^((36−n)/39) (ASTM B258), the resistivity 1/58
// Ω·mm²/m at 20 °C (IEC 60028): AWG 18 has 1.024 mm, 0.8231 mm² and 20.95 Ω/km. A
// stranded conductor of the same section has about 2 % more (ASTM B8, from memory); use
// [PerLength] for it. Another gauge is a fault, see [Conductor.Err].
func AWG(n int) Conductor {
	c := Conductor{kind: awgConductor, size: float64(n), cores: 1}
	if n >= 0 && n <= thinnestGauge {
		c.ohmPerKilometre = copperResistivity / gaugeArea(c.size).In(units.SquareMillimetre)
	}
	return c
}

func gaugeArea(n float64) units.Area {
	diameter := units.Length(0.127*math.Pow(wireGaugeStep, (36-n)/39)) * units.Millimetre
	return units.CircleArea(diameter)
}
