package check_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

func TestListReportsEveryFault(t *testing.T) {
	l := check.List{Package: "valve"}
	assert.False(t, check.Positive(&l, "Stroke", 0*units.Millimetre))
	assert.False(t, check.NotNegative(&l, "Drop", units.Pressure(math.NaN())))
	assert.False(t, check.Within(&l, "Share", 1.5, 0, 1))
	assert.True(t, check.Within(&l, "Other", 0.5, 0, 1))
	err := l.Err()
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.EqualError(t, err, "valve: Stroke: got 0 m, want a finite value above zero\n"+
		"valve: Drop: got NaN Pa, want a finite value of zero or more\n"+
		"valve: Share: got 1.5, want 0 … 1")
	var field *units.FieldError
	require.True(t, errors.As(err, &field))
	assert.Equal(t, "Stroke", field.Field)
}

func TestEmptyListIsNoError(t *testing.T) {
	l := check.List{Package: "valve"}
	l.Add(nil)
	assert.NoError(t, l.Err())
}
