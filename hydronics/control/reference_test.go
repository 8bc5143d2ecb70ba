package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

func TestUltimateAgainstOctave(t *testing.T) {
	c := reference.Compare(t, "control_ultimate")
	for row := range c.Rows() {
		u := newProcess(t, row.Float("gain"), row.Float("tau_s"), row.Float("theta_s")).Ultimate()
		c.Check(row, "Ku", 1/float64(u.Band))
		c.Check(row, "Pu_s", u.Period.Seconds())
	}
	c.Require(1e-13, "Ku")
	c.Require(1e-9, "Pu_s") // rounded to a nanosecond
}

func TestMarginsAgainstOctave(t *testing.T) {
	c := reference.Compare(t, "control_margins")
	for row := range c.Rows() {
		p := newProcess(t, row.Float("gain"), row.Float("tau_s"), row.Float("theta_s"))
		m := p.Margins(newTuning(row.Float("Kc"), row.Float("Ti_s"), row.Float("Td_s"), row.Float("N")))
		assert.True(t, m.Stable, "%v", row)
		c.Check(row, "gain_margin", m.Gain)
		c.Check(row, "phase_margin_rad", float64(m.Phase))
		c.Check(row, "Ms", m.Sensitivity)
	}
	c.Require(1e-9)
}

// TestSampledLoopAgainstOctave runs controller, ideal element and plant against the
// closed loop in z. The recording is linear, so it is scaled to stay within the
// output's limits, around an output of a half.
func TestSampledLoopAgainstOctave(t *testing.T) {
	const scale = 1000 // kelvin, so that rounding of absolute temperatures is small
	base := units.AbsoluteKelvin(3 * scale)
	c := reference.Compare(t, "control_step")
	var loop sampledLoop
	for row := range c.Rows() {
		if row.Float("k") == 0 {
			loop = newSampledLoop(t, row, base, scale)
		}
		y, u := loop.to(int(row.Float("k")))
		if row.Float("y") != 0 {
			c.Check(row, "y", y)
		} else {
			assert.InDelta(t, 0, y, 1e-12)
		}
		c.Check(row, "u", u)
	}
	c.Require(1e-10)
}

type sampledLoop struct {
	loop  *control.Loop
	plant *control.Plant
	step  time.Duration
	base  units.Temperature
	size  float64 // of the set-point step, as a share of what the recording has
	scale float64
	at    int
	u     float64
}

func newSampledLoop(t *testing.T, row reference.Row, base units.Temperature, scale float64) sampledLoop {
	gain := row.Float("gain") * scale
	c := newController(t, control.Config{
		Tuning:            newTuning(row.Float("Kc")/scale, row.Float("Ti_s"), row.Float("Td_s"), row.Float("N")),
		SetPointReduction: 1 - row.Float("b"),
	})
	p := newPlant(t, seconds(row.Float("tau_s")), seconds(row.Float("theta_s")), linear(units.Power(gain)), base)
	p.Settle(0.5, base)
	s := sampledLoop{plant: p, step: seconds(row.Float("step_s")), base: p.Temperature(), scale: scale, at: -1}
	s.size = 0.02 * min(1/row.Float("Kc"), row.Float("gain"))
	s.loop = newLoop(t, c, control.Ideal{}, p)
	s.loop.Preset(0.5, control.Conditions{SetPoint: s.base, Base: base})
	return s
}

// to goes on to the k-th sample and returns measurement and output there.
func (s *sampledLoop) to(k int) (y, u float64) {
	var before units.Temperature
	for s.at < k {
		before = s.plant.Temperature()
		m := s.loop.Step(s.step, control.Conditions{
			SetPoint: s.base.Add(units.TemperatureDifference(s.size * s.scale)), Base: units.AbsoluteKelvin(3 * s.scale),
		})
		s.u = m.Output
		s.at++
	}
	return float64(before.Sub(s.base)) / (s.size * s.scale), (s.u - 0.5) / s.size
}

// TestContinuousLoopAgainstOctave halves the step and expects the difference from the
// continuous loop to halve, and almost to vanish when it is extrapolated.
func TestContinuousLoopAgainstOctave(t *testing.T) {
	var coarseSum, fineSum float64
	c := reference.Compare(t, "control_response")
	for row := range c.Rows() {
		coarse, fine := continuousLoop(t, row, 200), continuousLoop(t, row, 400)
		want := row.Float("y")
		coarseSum += math.Abs(coarse - want)
		fineSum += math.Abs(fine - want)
		c.CheckAbs(row, "y", 2*fine-coarse)
	}
	assert.InDelta(t, 0.5, fineSum/coarseSum, 0.002, "first order in the step")
	c.Require(1e-5)
}

func continuousLoop(t *testing.T, row reference.Row, perDeadTime int) float64 {
	gain, dead := row.Float("gain"), seconds(row.Float("theta_s"))
	step := dead / time.Duration(perDeadTime)
	base := units.AbsoluteKelvin(3)
	size := 0.1 * min(1/row.Float("Kc"), gain) // keeps the output within its limits
	plant, err := control.NewPlant(control.PlantConfig{
		Conductance: units.WattPerKelvin, TimeConstant: seconds(row.Float("tau_s")), DeadTime: dead, LeastStep: step,
	}, linear(units.Power(gain)), 0.5, base)
	require.NoError(t, err)
	start := plant.Temperature()
	c := newController(t, control.Config{Tuning: newTuning(row.Float("Kc"), row.Float("Ti_s"), 0, 0)})
	loop := newLoop(t, c, control.Ideal{}, plant)
	conditions := control.Conditions{SetPoint: start, Base: base}
	loop.Preset(0.5, conditions)
	conditions.SetPoint = start.Add(units.TemperatureDifference(size))
	for n := int(math.Round(seconds(row.Float("t_s")).Seconds() / step.Seconds())); n > 0; n-- {
		loop.Step(step, conditions)
	}
	return float64(plant.Temperature().Sub(start)) / size
}
