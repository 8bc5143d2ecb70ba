package units

import "cmp"

// Temperature is a thermodynamic (absolute) temperature. It cannot be added or
// multiplied by mistake: the difference of two is a [TemperatureDifference].
// The zero value is absolute zero, which no model accepts: it reads as not set.
type Temperature struct{ kelvin float64 }

// Celsius makes a temperature from degrees Celsius: T/K = t/°C + 273.15.
func Celsius(t float64) Temperature { return Temperature{t + zeroCelsius} }

// Fahrenheit makes a temperature from degrees Fahrenheit: T/K = (t/°F + 459.67)/1.8.
func Fahrenheit(t float64) Temperature { return Temperature{(t + 459.67) / 1.8} }

// AbsoluteKelvin makes a temperature from kelvin.
func AbsoluteKelvin(t float64) Temperature { return Temperature{t} }

// Celsius returns the temperature in degrees Celsius. It is held in kelvin, so
// that Celsius(21.3).Celsius() is 21.3 only to 1e-13; write it with [Temperature.Fixed].
func (t Temperature) Celsius() float64 { return t.kelvin - zeroCelsius }

// Fahrenheit returns the temperature in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t.kelvin*1.8) - 459.67 }

// Kelvin returns the temperature in kelvin.
func (t Temperature) Kelvin() float64 { return t.kelvin }

// Sub returns the difference t − u.
func (t Temperature) Sub(u Temperature) TemperatureDifference {
	return TemperatureDifference(t.kelvin - u.kelvin)
}

// Add returns t raised by dt.
func (t Temperature) Add(dt TemperatureDifference) Temperature {
	return Temperature{t.kelvin + float64(dt)}
}

// Mean returns the arithmetic mean of t and u.
func (t Temperature) Mean(u Temperature) Temperature {
	return Temperature{t.kelvin + (u.kelvin-t.kelvin)/2}
}

// Compare returns −1, 0 or +1 as t is below, equal to or above u.
func (t Temperature) Compare(u Temperature) int { return cmp.Compare(t.kelvin, u.kelvin) }

// Equal reports whether t and u are the same temperature, as == does; it serves
// packages that compare structs, such as go-cmp.
func (t Temperature) Equal(u Temperature) bool { return t == u }

// IsZero reports whether t is absolute zero, that is, not set.
func (t Temperature) IsZero() bool { return t == Temperature{} }

const zeroCelsius = 273.15

var temperatureTable = table{
	name:     "temperature",
	absolute: true,
	units: []unitDef{
		{quantity: QuantityTemperature, symbol: "K", factor: 1, ucum: "K", bacnet: 63 + 1},
		{quantity: QuantityTemperature, symbol: "°C", factor: 1, offset: zeroCelsius, aliases: []string{"C", "℃"}, ucum: "Cel", bacnet: 62 + 1},
		{quantity: QuantityTemperature, symbol: "°F", factor: 1 / 1.8, offset: 459.67 / 1.8, aliases: []string{"F"}, ucum: "[degF]", bacnet: 64 + 1},
	},
	show: []display{{symbol: "°C"}},
}

// A Scale is a temperature scale to write a [Temperature] in.
type Scale uint8

// The scales.
const (
	CelsiusScale Scale = iota
	FahrenheitScale
	KelvinScale
)

// Fixed writes t on a scale with that many decimals.
func (t Temperature) Fixed(scale Scale, decimals int) string {
	symbol := [...]string{CelsiusScale: "°C", FahrenheitScale: "°F", KelvinScale: "K"}[min(scale, KelvinScale)]
	return temperatureTable.find(symbol).format(t.kelvin, decimals)
}
