package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Heat returns the heat that a mass flow carries over a temperature difference:
//
//	Φ = ṁ·cp·Δθ
//
// (energy balance of a stream without phase change; any heat transfer textbook,
// such as Incropera, "Fundamentals of Heat and Mass Transfer", chapter 1). The
// sign is that of the difference.
func Heat(m units.MassFlow, cp units.SpecificHeat, dt units.TemperatureDifference) units.Power {
	return units.Power(float64(m) * float64(cp) * float64(dt))
}

// MassFlowFor returns the mass flow that carries heat p over a temperature
// difference, ṁ = Φ/(cp·Δθ), the inverse of [Heat]. A difference of zero gives
// an infinity, or NaN with a heat of zero.
func MassFlowFor(p units.Power, cp units.SpecificHeat, dt units.TemperatureDifference) units.MassFlow {
	return units.MassFlow(float64(p) / (float64(cp) * float64(dt)))
}

// DifferenceFor returns the temperature difference of a stream that gives up or
// takes heat p, Δθ = Φ/(ṁ·cp). A mass flow of zero gives an infinity, or NaN
// with a heat of zero.
func DifferenceFor(p units.Power, m units.MassFlow, cp units.SpecificHeat) units.TemperatureDifference {
	return units.TemperatureDifference(float64(p) / (float64(m) * float64(cp)))
}

// HeatOf returns the heat that a measured flow gives up between two measured
// temperatures, below zero if it takes heat up:
//
//	Φ = ρ(θr)·q·c̄p·(θs − θr)
//
// with c̄p the mean of the heat capacities at supply and return, the flow counted at
// the density of the return and the liquid at [UsualPressure]. It is the inverse of
// [Duty.DesignFlow], and what a controller makes of an estimated flow.
func HeatOf(f fluid.Fluid, q units.Flow, supply, back units.Temperature) (units.Power, error) {
	hot, err := f.At(supply, UsualPressure())
	if err != nil {
		return 0, err
	}
	cold, err := f.At(back, UsualPressure())
	if err != nil {
		return 0, err
	}
	return Heat(q.MassFlow(cold.Density()), (hot.SpecificHeat()+cold.SpecificHeat())/2, supply.Sub(back)), nil
}

// A Duty is heat to be carried by a liquid between two temperatures: heating
// where the supply is the warmer, cooling where it is the colder.
type Duty struct {
	Heat   units.Power       // above zero, for cooling too
	Supply units.Temperature // of the liquid to the terminal
	Return units.Temperature // of the liquid from it
	Fluid  fluid.Fluid       // the zero value is water
	// Pressure is the absolute pressure of the liquid, which matters little to
	// it; zero means [UsualPressure].
	Pressure units.AbsolutePressure
}

// UsualPressure is 300 kPa abs, the pressure taken where none is given: that of
// a closed system of a few storeys (common practice, no published source). A
// bar more or less changes the density of water by 0.005 %.
func UsualPressure() units.AbsolutePressure { return units.Absolute(300 * units.Kilopascal) }

// A DesignFlow is the flow that carries a duty, with the properties that it was
// worked out with.
type DesignFlow struct {
	MassFlow     units.MassFlow
	Flow         units.Flow    // at the density of the return, where control valves commonly stand
	Density      units.Density // at the return temperature
	SpecificHeat units.SpecificHeat
	Liquid       fluid.State `json:"-"` // at the return temperature
}

// DesignFlow returns the flow for the duty:
//
//	ṁ = Φ/(c̄p·|θs − θr|),  q = ṁ/ρ(θr)
//
// with c̄p the mean of the heat capacities at supply and return, and the density
// at the return, where the control valve of a terminal commonly stands (common
// practice, no published source). At 80/60 °C the density at the supply would
// give 1.2 % more volume.
func (d Duty) DesignFlow() (DesignFlow, error) {
	p := d.Pressure
	if p.IsZero() {
		p = UsualPressure()
	}
	if err := d.validate(); err != nil {
		return DesignFlow{}, err
	}
	supply, err := d.Fluid.At(d.Supply, p)
	if err != nil {
		return DesignFlow{}, err
	}
	back, err := d.Fluid.At(d.Return, p)
	if err != nil {
		return DesignFlow{}, err
	}
	cp := (supply.SpecificHeat() + back.SpecificHeat()) / 2
	m := MassFlowFor(d.Heat, cp, units.TemperatureDifference(math.Abs(float64(d.Supply.Sub(d.Return)))))
	return DesignFlow{m, m.Flow(back.Density()), back.Density(), cp, back}, nil
}

func (d Duty) validate() error {
	l := check.List{Package: packageName}
	check.Positive(&l, "Duty.Heat", d.Heat)
	l.Require(d.Supply != d.Return, "Duty.Return", d.Return, "a temperature that differs from the supply's")
	return l.Err()
}

const packageName = "hydronics"
