package control_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
)

// drawAnyLoop draws a PID loop of any kind, derivatives far beyond what a rule would give
// included: with a dead time that is long against the lag they lift the gain at high frequencies.
func drawAnyLoop(t *rapid.T) (control.Process, control.Tuning) {
	power := func(low, high float64, label string) float64 {
		return math.Pow(10, rapid.Float64Range(low, high).Draw(t, label))
	}
	p := newProcess(t, 1, power(-1.5, 1.5, "lag"), 1)
	return p, newTuning(power(-1, 2, "gain"), power(-1, 2, "ti"), power(-2, 1, "td"), rapid.Float64Range(1, 20).Draw(t, "n"))
}

func scaled(c control.Tuning, factor float64) control.Tuning {
	c.Band /= units.TemperatureDifference(factor)
	return c
}

// At all gains below its margin an unstable loop is stable, and above it is not, nor is the
// margin of that loop another one.
func TestGainMarginOfAnyLoop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, c := drawAnyLoop(t)
		m := p.Margins(c)
		assert.True(t, p.Margins(scaled(c, 0.98*m.Gain)).Stable, "%+v", m)
		above := p.Margins(scaled(c, 1.02*m.Gain))
		assert.False(t, above.Stable, "%+v", m)
		if !m.Stable {
			assert.InEpsilon(t, 1/1.02, above.Gain, 1e-9)
		}
	})
}

// The greatest crossing of this loop lies beyond ω·Td = N, where the derivative still lifts
// the gain. The crossings are where the phase is −(2k+1)π; found here by bisection of the
// phase of complex arithmetic between neighbouring crossings.
func TestGainMarginBeyondTheDerivative(t *testing.T) {
	const gain, lag, dead, band, ti, td, n = 42.36, 2.0, 50.0, 29.4, 1000.0, 25.0, 4.0
	at := func(w float64) complex128 {
		s := complex(0, w)
		return gain / band * (1 + 1/(ti*s) + td*s/(1+td*s/n)) / (1 + lag*s)
	}
	most := 0.0
	for turn := range 200 {
		crossing := (2*float64(turn) + 1) * math.Pi
		low, high := (crossing-math.Pi)/dead+1e-9, (crossing+math.Pi)/dead
		for range 100 {
			w := (low + high) / 2
			if l := at(w); w*dead-math.Atan2(imag(l), real(l)) < crossing {
				low = w
			} else {
				high = w
			}
		}
		l := at(low)
		most = math.Max(most, math.Hypot(real(l), imag(l)))
	}
	m := newProcess(t, gain, lag, dead).Margins(newTuning(1/band, ti, td, n))
	assert.False(t, m.Stable)
	assert.InEpsilon(t, 1/most, m.Gain, 1e-9)
	assert.InDelta(t, 0.1829, m.Gain, 5e-5)
	assert.Less(t, m.Phase.In(units.Degree), -3600.0, "counts whole turns")
}
