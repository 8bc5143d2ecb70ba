package units_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/units"
)

func TestAbsolutePressureArithmetic(t *testing.T) {
	atmosphere := units.Atmospheric()
	assert.InDelta(t, 101325, atmosphere.AboveVacuum().In(units.Pascal), 0) // ISO 2533
	p := atmosphere.Add(3 * units.Bar)
	assert.InDelta(t, 4.01325, p.AboveVacuum().In(units.Bar), 1e-12)
	assert.InDelta(t, 3, p.Sub(atmosphere).In(units.Bar), 1e-12)
	assert.Equal(t, units.Absolute(2*units.Bar), units.Absolute(200*units.Kilopascal))
	assert.Equal(t, 1, p.Compare(atmosphere))
	assert.Equal(t, -1, atmosphere.Compare(p))
	assert.Equal(t, 0, p.Compare(p))
	assert.True(t, units.AbsolutePressure{}.IsZero())
	assert.False(t, p.IsZero())
}
