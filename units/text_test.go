package units_test

import (
	"encoding"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/units"
)

// text is what every quantity's pointer type can do.
type text[Q any] interface {
	*Q
	encoding.TextMarshaler
	encoding.TextUnmarshaler
	encoding.TextAppender
	json.Unmarshaler
	fmt.Stringer
}

// amount is what a quantity that is a named float64 can do besides.
type amount[Q any] interface {
	~float64
	In(unit Q) float64
	Fixed(unit Q, decimals int) string
}

// A textual quantity has the functions of one type in terms of SI numbers.
type textual struct {
	quantity  units.Quantity
	parse     func(string) (float64, error)
	marshal   func(si float64) ([]byte, error)
	append    func(b []byte, si float64) ([]byte, error)
	unmarshal func(text []byte, keep float64) (float64, error)
	fromJSON  func(data []byte, keep float64) (float64, error)
	toJSON    func(si float64) ([]byte, error)
	show      func(si float64) string
	in        func(si, unit float64) float64              // nil for the opaque types
	fixed     func(si, unit float64, decimals int) string // likewise
}

func textualOf[Q any, P text[Q]](quantity units.Quantity, parse func(string) (Q, error), of func(float64) Q, si func(Q) float64) textual {
	ptr := func(x float64) P { q := of(x); return P(&q) }
	return textual{
		quantity:  quantity,
		parse:     func(s string) (float64, error) { q, err := parse(s); return si(q), err },
		marshal:   func(x float64) ([]byte, error) { return ptr(x).MarshalText() },
		append:    func(b []byte, x float64) ([]byte, error) { return ptr(x).AppendText(b) },
		unmarshal: func(b []byte, x float64) (float64, error) { p := ptr(x); err := p.UnmarshalText(b); return si(*p), err },
		fromJSON:  func(b []byte, x float64) (float64, error) { p := ptr(x); err := p.UnmarshalJSON(b); return si(*p), err },
		toJSON:    func(x float64) ([]byte, error) { return json.Marshal(of(x)) },
		show:      func(x float64) string { return ptr(x).String() },
	}
}

func scalar[Q amount[Q], P text[Q]](quantity units.Quantity, parse func(string) (Q, error)) textual {
	tt := textualOf[Q, P](quantity, parse, func(x float64) Q { return Q(x) }, func(q Q) float64 { return float64(q) })
	tt.in = func(si, unit float64) float64 { return Q(si).In(Q(unit)) }
	tt.fixed = func(si, unit float64, decimals int) string { return Q(si).Fixed(Q(unit), decimals) }
	return tt
}

var textuals = []textual{
	scalar(units.QuantityRatio, units.ParseRatio),
	scalar(units.QuantityFlow, units.ParseFlow),
	scalar(units.QuantityMassFlow, units.ParseMassFlow),
	scalar(units.QuantityPressure, units.ParsePressure),
	textualOf(units.QuantityAbsolutePressure, units.ParseAbsolutePressure,
		func(x float64) units.AbsolutePressure { return units.Absolute(units.Pressure(x)) },
		func(p units.AbsolutePressure) float64 { return float64(p.AboveVacuum()) }),
	textualOf(units.QuantityTemperature, units.ParseTemperature, units.AbsoluteKelvin, units.Temperature.Kelvin),
	scalar(units.QuantityTemperatureDifference, units.ParseTemperatureDifference),
	scalar(units.QuantityPower, units.ParsePower),
	scalar(units.QuantityLength, units.ParseLength),
	scalar(units.QuantityArea, units.ParseArea),
	scalar(units.QuantityVelocity, units.ParseVelocity),
	scalar(units.QuantityDensity, units.ParseDensity),
	scalar(units.QuantityDynamicViscosity, units.ParseDynamicViscosity),
	scalar(units.QuantityKinematicViscosity, units.ParseKinematicViscosity),
	scalar(units.QuantitySpecificHeat, units.ParseSpecificHeat),
	scalar(units.QuantityThermalConductivity, units.ParseThermalConductivity),
	scalar(units.QuantityThermalConductance, units.ParseThermalConductance),
	scalar(units.QuantityPressureGradient, units.ParsePressureGradient),
	scalar(units.QuantityFlowCoefficient, units.ParseFlowCoefficient),
	scalar(units.QuantityVoltage, units.ParseVoltage),
	scalar(units.QuantityCurrent, units.ParseCurrent),
	scalar(units.QuantityResistance, units.ParseResistance),
	scalar(units.QuantityForce, units.ParseForce),
	scalar(units.QuantityTorque, units.ParseTorque),
	scalar(units.QuantityAngle, units.ParseAngle),
	scalar(units.QuantityFrequency, units.ParseFrequency),
}

func parserOf(q units.Quantity) func(string) (float64, error) { return textuals[q].parse }

// absolute quantities have a zero that text cannot be below.
func absolute(q units.Quantity) bool {
	return q == units.QuantityTemperature || q == units.QuantityAbsolutePressure
}

func TestNothingIsBelowAnAbsoluteZero(t *testing.T) {
	_, err := units.ParseTemperature("-274 °C")
	require.ErrorIs(t, err, units.ErrInvalid)
	_, err = units.ParseAbsolutePressure("-1 kPa abs")
	require.ErrorIs(t, err, units.ErrInvalid)
}

func TestEveryQuantityIsTested(t *testing.T) {
	require.Len(t, textuals, len(allQuantities()))
	for i, tt := range textuals {
		assert.Equal(t, units.Quantity(i), tt.quantity)
	}
}

// Text and JSON give back the same number; −0 may come back as 0, its equal.
func TestTextRoundTripIsLossless(t *testing.T) {
	for _, tt := range textuals {
		t.Run(tt.quantity.String(), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				si := rapid.Float64().Draw(t, "si")
				if absolute(tt.quantity) {
					si = math.Abs(si)
				}
				text, err := tt.marshal(si)
				require.NoError(t, err)
				back, err := tt.unmarshal(text, 7)
				require.NoError(t, err)
				require.Equal(t, si, back, "%s", text)
				appended, err := tt.append([]byte("x"), si)
				require.NoError(t, err)
				require.Equal(t, "x"+string(text), string(appended))
				data, err := tt.toJSON(si)
				require.NoError(t, err)
				back, err = tt.fromJSON(data, 7)
				require.NoError(t, err)
				require.Equal(t, si, back, "%s", data)
			})
		})
	}
}

// The typed constants and the units known at run time are the same.
func TestConstantsAgreeWithUnits(t *testing.T) {
	for _, tt := range textuals {
		for _, unit := range units.UnitsOf(tt.quantity) {
			if tt.in == nil || unit.String() == "hPa" { // which shares the constant of mbar
				continue
			}
			si := unit.SI(1.5)
			assert.InEpsilon(t, 1.5, tt.in(si, unit.SI(1)), 1e-15, name(unit))
			assert.Equal(t, unit.Format(si, 2), tt.fixed(si, unit.SI(1), 2), name(unit))
		}
	}
}

func TestNotFiniteHasNoText(t *testing.T) {
	for _, tt := range textuals {
		for _, si := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			_, err := tt.marshal(si)
			require.ErrorIs(t, err, units.ErrInvalid, tt.quantity)
			_, err = tt.toJSON(si)
			require.ErrorIs(t, err, units.ErrInvalid, tt.quantity)
			assert.NotPanics(t, func() { _ = tt.show(si) })
		}
	}
}

func TestUnmarshalLeavesTheValueOnError(t *testing.T) {
	for _, tt := range textuals {
		back, err := tt.unmarshal([]byte("5 furlongs"), 7)
		require.ErrorIs(t, err, units.ErrInvalid, tt.quantity)
		assert.InDelta(t, 7, back, 0)
	}
}

func TestJSONWantsTheUnit(t *testing.T) {
	for _, tt := range textuals {
		for _, data := range []string{"0.3", "true", "{}", "[1]"} {
			back, err := tt.fromJSON([]byte(data), 7)
			require.ErrorIs(t, err, units.ErrInvalid, tt.quantity)
			assert.ErrorContains(t, err, `the unit written with the number, as a JSON string such as "1.5`, tt.quantity)
			assert.InDelta(t, 7, back, 0)
		}
		back, err := tt.fromJSON([]byte("null"), 7)
		require.NoError(t, err)
		assert.InDelta(t, 7, back, 0, "null keeps the value")
	}
}

func TestJSONInAStruct(t *testing.T) {
	type unit struct {
		Flow   units.Flow
		Supply units.Temperature
		Drop   *units.Pressure `json:",omitempty"`
	}
	in := unit{Flow: 0.3 * units.LitrePerSecond, Supply: units.Celsius(6)}
	data, err := json.Marshal(in)
	require.NoError(t, err)
	assert.JSONEq(t, `{"Flow":"0.0003 m³/s","Supply":"279.15 K"}`, string(data))
	var out unit
	require.NoError(t, json.Unmarshal(data, &out))
	assert.Equal(t, in, out)
	require.NoError(t, json.Unmarshal([]byte(`{"Flow":null,"Supply":"43 °F","Drop":"40 kPa"}`), &out))
	assert.Equal(t, in.Flow, out.Flow)
	assert.InDelta(t, 43, out.Supply.Fahrenheit(), 1e-12)
	assert.InEpsilon(t, 40, out.Drop.In(units.Kilopascal), 1e-15)
	assert.EqualError(t, json.Unmarshal([]byte(`{"Flow":0.3}`), &out),
		`units: flow: got 0.3, want the unit written with the number, as a JSON string such as "1.5 l/s"`)
	keys := map[units.Pressure]int{40 * units.Kilopascal: 1}
	data, err = json.Marshal(keys)
	require.NoError(t, err)
	assert.JSONEq(t, `{"40000 Pa":1}`, string(data))
}

func TestFlags(t *testing.T) {
	var q units.Flow
	fs := flag.NewFlagSet("test", flag.ContinueOnError)
	fs.SetOutput(discard{})
	fs.TextVar(&q, "flow", 0.3*units.LitrePerSecond, "design flow")
	assert.Equal(t, "0.0003 m³/s", fs.Lookup("flow").DefValue)
	require.NoError(t, fs.Parse([]string{"-flow", "1.08 m3/h"}))
	assert.InEpsilon(t, 0.0003, float64(q), 1e-15)
	assert.ErrorContains(t, fs.Parse([]string{"-flow", "1,08 m3/h"}), "the comma is ambiguous")
}

type discard struct{}

func (discard) Write(b []byte) (int, error) { return len(b), nil }

func TestString(t *testing.T) {
	for _, tt := range []struct {
		want string
		q    fmt.Stringer
	}{
		{"0.3 l/s", 0.3 * units.LitrePerSecond},
		{"36 l/h", 0.01 * units.LitrePerSecond},
		{"0.1 l/s", 0.1 * units.LitrePerSecond},
		{"-0.3 l/s", -0.3 * units.LitrePerSecond},
		{"1000 l/s", 1 * units.CubicMetrePerSecond},
		{"0.3333 l/s", 1.0 / 3 * units.LitrePerSecond},
		{"40 kPa", 0.4 * units.Bar},
		{"99 Pa", 99 * units.Pascal},
		{"3.517 kW", 1 * units.TonOfRefrigeration},
		{"2.5 MW", 2500 * units.Kilowatt},
		{"25 W", 25 * units.Watt},
		{"15 mm", 15 * units.Millimetre},
		{"1.5 µm", 1.5 * units.Micrometre},
		{"2.5 Kv", 2.5 * units.Kv},
		{"30 %", 30 * units.Percent},
		{"90 °", 90 * units.Degree},
		{"497.5 Ω", 497.51243781 * units.Ohm},
		{"12 mA", 12 * units.Milliampere},
		{"300 kPa abs", units.Absolute(3 * units.Bar)},
		{"21 °C", units.Celsius(21)},
		{"-14.58 °C", units.Celsius(-14.58)},
		{"0 l/s", 0 * units.LitrePerSecond},
		{"0 kPa", 0 * units.Pascal},
		{"0 kW", 0 * units.Watt},
		{"0 N", 0 * units.Newton},
		{"0 Ω", 0 * units.Ohm},
		{"0 mA", 0 * units.Ampere},
		{"0 m", 0 * units.Metre},
		{"0 m", units.Length(math.Copysign(0, -1))},
		{"0 °C", units.Celsius(0.15).Add(-0.05 * units.Kelvin).Add(-0.1 * units.Kelvin)},
		{"0.25 °C", units.Celsius(0.25)},
		{"1e-12 kg/s", 1e-12 * units.KilogramPerSecond},
		{"1e+12 MW", 1e12 * units.Megawatt},
		{"NaN l/h", units.Flow(math.NaN())},
		{"+Inf l/s", units.Flow(math.Inf(1))},
	} {
		assert.Equal(t, tt.want, tt.q.String())
	}
}

// String rounds to four digits, whatever the unit it picks.
func TestStringParsesBack(t *testing.T) {
	for _, tt := range textuals {
		rapid.Check(t, func(t *rapid.T) {
			si := rapid.Float64Range(1e-30, 1e30).Draw(t, "si")
			if absolute(tt.quantity) {
				si = 1 + si // four digits of −273.15 °C are below absolute zero
			} else {
				si = math.Copysign(si, rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sign"))
			}
			shown, err := tt.parse(tt.show(si))
			require.NoError(t, err)
			if tt.quantity != units.QuantityTemperature { // rounded in °C, compared in kelvin
				require.InEpsilon(t, si, shown, 0.0006)
			}
		})
	}
}

func TestFixed(t *testing.T) {
	for want, got := range map[string]string{
		"0.300 l/s":       (0.3 * units.LitrePerSecond).Fixed(units.LitrePerSecond, 3),
		"1.1 m³/h":        (0.3 * units.LitrePerSecond).Fixed(units.CubicMetrePerHour, 1),
		"4.76 US gpm":     (0.3 * units.LitrePerSecond).Fixed(units.USGallonPerMinute, 2),
		"0.0003 m³/s":     (0.3 * units.LitrePerSecond).Fixed(2*units.LitrePerSecond, 4), // not a unit
		"0.0 kPa":         (-0.01 * units.Kilopascal).Fixed(units.Kilopascal, 1),
		"-0.1 kPa":        (-0.06 * units.Kilopascal).Fixed(units.Kilopascal, 1),
		"21.0 °C":         units.Celsius(21).Fixed(units.CelsiusScale, 1),
		"69.8 °F":         units.Celsius(21).Fixed(units.FahrenheitScale, 1),
		"294.15 K":        units.Celsius(21).Fixed(units.KelvinScale, 2),
		"274.1 K":         units.Celsius(1).Fixed(units.Scale(200), 1), // not a scale
		"3.00 bar abs":    units.Absolute(300*units.Kilopascal).Fixed(units.Bar, 2),
		"300000 Pa abs":   units.Absolute(300*units.Kilopascal).Fixed(units.FootOfWater, 0), // no absolute form
		"3 kPa":           (3 * units.Kilopascal).Fixed(units.Kilopascal, -5),
		"10.8 °F":         (6 * units.Kelvin).Fixed(units.FahrenheitDegree, 1),
		"0.865 Kv":        (1 * units.Cv).Fixed(units.Kv, 3),
		"0.0000240 m²":    (1 * units.Cv).Fixed(units.SquareMetreAv, 7),
		"NaN l/s":         units.Flow(math.NaN()).Fixed(units.LitrePerSecond, 2),
		"50.0 %":          units.Ratio(0.5).Fixed(units.Percent, 1),
		"0.50":            units.Ratio(0.5).Fixed(units.One, 2),
		"101.325 kPa abs": units.Atmospheric().Fixed(units.Kilopascal, 3),
	} {
		assert.Equal(t, want, got)
	}
}
