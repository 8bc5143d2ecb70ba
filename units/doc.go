// Package units holds the physical quantities of hydronics as types that
// cannot be mixed up, with the units that the trade uses on both sides of the
// Atlantic.
//
// A quantity is a named float64 that holds SI, in the manner of time.Duration.
// A literal is a product with a unit, a variable is converted first, and In
// gives the number back:
//
//	q := 0.3 * units.LitrePerSecond
//	q = units.Flow(x) * units.LitrePerSecond
//	fmt.Println(q.In(units.CubicMetrePerHour)) // 1.08
//
// Two quantities are opaque structs instead, as time.Time is, because adding
// two of them has no meaning: [Temperature], whose differences are
// [TemperatureDifference], and [AbsolutePressure], whose differences are
// [Pressure].
//
//	supply := units.Celsius(6)
//	back := supply.Add(6 * units.Kelvin)
//	drop := back.Sub(supply)
//
// A product or quotient that changes the dimension is a named method, such as
// [Flow.MassFlow], [Flow.Velocity] or [Pressure.Force]; one must not multiply
// two quantities directly. The share that one has of another of its kind is a
// number, which In gives: q.In(design), not q/design, which would still be a Flow.
//
// # Text
//
// Every quantity has a Parse function, String, Fixed, MarshalText and
// UnmarshalText, so it works in JSON, in CSV and in flag.TextVar alike.
// Parsing accepts the usual spellings ("0.3 l/s", "0.3 L/s", "1.08 m3/h"),
// requires the unit and a decimal point, and says why it refuses "1,08 m³/h".
// String is for people: it picks a unit and rounds to four digits. MarshalText
// is for machines: SI, without loss. Fixed is for tables: a chosen unit and a
// fixed number of decimals.
//
// # Codes
//
// [Unit] describes a unit at run time, with its BACnet engineering-unit code
// and its UCUM code: [UnitByBACnet] and [UnitByUCUM] lead from a controller's
// point to a quantity.
//
// Factors are exact by definition or carry 17 digits; the tests compare them
// with a general-purpose unit library (recorded in internal/reference).
//
// # Errors
//
// [FieldError] and [ErrInvalid] are how every package of the module reports bad
// input. They live here because this is the one package that all others import.
package units

//go:generate go run ../internal/unitgen -out methods.go
