package noise

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// A Band is a third-octave band of the spectrum. Its levels are in dB.
type Band struct {
	// Centre is the nominal mid-band frequency.
	Centre units.Frequency
	// Internal is the level inside the pipe, External that 1 m from its wall, Weighted the
	// same with the A-weighting, in dB(A).
	Internal, External, Weighted float64
}

// bands holds the third-octave bands (IEC 61260-1) and their A-weighting in dB
// (IEC 61672-1, Table 3).
var bands = [33]struct{ centre, weighting float64 }{
	{12.5, -63.4}, {16, -56.7}, {20, -50.5}, {25, -44.7}, {31.5, -39.4}, {40, -34.6},
	{50, -30.2}, {63, -26.2}, {80, -22.5}, {100, -19.1}, {125, -16.1}, {160, -13.4},
	{200, -10.9}, {250, -8.6}, {315, -6.6}, {400, -4.8}, {500, -3.2}, {630, -1.9},
	{800, -0.8}, {1000, 0}, {1250, 0.6}, {1600, 1.0}, {2000, 1.2}, {2500, 1.3},
	{3150, 1.2}, {4000, 1.0}, {5000, 0.5}, {6300, -0.1}, {8000, -1.1}, {10000, -2.5},
	{12500, -4.3}, {16000, -6.6}, {20000, -9.3},
}

// weights holds the A-weighting of each band as a factor of power.
var weights = weightFactors()

func weightFactors() (factors [len(bands)]float64) {
	for i, b := range bands {
		factors[i] = math.Pow(10, b.weighting/10)
	}
	return factors
}

// addSpectrum fills in the bands and the level, their sum. The sum is one of powers,
// so that it needs no power of ten for each band.
func (r *Result) addSpectrum(c *Config, s *source) {
	outside := c.transmissionAtRing() + c.spreading()
	sum := 0.0
	for i, b := range bands {
		share := s.shareAt(b.centre)
		wall := offRing(b.centre / float64(r.RingFrequency))
		internal := r.InternalLevel + decibels(share)
		external := internal + outside + decibels(wall)
		r.Bands[i] = Band{units.Frequency(b.centre), internal, external, external + b.weighting}
		sum += float64(share * wall * weights[i])
	}
	r.Level = r.InternalLevel + outside + decibels(sum)
}

var turbulentHeight, cavitationHeight = math.Pow(10, -0.8), math.Pow(10, -0.9)

// turbulentShare returns the share of turbulent sound in the band at f times its
// peak, 10^(F/10) with F = −8 − 10·log10(f³/4 + 1/f) (clause 5.1, from memory).
func turbulentShare(f float64) float64 {
	return turbulentHeight / (float64(0.25*f*f*f) + 1/f)
}

// cavitationShareAt is the same for cavitation: F = −9 − 10·log10(f^1.5/4 + f^−1.5).
func cavitationShareAt(f float64) float64 {
	power := f * math.Sqrt(f)
	return cavitationHeight / (float64(0.25*power) + 1/power)
}

// transmissionAtRing returns the loss through the wall at the ring frequency, in dB
// and below zero: TL = −10 − 10·log10(c_p·ρ_p·t/(c_o·ρ_o·Di)) (clause 5.2, from
// memory).
func (c *Config) transmissionAtRing() float64 {
	wall := float64(c.Pipe.Sound) * float64(c.Pipe.Density) * float64(c.Pipe.Wall)
	air := float64(c.Air.Sound) * float64(c.Air.Density) * float64(c.Pipe.InsideDiameter)
	return -10 - decibels(wall/air)
}

// offRing returns the share of power that the wall lets through at f times the
// ring frequency beside that, of which the level is ΔTL = −20·log10(1/f + f^1.5)
// (clause 5.2, from memory).
func offRing(f float64) float64 {
	amplitude := 1 / (1/f + float64(f*math.Sqrt(f)))
	return amplitude * amplitude
}

// spreading returns −10·log10((Di + 2t + 2 m)/(Di + 2t)), from the wall to 1 m off
// (clause 5.3, from memory).
func (c *Config) spreading() float64 {
	outside := c.Pipe.InsideDiameter + 2*c.Pipe.Wall
	return -decibels(float64((outside + 2*units.Metre) / outside))
}
