package noise

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
	"github.com/indexrun/indexrun/units"
)

// Constants of IEC 60534-8-4 for C in Cv and lengths in metres.
const (
	n14 = 4.6e-3
	n34 = 1.17
)

// jet is the flow in the vena contracta.
type jet struct {
	drop     units.Pressure // Δpc, what accelerates it
	velocity units.Velocity // Uvc
	diameter units.Length   // Dj
}

// jet returns, by IEC 60534-8-4,
//
//	Δpc = min(Δp, FL²·(p1 − pv)),  Uvc = √(2·Δpc/ρ)/FL,  Dj = N14·Fd·√(C·FL)
func (c *Config) jet() jet {
	fl, fd := c.Case.Valve.FL, c.Case.Valve.Fd
	drop := min(c.drop(), units.Pressure(fl*fl)*c.aboveVapour())
	return jet{
		drop:     drop,
		velocity: units.Velocity(math.Sqrt(2*float64(drop)/float64(c.Case.Liquid.Density)) / fl),
		diameter: units.Length(n14 * fd * math.Sqrt(c.Kv.In(units.Cv)*fl)),
	}
}

func (c *Config) aboveVapour() units.Pressure { return c.Case.Inlet.Sub(c.Case.Liquid.VapourPressure) }

// streamPower returns Wm = m·Uvc²·FL²/2.
func (c *Config) streamPower(j jet) units.Power {
	speed := float64(j.velocity) * c.Case.Valve.FL
	return units.Power(0.5 * float64(c.Flow.MassFlow(c.Case.Liquid.Density)) * speed * speed)
}

// cavitationGain returns ηcav/ηturb, where gain is Δp/Δpc:
//
//	0.32·√(Δp/(Δpc·xFz))·e^(5·xFz)·√((1−xFz)/(1−xF))·(xF/xFz)⁵·(xF−xFz)^1.5
//
// which begins at zero at xF = xFz.
func cavitationGain(xF, xFz, overDrop float64) float64 {
	return 0.32 * math.Sqrt(overDrop/xFz) * math.Exp(5*xFz) * math.Sqrt((1-xFz)/(1-xF)) *
		math.Pow(xF/xFz, 5) * math.Pow(xF-xFz, 1.5)
}

// turbulentPeak returns fp = St·Uvc/Dj, the peak of turbulent noise, with
//
//	St = 0.036·FL²·C·Fd^0.75/(N34·xFz^1.5·d·do)·(1/(p1−pv))^0.57
//
// where p1 − pv is in Pa.
func (c *Config) turbulentPeak(j jet, xFz float64) units.Frequency {
	v := c.Case.Valve
	strouhal := 0.036 * v.FL * v.FL * c.Kv.In(units.Cv) * math.Pow(v.Fd, 0.75) /
		(n34 * math.Pow(xFz, 1.5) * float64(v.Diameter) * float64(c.SeatDiameter)) *
		math.Pow(c.aboveVapour().In(units.Pascal), -0.57)
	return units.Frequency(strouhal * float64(j.velocity) / float64(j.diameter))
}

// cavitationPeakRatio returns the peak of cavitation noise over that of turbulent
// noise: 6·((1−xF)/(1−xFz))²·(xFz/xF)^2.5.
func cavitationPeakRatio(xF, xFz float64) float64 {
	rest := (1 - xF) / (1 - xFz)
	return 6 * rest * rest * math.Pow(xFz/xF, 2.5)
}

// internalLevel returns Lpi = 10·log10(3.2e9·Wa·ρ·c/Di²) in dB, Wa in W.
func (c *Config) internalLevel(sound units.Power) float64 {
	di := float64(c.Pipe.InsideDiameter)
	impedance := float64(c.Case.Liquid.Density) * float64(c.LiquidSound)
	return decibels(3.2e9 * float64(sound) * impedance / (di * di))
}

func decibels(ratio float64) float64 { return 10 / math.Ln10 * fastlog.Log(ratio) }
