package units_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
)

// parsed calls one of the Parse functions and gives SI.
func parsed[Q ~float64](parse func(string) (Q, error)) func(string) (float64, error) {
	return func(text string) (float64, error) {
		q, err := parse(text)
		return float64(q), err
	}
}

var (
	parseFlow       = parsed(units.ParseFlow)
	parsePressure   = parsed(units.ParsePressure)
	parsePower      = parsed(units.ParsePower)
	parseLength     = parsed(units.ParseLength)
	parseRatio      = parsed(units.ParseRatio)
	parseKv         = parsed(units.ParseFlowCoefficient)
	parseDifference = parsed(units.ParseTemperatureDifference)
	parseResistance = parsed(units.ParseResistance)
)

func parseTemperature(text string) (float64, error) {
	t, err := units.ParseTemperature(text)
	return t.Kelvin(), err
}

func parseAbsolute(text string) (float64, error) {
	p, err := units.ParseAbsolutePressure(text)
	return float64(p.AboveVacuum()), err
}

func TestParseSpellings(t *testing.T) {
	for _, tt := range []struct {
		parse func(string) (float64, error)
		si    float64
		texts []string
	}{
		{parseFlow, 0.0003, []string{"0.3 l/s", "0.3 L/s", "0.3l/s", " 0.3  l/s ", "0.3 lps", "1.08 m³/h", "1.08 m3/h", "1.08 m^3/h", "1.08 m3/hr",
			"18 l/min", "18 L/min", "1080 l/h", "1080 lph", "3e-4 m³/s", "3E-4 m3/s", "+.3 l/s", "300.e-6 m³/s", "0.3\u00a0l/s", "0.3\u202fl/s"}},
		{parseFlow, -0.0003, []string{"-0.3 l/s", "−0.3 l/s"}},
		{parseFlow, 0.0006309019640, []string{"10 US gpm", "10 gpm", "10 GPM", "10 USgal/min", "10 gal/min"}},
		{parsePressure, 40e3, []string{"40 kPa", "40kPa", "40 kpa", "0.4 bar", "400 mbar", "400 hPa", "0.04 MPa", "40000 Pa"}},
		{parsePressure, 9806.65, []string{"1 mH2O", "1 mwc", "1000 mmH2O"}},
		{parsePower, 3200, []string{"3.2 kW", "3.2 KW", "3.2 kw", "3200 W", "0.0032 MW"}},
		{parsePower, 3516.8528420667, []string{"1 TR", "1 ton", "1 ton of refrigeration", "12000 Btu/h", "12000 BTU/hr", "12 kBtu/h", "12 MBH"}},
		{parseTemperature, 294.15, []string{"21 °C", "21°C", "21 C", "21 degC", "21 ºC", "69.8 °F", "69.8F", "294.15 K"}},
		{parseDifference, 6, []string{"6 K", "6 °C", "6 C", "10.8 °F"}},
		{parseLength, 0.0254, []string{"1 in", "1\"", "25.4 mm", "2.54 cm", "0.0254 m", "25400 µm", "25400 μm", "25400 um"}},
		{parseRatio, 0.3, []string{"30 %", "30%", "30 percent", "0.3"}},
		{parseKv, 2.5, []string{"2.5 Kv", "2.5 kvs", "2.5Kvs"}},
		{parseAbsolute, 3e5, []string{"3 bar abs", "3 bara", "3 bar(a)", "300 kPa abs", "300 kPa(a)", "0.3 MPa abs"}},
		{parseResistance, 500, []string{"500 Ω", "500 \u2126", "500 ohm", "500 Ohm", "0.5 kΩ", "0.5 kohm"}},
	} {
		for _, text := range tt.texts {
			got, err := tt.parse(text)
			if assert.NoError(t, err, text) {
				assert.InEpsilon(t, tt.si, got, 1e-12, text)
			}
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, tt := range []struct {
		parse  func(string) (float64, error)
		text   string
		reason string
	}{
		{parseFlow, "1,08 m³/h", "the comma is ambiguous, write 1.08 m³/h"},
		{parseFlow, "1,234.5 l/s", "no thousands separators"},
		{parseFlow, "1 234 l/s", "no space inside the number"},
		{parseFlow, "1'234 l/s", "one of the units"},
		{parseFlow, "1_234 l/s", "one of the units"},
		{parseFlow, "0.3", "a unit after the number: one of m³/s, m³/h, l/s"},
		{parseFlow, "", "a finite number and a unit"},
		{parseFlow, "l/s", "a finite number and a unit"},
		{parseFlow, "NaN l/s", "a finite number and a unit"},
		{parseFlow, "Inf l/s", "a finite number and a unit"},
		{parseFlow, "-inf l/s", "a finite number and a unit"},
		{parseFlow, "1e400 l/s", "a finite number and a unit"},
		{parseFlow, "0x10 l/s", "one of the units"},
		{parseFlow, "0x1p4 l/s", "one of the units"},
		{parseFlow, "--1 l/s", "a finite number and a unit"},
		{parseFlow, "1e l/s", `not "e l/s"`},
		{parseFlow, ". l/s", "a finite number and a unit"},
		{parseFlow, "0.3 kg/s", `not "kg/s"`},
		{parseFlow, "0.3 L/S", `not "L/S"`},
		{parsePower, "5 mW", `one of the units W, kW, MW, Btu/h, kBtu/h, TR, not "mW"`},
		{parsePower, "5,2 kW", "write 5.2 kW"},
		{parsePower, "1e306 MW", "within the range of float64"},
		{parsePressure, "3 bar abs", `not "bar abs"`},
		{parseAbsolute, "3 bar", `not "bar"`},
		{parseTemperature, "21", "a unit after the number"},
		{parseRatio, "30 x", "one of the units (none), %"},
	} {
		_, err := tt.parse(tt.text)
		require.ErrorIs(t, err, units.ErrInvalid, tt.text)
		assert.ErrorContains(t, err, tt.reason, tt.text)
		var field *units.FieldError
		require.ErrorAs(t, err, &field)
		assert.Equal(t, "units", field.Package)
		assert.Equal(t, fmt.Sprintf("%q", tt.text), field.Value)
	}
}

func TestMustParsePanicsOnBadText(t *testing.T) {
	assert.InEpsilon(t, 0.0003, float64(units.MustParseFlow("0.3 l/s")), 1e-15)
	assert.Panics(t, func() { units.MustParseFlow("0.3") })
}

// What the Unit type finds and what Parse accepts is the same.
func TestEverySymbolParses(t *testing.T) {
	for _, q := range allQuantities() {
		for _, unit := range units.UnitsOf(q) {
			si, err := parserOf(q)("1.5 " + unit.String())
			if assert.NoError(t, err, name(unit)) {
				assert.InEpsilon(t, unit.SI(1.5), si, 1e-15, name(unit))
			}
		}
	}
}
