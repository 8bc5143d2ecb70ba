package terminal

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/units"
)

// StandardAirDensity is 1.2 kg/m³, at which volume flows of air are commonly
// stated (ISO 5801; dry air at 20 °C and 101.3 kPa has 1.204).
const StandardAirDensity units.Density = 1.2

const mostAirDensity units.Density = 10

// Humid air as a mixture of ideal gases, per kilogram of dry air (ASHRAE
// Handbook Fundamentals, chapter Psychrometrics: humidity ratio and enthalpy).
const (
	dryAirHeat   = 1006.0   // J/(kg·K)
	vapourHeat   = 1860.0   // J/(kg·K)
	evaporation  = 2.501e6  // J/kg at 0 °C
	massRatio    = 0.621945 // of water to dry air, molar
	freezing     = 273.15   // K
	mostSaturate = 333.15   // K
)

// airMass is the mass flow of dry air in kg/s.
func airMass(q units.Flow, rho units.Density) float64 {
	if rho == 0 {
		rho = StandardAirDensity
	}
	return float64(q.MassFlow(rho))
}

// saturationPressure is that of water in Pa at T in K: IAPWS R7-97 within
// 0 … 60 °C, and the value at the nearer end outside.
func saturationPressure(T float64) float64 {
	T = min(max(T, freezing), mostSaturate)
	p, _ := fluid.SaturationPressure(units.AbsoluteKelvin(T)) // fails outside its range only
	return float64(p.AboveVacuum())
}

// dewPoint is the temperature in K at which a vapour pressure saturates; 0 where
// frost would form instead.
func dewPoint(vapour float64) float64 {
	t, _ := fluid.SaturationTemperature(units.Absolute(units.Pressure(vapour))) // zero below 0 °C
	return t.Kelvin()
}

// humidityRatio is the water in kg for each kg of dry air at a vapour pressure.
func humidityRatio(vapour, pressure float64) float64 {
	return massRatio * vapour / (pressure - vapour)
}

// enthalpy is h = 1006·t + W·(2.501e6 + 1860·t) in J/kg, T in K and t in °C.
func enthalpy(T, humidity float64) float64 {
	t := T - freezing
	return float64(dryAirHeat*t) + float64(humidity*(evaporation+float64(vapourHeat*t)))
}

// saturatedEnthalpy is the enthalpy of saturated air.
func saturatedEnthalpy(T, pressure float64) float64 {
	return enthalpy(T, humidityRatio(saturationPressure(T), pressure))
}

// moistAir is the air of a wet coil.
type moistAir struct {
	flow     float64 // of dry air, kg/s
	pressure float64 // Pa
}

// capacity is ṁ·cp of the air in W/K.
func (a moistAir) capacity(s *state) float64 { return a.flow * s.moist.specificHeat }

// moistState is the entering air beside saturated air between the supply and
// the air temperature.
type moistState struct {
	potential    float64 // enthalpy less that of saturated air at supply, J/kg
	specificHeat float64 // for each kg of dry air, J/(kg·K)
	dew          float64 // where the dew point lies on the way from supply (0) to air (1)
	slope        slope   // set where dew is above 0
}

func (a moistAir) state(c Conditions) moistState {
	supply, air := c.Supply.Kelvin(), c.Air.Kelvin()
	vapour := float64(c.Humidity) * saturationPressure(air)
	humidity := humidityRatio(vapour, a.pressure)
	cold := saturatedEnthalpy(supply, a.pressure)
	s := moistState{
		potential:    enthalpy(air, humidity) - cold,
		specificHeat: dryAirHeat + float64(vapourHeat*humidity),
		dew:          min(1, (dewPoint(vapour)-supply)/(air-supply)),
	}
	if s.dew > 0 && air > supply {
		s.slope = newSlope(func(z float64) float64 {
			T := supply + float64(z*(air-supply))
			return (saturatedEnthalpy(T, a.pressure) - cold) / (T - supply)
		})
	}
	return s
}

// slope is cs, the mean slope of the saturation enthalpy from the supply
// temperature up to a share z of the way to the air temperature: a polynomial
// of Newton's form through six points. That keeps it smooth down to z = 0,
// where the difference quotient has no digits left, and it takes no saturation
// pressure in the solver. It is within 1e-5 of the quotient over 30 K.
type slope [slopeNodes]float64

const slopeNodes = 6

// slopeNode holds the zeros of the Chebyshev polynomial on 0 … 1.
var slopeNode = func() (nodes [slopeNodes]float64) {
	for i := range nodes {
		nodes[i] = (1 - math.Cos((2*float64(i)+1)*math.Pi/(2*slopeNodes))) / 2
	}
	return nodes
}()

func newSlope(f func(z float64) float64) (s slope) {
	for i, z := range slopeNode {
		s[i] = f(z)
	}
	for order := 1; order < slopeNodes; order++ {
		for i := slopeNodes - 1; i >= order; i-- {
			s[i] = (s[i] - s[i-1]) / (slopeNode[i] - slopeNode[i-order])
		}
	}
	return s
}

// at is cs in J/(kg·K).
func (s *slope) at(z float64) float64 {
	sum := s[slopeNodes-1]
	for i := slopeNodes - 2; i >= 0; i-- {
		sum = s[i] + float64(sum*(z-slopeNode[i]))
	}
	return sum
}
