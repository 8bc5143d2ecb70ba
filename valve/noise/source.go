package noise

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
	"github.com/indexrun/indexrun/units"
)

// Constants of IEC 60534-8-4:2015, Table 1 (from memory), for C in Cv and lengths in
// metres.
const (
	n14 = 4.6e-3
	n34 = 1.17
)

// An operation is what a throttled valve changes: the drop, the Kv and the xFz at
// that Kv and inlet.
type operation struct {
	drop units.Pressure
	kv   units.FlowCoefficient
	xFz  float64
}

// jet is the flow in the vena contracta.
type jet struct {
	drop     units.Pressure // Δpc, what accelerates it
	velocity units.Velocity // Uvc
	diameter units.Length   // Dj
}

// jet returns, by IEC 60534-8-4:2015, clause 4 (4.1 for Δpc, 4.4 for Dj and 4.5 for
// Uvc, from memory),
//
//	Δpc = min(Δp, FL²·(p1 − pv)),  Uvc = √(2·Δpc/ρ)/FL,  Dj = N14·Fd·√(C·FL)
func (c *Config) jet(o operation) jet {
	fl, fd := c.Case.Valve.FL, c.Case.Valve.Fd
	drop := min(o.drop, units.Pressure(fl*fl)*c.aboveVapour())
	return jet{
		drop:     drop,
		velocity: units.Velocity(math.Sqrt(2*float64(drop)/float64(c.Case.Liquid.Density)) / fl),
		diameter: units.Length(n14 * fd * math.Sqrt(o.kv.In(units.Cv)*fl)),
	}
}

func (c *Config) aboveVapour() units.Pressure { return c.Case.Inlet.Sub(c.Case.Liquid.VapourPressure) }

// source is what the sound is made of, before the pipe's wall.
type source struct {
	stream                        units.Power // Wm
	turbulent, cavitating         float64     // ηturb and ηcav, the shares of Wm that become sound
	turbulentPeak, cavitationPeak units.Frequency
}

// source returns the sound of an operation. The second efficiency and peak are zero
// in the turbulent regime.
func (c *Config) source(o operation) source {
	j := c.jet(o)
	s := source{
		stream:        c.streamPower(j),
		turbulent:     math.Pow(10, c.EfficiencyExponent) * float64(j.velocity/c.LiquidSound),
		turbulentPeak: c.turbulentPeak(o, j),
	}
	if xF := float64(o.drop / c.aboveVapour()); xF > o.xFz {
		s.cavitating = s.turbulent * cavitationGain(xF, o.xFz, float64(o.drop/j.drop))
		s.cavitationPeak = s.turbulentPeak * units.Frequency(cavitationPeakRatio(xF, o.xFz))
	}
	return s
}

// power returns Wa.
func (s *source) power() units.Power { return units.Power(s.turbulent+s.cavitating) * s.stream }

// shareAt returns the share of the sound power in the third-octave band about a
// frequency.
func (s *source) shareAt(f float64) float64 {
	sum := s.turbulent * turbulentShare(f/float64(s.turbulentPeak))
	if s.cavitating > 0 {
		sum += float64(s.cavitating * cavitationShareAt(f/float64(s.cavitationPeak)))
	}
	return sum / (s.turbulent + s.cavitating)
}

// streamPower returns Wm = m·Uvc²·FL²/2 (clause 4.6, from memory).
func (c *Config) streamPower(j jet) units.Power {
	speed := float64(j.velocity) * c.Case.Valve.FL
	return units.Power(0.5 * float64(c.Flow.MassFlow(c.Case.Liquid.Density)) * speed * speed)
}

// cavitationGain returns ηcav/ηturb (clause 5.1, from memory), where overDrop is
// Δp/Δpc:
//
//	0.32·√(Δp/(Δpc·xFz))·e^(5·xFz)·√((1−xFz)/(1−xF))·(xF/xFz)⁵·(xF−xFz)^1.5
//
// which begins at zero at xF = xFz.
func cavitationGain(xF, xFz, overDrop float64) float64 {
	ratio, beyond := xF/xFz, xF-xFz
	square := ratio * ratio
	return 0.32 * math.Exp(5*xFz) * math.Sqrt(overDrop/xFz*(1-xFz)/(1-xF)*beyond) * beyond * square * square * ratio
}

// turbulentPeak returns fp = St·Uvc/Dj, the peak of turbulent noise (clause 5.1, from
// memory), with
//
//	St = 0.036·FL²·C·Fd^0.75/(N34·xFz^1.5·d·do)·(1/(p1−pv))^0.57
//
// where p1 − pv is in Pa.
func (c *Config) turbulentPeak(o operation, j jet) units.Frequency {
	v := c.Case.Valve
	strouhal := 0.036 * v.FL * v.FL * o.kv.In(units.Cv) * math.Pow(v.Fd, 0.75) /
		(n34 * o.xFz * math.Sqrt(o.xFz) * float64(v.Diameter) * float64(c.SeatDiameter)) *
		math.Pow(c.aboveVapour().In(units.Pascal), -0.57)
	return units.Frequency(strouhal * float64(j.velocity) / float64(j.diameter))
}

// cavitationPeakRatio returns the peak of cavitation noise over that of turbulent
// noise: 6·((1−xF)/(1−xFz))²·(xFz/xF)^2.5 (clause 5.1, from memory).
func cavitationPeakRatio(xF, xFz float64) float64 {
	rest, ratio := (1-xF)/(1-xFz), xFz/xF
	return 6 * rest * rest * ratio * ratio * math.Sqrt(ratio)
}

// internalLevel returns Lpi = 10·log10(3.2e9·Wa·ρ·c/Di²) in dB, Wa in W (clause 5.1,
// from memory).
func (c *Config) internalLevel(sound units.Power) float64 {
	di := float64(c.Pipe.InsideDiameter)
	impedance := float64(c.Case.Liquid.Density) * float64(c.LiquidSound)
	return decibels(3.2e9 * float64(sound) * impedance / (di * di))
}

func decibels(ratio float64) float64 { return 10 / math.Ln10 * fastlog.Log(ratio) }
