package terminal_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

func TestConfigurationFaults(t *testing.T) {
	for name, test := range map[string]struct {
		build  func() error
		fields string
	}{
		"empty radiator": {func() error { _, err := terminal.NewRadiator(terminal.RadiatorConfig{}); return err }, "RatedHeat"},
		"cooling radiator": {func() error {
			_, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1, Rated: celsius(10, 12, 20), Exponent: 3})
			return err
		}, "Rated.Supply Exponent"},
		"radiator designed to cool": {func() error {
			_, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1, Design: celsius(10, 12, 20)})
			return err
		}, "Design.Supply"},
		"return below the room": {func() error {
			_, err := terminal.NewCeiling(terminal.CeilingConfig{RatedHeat: 1, Rated: celsius(15, 26, 24), WaterShare: 2, LaminarFloor: -1})
			return err
		}, "Rated.Return WaterShare LaminarFloor"},
		"empty ceiling": {func() error { _, err := terminal.NewCeiling(terminal.CeilingConfig{}); return err }, "RatedHeat Rated.Supply Rated.Return Rated.Air"},
		"empty beam":    {func() error { _, err := terminal.NewPassiveBeam(terminal.PassiveBeamConfig{}); return err }, "RatedHeat Rated.Supply Rated.Return Rated.Air"},
		"heating passive beam": {func() error {
			_, err := terminal.NewPassiveBeam(terminal.PassiveBeamConfig{RatedHeat: 1, Rated: celsius(60, 50, 20)})
			return err
		}, "Rated.Supply"},
		"passive beam designed to heat": {func() error {
			_, err := terminal.NewPassiveBeam(terminal.PassiveBeamConfig{RatedHeat: 1, Rated: celsius(15, 17, 24), Design: celsius(60, 50, 20)})
			return err
		}, "Design.Supply"},
		"active beam": {func() error {
			_, err := terminal.NewActiveBeam(terminal.ActiveBeamConfig{RatedHeat: 1, Rated: celsius(14, 17, 24)})
			return err
		}, "PrimaryFlow PrimaryAir"},
		"floor": {func() error {
			_, err := terminal.NewFloor(terminal.FloorConfig{Conductance: units.ThermalConductance(math.Inf(1)), Design: celsius(40, 40, 20), WaterShare: 1, LaminarFloor: 2})
			return err
		}, "Conductance Area Design.Return WaterShare LaminarFloor"},
		"frozen": {func() error {
			_, err := terminal.NewCoil(terminal.CoilConfig{Heat: 1, Design: celsius(-5, 0, 20), LeavingAir: units.Celsius(10)})
			return err
		}, "Design.Supply"},
		"boiling in the rating": {func() error {
			_, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1, Rated: celsius(250, 220, 20)})
			return err
		}, "Rated.Supply Rated.Return"},
		"steam": {func() error {
			_, err := terminal.NewCoil(terminal.CoilConfig{Heat: 1, Design: celsius(150, 120, 20), LeavingAir: units.Celsius(30), Pressure: units.Absolute(300 * units.Kilopascal)})
			return err
		}, "Pressure"},
		"coil": {func() error {
			_, err := terminal.NewCoil(terminal.CoilConfig{Heat: -1, Design: celsius(70, 50, 18), Arrangement: 99, AirFlow: 1, LeavingAir: units.Celsius(80)})
			return err
		}, "Heat Arrangement AirFlow LeavingAir"},
		"coil without air": {func() error {
			_, err := terminal.NewCoil(terminal.CoilConfig{Heat: 1, Design: celsius(70, 50, 18), AirDensity: -1})
			return err
		}, "AirFlow AirDensity"},
		"coil too strong": {func() error {
			_, err := terminal.NewCoil(terminal.CoilConfig{Heat: 5 * units.Kilowatt, Design: celsius(70, 50, 18), LeavingAir: units.Celsius(55), Arrangement: terminal.ParallelFlow})
			return err
		}, "Heat"},
		"wet coil": {func() error {
			_, err := terminal.NewWetCoil(terminal.WetCoilConfig{Design: celsius(70, 50, 18), Humidity: 1.2, AirPressure: units.Absolute(1)})
			return err
		}, "Heat Design.Supply Humidity AirFlow AirPressure"},
		"wet coil too strong": {func() error {
			_, err := terminal.NewWetCoil(terminal.WetCoilConfig{Heat: 50 * units.Kilowatt, Design: celsius(6, 12, 27), Humidity: 0.5, AirFlow: 0.2})
			return err
		}, "Heat"},
	} {
		err := test.build()
		require.ErrorIs(t, err, units.ErrInvalid, name)
		fields := []string{}
		for _, one := range err.(interface{ Unwrap() []error }).Unwrap() {
			for _, leaf := range leaves(one) {
				fields = append(fields, leaf.Field)
			}
		}
		for _, want := range strings.Fields(test.fields) {
			assert.Contains(t, fields, want, name)
		}
		for _, field := range fields {
			assert.Contains(t, test.fields, field, name)
		}
	}
}

// What is not given is said once, field by field, and in no other words.
func TestMissingTemperatures(t *testing.T) {
	const missing = "terminal: Design.Supply: got none, want a temperature: it is required\n" +
		"terminal: Design.Return: got none, want a temperature: it is required\n" +
		"terminal: Design.Air: got none, want −60 … 100 °C: it is required"
	_, err := terminal.NewCoil(terminal.CoilConfig{})
	assert.EqualError(t, err, "terminal: Heat: got 0 kW, want a finite value above zero\n"+missing)
	_, err = terminal.NewWetCoil(terminal.WetCoilConfig{Heat: 1, Humidity: 0.5, AirFlow: 1})
	assert.EqualError(t, err, missing)
	_, err = terminal.NewFloor(terminal.FloorConfig{Conductance: 1, Area: 1})
	assert.EqualError(t, err, missing)
	design := celsius(70, 50, 20)
	design.Return = units.Temperature{}
	_, err = terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1, Design: design})
	assert.EqualError(t, err, "terminal: Design.Return: got none, want a temperature: it is required")
	_, err = terminal.NewActiveBeam(terminal.ActiveBeamConfig{RatedHeat: 1, Rated: celsius(14, 17, 24), PrimaryFlow: 1})
	assert.EqualError(t, err, "terminal: PrimaryAir: got none, want −60 … 100 °C: it is required")
	_, err = terminal.NewCoil(terminal.CoilConfig{Heat: 1, Design: celsius(math.NaN(), 50, 20), LeavingAir: units.Celsius(30)})
	assert.EqualError(t, err, "terminal: Design.Supply: got NaN °C, want a temperature above or below that of the air")
}

// leaves are the field errors in a tree of joined errors.
func leaves(err error) []*units.FieldError {
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var all []*units.FieldError
		for _, one := range many.Unwrap() {
			all = append(all, leaves(one)...)
		}
		return all
	}
	var field *units.FieldError
	if errors.As(err, &field) {
		return []*units.FieldError{field}
	}
	return nil
}

func TestConfigJSON(t *testing.T) {
	roundTrip(t, terminal.RadiatorConfig{RatedHeat: 1, Exponent: 1.3, Design: celsius(70, 55, 20), Fluid: fluid.MustParse("MPG 25 vol-%")})
	roundTrip(t, terminal.CeilingConfig{RatedHeat: 1, Rated: celsius(15, 17, 24), WaterShare: 0.1})
	roundTrip(t, terminal.PassiveBeamConfig{RatedHeat: 1, Rated: celsius(15, 17, 24), LaminarFloor: 0.1})
	roundTrip(t, terminal.ActiveBeamConfig{RatedHeat: 1, Rated: celsius(15, 17, 24), PrimaryFlow: 1, PrimaryAir: units.Celsius(16)})
	roundTrip(t, terminal.FloorConfig{Conductance: 1, Area: 2, Design: celsius(40, 35, 20), WaterShare: 0.1, LaminarFloor: 1})
	roundTrip(t, terminal.CoilConfig{Heat: 1, Design: celsius(70, 50, 18), AirFlow: 1, Arrangement: terminal.CrossFlow})
	roundTrip(t, terminal.WetCoilConfig{Heat: 1, Design: celsius(6, 12, 27), Humidity: 0.5, AirFlow: 1, AirPressure: units.Absolute(90000)})
}

func roundTrip[T any](t *testing.T, config T) {
	data, err := json.Marshal(config)
	require.NoError(t, err)
	var back T
	require.NoError(t, json.Unmarshal(data, &back), "%s", data)
	assert.Empty(t, cmp.Diff(config, back))
}
