package units_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
)

func TestFieldError(t *testing.T) {
	err := errors.Join(errors.New("other"), &units.FieldError{Package: "valve", Field: "Stroke", Value: "0 m", Want: "a stroke above zero"})
	require.ErrorIs(t, err, units.ErrInvalid)
	var field *units.FieldError
	require.ErrorAs(t, err, &field)
	assert.EqualError(t, field, "valve: Stroke: got 0 m, want a stroke above zero")
}
