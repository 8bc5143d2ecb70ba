package fluid

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Limits of the saturation line of IF97 (region 4).
const (
	lowestSaturated  = 273.15   // K
	criticalKelvin   = 647.096  // K, also T* of the transport properties
	criticalPascal   = 22.064e6 // Pa, likewise p*
	criticalKilogram = 322.0    // kg/m³, likewise ρ*
	megapascal       = 1e6      // Pa, the unit of equations 30 and 31
)

// The coefficients n1 … n10 of Table 34 of IAPWS R7-97(2012).
const (
	n1  = 0.11670521452767e4
	n2  = -0.72421316703206e6
	n3  = -0.17073846940092e2
	n4  = 0.12020824702470e5
	n5  = -0.32325550322333e7
	n6  = 0.14915108613530e2
	n7  = -0.48232657361591e4
	n8  = 0.40511340542057e6
	n9  = -0.23855557567849
	n10 = 0.65017534844798e3
)

// CriticalPressure returns that of water, 22.064 MPa (IAPWS R7-97(2012)). Liquid
// sizing by IEC 60534-2-1 asks for it in FF = 0.96 − 0.28·√(pv/pc). For a glycol
// use it too: at 100 °C, half the value would lower FF by 0.008 only.
func CriticalPressure() units.AbsolutePressure { return pascal(criticalPascal) }

// SaturationPressure returns the pressure at which water boils at t, from
// 0 °C to the critical point at 373.946 °C: IAPWS R7-97(2012), region 4,
// equation 30.
func SaturationPressure(t units.Temperature) (units.AbsolutePressure, error) {
	T := t.Kelvin()
	if !(T >= lowestSaturated && T <= criticalKelvin) {
		faults := check.List{Package: packageName}
		faults.Fault("temperature", celsiusText(t), "0 … 373.946 °C, the saturation line of water")
		return units.AbsolutePressure{}, faults.Err()
	}
	return pascal(min(saturationPressure(T), criticalPascal)), nil // equation 30 ends 3e-4 Pa above
}

// SaturationTemperature returns the temperature at which water boils at p, from
// 611.213 Pa to the critical pressure, 22.064 MPa: IAPWS R7-97(2012), region 4,
// equation 31, the exact inverse of [SaturationPressure].
func SaturationTemperature(p units.AbsolutePressure) (units.Temperature, error) {
	pa := float64(p.AboveVacuum())
	if !(pa >= saturationPressure(lowestSaturated) && pa <= criticalPascal) {
		faults := check.List{Package: packageName}
		faults.Fault("pressure", pressureText(p), "0.611213 … 22064 kPa abs, the saturation line of water")
		return units.Temperature{}, faults.Err()
	}
	return units.AbsoluteKelvin(saturationTemperature(pa)), nil
}

// saturationPressure is equation 30, in Pa at T in K.
func saturationPressure(T float64) float64 {
	theta := T + n9/(T-n10)
	square := theta * theta
	a := square + float64(n1*theta) + n2
	b := float64(n3*square) + float64(n4*theta) + n5
	c := float64(n6*square) + float64(n7*theta) + n8
	root := 2 * c / (math.Sqrt(float64(b*b)-float64(4*a*c)) - b)
	square = root * root
	return square * square * megapascal
}

// saturationTemperature is equation 31, in K at p in Pa.
func saturationTemperature(p float64) float64 {
	beta := math.Sqrt(math.Sqrt(p / megapascal))
	square := beta * beta
	e := square + float64(n3*beta) + n6
	f := float64(n1*square) + float64(n4*beta) + n7
	g := float64(n2*square) + float64(n5*beta) + n8
	d := 2 * g / (-f - math.Sqrt(float64(f*f)-float64(4*e*g)))
	sum := n10 + d
	return (sum - math.Sqrt(float64(sum*sum)-4*(n9+float64(n10*d)))) / 2
}

// vapourPressure is that of water in Pa at T in K. Below 0 °C it stays at its
// value there, an upper bound for any mixture that is still liquid.
func vapourPressure(T float64) float64 {
	return saturationPressure(max(T, lowestSaturated))
}
