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
// Clauses of IEC 60534-8-4:2015 (from memory):
//
//  1. Stream power (4.1, 4.4 to 4.6), the mechanical power of the jet in the vena
//     contracta: Wm = m·(FL·Uvc)²/2, Uvc = √(2·Δpc/ρ)/FL, Δpc = min(Δp, FL²·(p1 − pv)).
//  2. Sound power (5.1): a share of it becomes sound, Wa = η·Wm. Turbulence gives
//     η = 10^An·Uvc/c; cavitation, from xF = xFz on (4.2), adds to it.
//  3. Sound level inside the pipe (5.1), over the third-octave bands from 12.5 Hz to
//     20 kHz, with one peak for turbulence and one for cavitation.
//  4. Transmission loss through the pipe's wall (5.2), least at the ring frequency
//     c_pipe/(π·Di).
//  5. Spreading to 1 m from the wall (5.3), A-weighting, sum.
//
// # Where it stops being valid
//
// The level of cavitation has a greatest value: its peak goes with (1 − xF)², so that
// towards flashing, xF = 1, it leaves the bands, for 1 Hz and less, and the
// level falls by 10 dB(A) and more. Beyond choking the level falls a little as well,
// as the valve is throttled more. No valve grows quieter so. The equations are the
// standard's, which names no limit below xF = 1 (from memory); the result says where they
// cannot be trusted any more, by BeyondGreatest, and gives the greatest level that a
// smaller drop has at the same flow, GreatestLevel, which does not fall. Judge by
// that one.
//
// The standard counts cavitation from xFz alone. Valves that recover much pressure,
// such as ball valves, may choke below it: such a case is [Turbulent] for the
// standard, and the result's Cavitation is sizing.Choking. The level lacks
// the noise of its bubbles.
//
// # Scope
//
// A straight metal pipe full of liquid and single-stage trim, with the outlet above
// the vapour pressure (no flashing). Water hammer, whistling, rattling parts and
// sound that travels along the pipe are not predicted, nor is the room: a ceiling
// takes some decibels off, a bare plant room adds some. Expect ±5 dB(A) at best
// (from memory). Multi-hole trim takes a measured xFz or, for the standard's
// estimate, the diameter of its holes.
//
// The tests compare levels with a general-purpose library (internal/reference); the
// equations were written from the standard. Its constants N14 and N34 are those
// for C in Cv, to which Kv is converted: those for Kv are rounded otherwise and give
// up to 0.35 dB more.
package noise
