// Package noise predicts the noise that a liquid makes in a control valve, as it
// is heard outside the pipe: hydrodynamic noise by IEC 60534-8-4:2015.
//
// A [Config] takes the case of package sizing and adds what sound depends on: the Kv
// at the travel in question, the pipe's wall and, where they differ from stated
// defaults, the materials and the air. [Predict] returns the A-weighted sound
// pressure level 1 m from the pipe wall and 1 m downstream of the valve, with
// the spectrum it is the sum of:
//
//	res, err := noise.Predict(noise.Config{
//		Case: c, // a sizing.Case
//		Kv:   4 * units.Kv,
//		Pipe: noise.Pipe{Wall: 2.6 * units.Millimetre},
//	})
//
// # The law
//
//  1. Stream power, the mechanical power of the jet in the vena contracta:
//     Wm = m·(FL·Uvc)²/2, Uvc = √(2·Δpc/ρ)/FL, Δpc = min(Δp, FL²·(p1 − pv)).
//  2. Sound power: a share of it becomes sound, Wa = η·Wm. Turbulence gives
//     η = 10^An·Uvc/c; cavitation, from xF = xFz on, adds to it.
//  3. Sound level inside the pipe, over the third-octave bands from 12.5 Hz to
//     20 kHz, with one peak for turbulence and one for cavitation.
//  4. Transmission loss through the pipe's wall, least at the ring frequency
//     c_pipe/(π·Di).
//  5. Spreading to 1 m from the wall, A-weighting, sum.
//
// # Scope
//
// A straight metal pipe full of liquid and single-stage trim, with the outlet above
// the vapour pressure (no flashing). Water hammer, whistling, rattling parts and
// sound that travels along the pipe are not predicted, nor is the room: a ceiling
// takes some decibels off, a bare plant room adds some. Expect ±5 dB(A) at best
// (from memory). Multi-hole trim takes a measured xFz.
//
// The tests compare levels with a general-purpose library (internal/reference); the
// equations were written from the standard. Its constants N14 and N34 are those
// for C in Cv, to which Kv is converted: those for Kv are rounded otherwise and give
// up to 0.35 dB more.
package noise
