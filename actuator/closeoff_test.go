package actuator_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func pushing(t *testing.T, closing actuator.End, force units.Force) actuator.Actuator {
	t.Helper()
	a, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre, ClosingEnd: closing, Force: force})
	require.NoError(t, err)
	return a
}

// By hand: on 200 mm², 1 N is 5 kPa.
func TestCloseOff(t *testing.T) {
	seat := actuator.Seat{Area: 200 * units.SquareMillimetre, Friction: 10 * units.Newton, Spring: 30 * units.Newton, SpringOpen: 70 * units.Newton}
	tests := []struct {
		name     string
		closing  actuator.End
		force    units.Force
		pressure float64 // kPa
		spare    float64 // N
	}{
		{"push-to-close: 120 − 30 − 10 = 80 N", actuator.Extended, 120, 400, 80},
		{"push-to-close, too weak", actuator.Extended, 35, 0, -5},
		{"push-to-open: the spring's 30 − 10 = 20 N close", actuator.Retracted, 120, 100, 40},
		{"push-to-open, stronger drive, same close-off", actuator.Retracted, 500, 100, 420},
		{"push-to-open, cannot open fully", actuator.Retracted, 60, 100, -20},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := pushing(t, tt.closing, tt.force).CloseOff(seat)
			require.NoError(t, err)
			assert.InDelta(t, tt.pressure, got.Pressure.In(units.Kilopascal), 1e-9)
			assert.InDelta(t, tt.spare, got.Spare.In(units.Newton), 1e-9)
		})
	}
}

func TestCloseOffWithoutSpring(t *testing.T) {
	seat := actuator.Seat{Area: 200 * units.SquareMillimetre}
	got, err := pushing(t, actuator.Retracted, 120).CloseOff(seat)
	require.NoError(t, err)
	assert.Zero(t, got.Pressure, "nothing closes a push-to-open valve without its spring")
	seat.Spring = 40 * units.Newton
	got, err = pushing(t, actuator.Retracted, 120).CloseOff(seat)
	require.NoError(t, err)
	assert.InDelta(t, 80, got.Spare.In(units.Newton), 1e-9, "the open spring counts as the closed one")
}

// By hand: a bore of 1000 mm² at 1 MPa presses with 1000 N; friction 0.1 on a radius of
// 20 mm makes 2 N·m of that.
func TestCloseOffRotary(t *testing.T) {
	a, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Angle: 90 * units.Degree, Torque: 5 * units.NewtonMetre})
	require.NoError(t, err)
	seat := actuator.RotarySeat{Area: 1000 * units.SquareMillimetre, Radius: 20 * units.Millimetre, Friction: 0.1, Torque: 2 * units.NewtonMetre}
	got, err := a.CloseOffRotary(seat)
	require.NoError(t, err)
	assert.InDelta(t, 1500, got.Pressure.In(units.Kilopascal), 1e-9)
	assert.InDelta(t, 3, got.Spare.In(units.NewtonMetre), 1e-12)
	seat.Torque = 6 * units.NewtonMetre
	got, err = a.CloseOffRotary(seat)
	require.NoError(t, err)
	assert.Zero(t, got.Pressure)
	assert.InDelta(t, -1, got.Spare.In(units.NewtonMetre), 1e-12)
}

func TestCloseOffFaults(t *testing.T) {
	nan := math.NaN()
	_, err := pushing(t, actuator.Extended, 0).CloseOff(actuator.Seat{Area: 0, Friction: -1, Spring: units.Force(nan), SpringOpen: units.Force(math.Inf(1))})
	assert.Equal(t, []string{"Actuator.Force", "Seat.Area", "Seat.Friction", "Seat.Spring", "Seat.SpringOpen"}, faultyFields(t, err))

	rotary, err := actuator.New(actuator.Config{Input: signal.Range0To10V(), Angle: 90 * units.Degree})
	require.NoError(t, err)
	_, err = rotary.CloseOffRotary(actuator.RotarySeat{Torque: -1})
	assert.Equal(t, []string{"Actuator.Torque", "RotarySeat.Area", "RotarySeat.Radius", "RotarySeat.Friction", "RotarySeat.Torque"}, faultyFields(t, err))

	_, err = rotary.CloseOff(actuator.Seat{Area: units.SquareMetre})
	assert.Contains(t, faultyFields(t, err), "Seat")
	_, err = pushing(t, actuator.Extended, 100).CloseOffRotary(actuator.RotarySeat{})
	assert.Contains(t, faultyFields(t, err), "RotarySeat")
}

func faultyFields(t *testing.T, err error) (fields []string) {
	t.Helper()
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
		var field *units.FieldError
		require.True(t, errors.As(e, &field))
		fields = append(fields, field.Field)
	}
	return fields
}
