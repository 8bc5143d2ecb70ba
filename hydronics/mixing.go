package hydronics

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// ReferenceSpecificHeat is the heat capacity taken where none is stated: that of
// water at 15 °C and 100 kPa, 4.1891 kJ/(kg·K) (IAPWS R7-97), the state of
// [valve.ReferenceDensity]. From 0 to 90 °C water stays within 0.7 % of it.
const ReferenceSpecificHeat = 4.1891 * units.KilojoulePerKilogramKelvin

// A Stream is liquid that flows into a junction or out of it.
type Stream struct {
	MassFlow     units.MassFlow
	SpecificHeat units.SpecificHeat
	Temperature  units.Temperature
}

// Mix returns the stream that leaves a junction into which streams flow:
//
//	ṁ = Σṁi    cp = Σ(ṁi·cpi)/ṁ    θ = Σ(ṁi·cpi·θi)/Σ(ṁi·cpi)
//
// (mass and energy balance of a mixing chamber without losses, heat capacities
// constant; Çengel & Boles, "Thermodynamics", chapter 5, steady-flow devices).
// The temperature lies within those of the streams that flow. Without any flow
// it is NaN, and so is everything if a mass flow is negative.
func Mix(streams ...Stream) Stream {
	var mass, capacity, excess float64
	var origin units.Temperature
	for i, s := range streams {
		if i == 0 {
			origin = s.Temperature
		}
		c := float64(s.MassFlow) * float64(s.SpecificHeat)
		if !(s.MassFlow >= 0) {
			c = math.NaN()
		}
		mass += float64(s.MassFlow)
		capacity += c
		excess += float64(c * float64(s.Temperature.Sub(origin)))
	}
	if math.IsNaN(capacity) {
		mass = capacity
	}
	return Stream{
		MassFlow: units.MassFlow(mass), SpecificHeat: units.SpecificHeat(capacity / mass),
		Temperature: origin.Add(units.TemperatureDifference(excess / capacity)),
	}
}
