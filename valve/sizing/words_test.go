package sizing_test

import (
	"encoding"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

type word interface {
	encoding.TextMarshaler
	String() string
}

// check sends each constant of an enumeration through its text and requires that
// the one after the last has none.
func checkWords[E word, P interface {
	*E
	encoding.TextUnmarshaler
}](t *testing.T, all []E, beyond E) {
	t.Helper()
	for _, e := range all {
		text, err := e.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, e.String(), string(text))
		var back E
		require.NoError(t, P(&back).UnmarshalText(text))
		assert.Equal(t, e, back)
	}
	_, err := beyond.MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
}

func TestWords(t *testing.T) {
	var styles []sizing.Style
	for s := sizing.GlobeThreeVPort; s <= sizing.BallSegmented; s++ {
		styles = append(styles, s)
	}
	checkWords(t, styles, sizing.BallSegmented+1)
	checkWords(t, []sizing.Regime{sizing.Turbulent, sizing.Transitional, sizing.Laminar}, sizing.Laminar+1)
	checkWords(t, []sizing.CavitationState{sizing.NotCavitating, sizing.Cavitating, sizing.Choking, sizing.Flashing}, sizing.Flashing+1)
}

// The three styles of the standard's worked examples: 1 and 2 for liquids, 3
// for gas.
func TestStylesOfTheWorkedExamples(t *testing.T) {
	for _, test := range []struct {
		style  sizing.Style
		fl, fd float64
	}{
		{sizing.GlobeContouredOpening, 0.9, 0.46},
		{sizing.BallSegmented, 0.6, 0.98},
		{sizing.EccentricSphericalOpening, 0.85, 0.42},
	} {
		v := test.style.Valve(50 * units.Millimetre)
		assert.Equal(t, sizing.Valve{Diameter: 50 * units.Millimetre, FL: test.fl, Fd: test.fd}, v, test.style)
	}
}

func TestEveryStyleMakesAValve(t *testing.T) {
	for s := sizing.GlobeThreeVPort; s <= sizing.BallSegmented; s++ {
		c := example1()
		c.Valve = s.Valve(150 * units.Millimetre)
		if s == sizing.SmallFlowTaperedNeedle {
			_, err := sizing.Size(1, c)
			assert.Equal(t, []string{"Valve.Fd"}, fields(t, err))
			continue
		}
		_, err := sizing.Size(100*units.CubicMetrePerHour, c)
		assert.NoError(t, err, s)
	}
	c := example1()
	c.Valve = (sizing.BallSegmented + 1).Valve(150 * units.Millimetre)
	_, err := sizing.Size(1, c)
	assert.Equal(t, []string{"Valve.FL", "Valve.Fd"}, fields(t, err))
}

func FuzzStyle(f *testing.F) {
	f.Add([]byte("globe-contoured-opening"))
	f.Add([]byte("Ball Segmented"))
	f.Fuzz(func(t *testing.T, text []byte) {
		var s sizing.Style
		if s.UnmarshalText(text) != nil {
			assert.Zero(t, s)
			return
		}
		again, err := s.MarshalText()
		require.NoError(t, err)
		var back sizing.Style
		require.NoError(t, back.UnmarshalText(again))
		assert.Equal(t, s, back)
	})
}
