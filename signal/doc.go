// Package signal holds the electrical control signals of valve actuators and the
// input ranges that give them a meaning.
//
// A [Signal] is a number of volts or milliamps, or none at all. A [Range] says which
// signals stand for the demands 0 and 1. Reading is a fact, never an error; what is
// wrong is the status:
//
//	r := signal.Range4To20mA().Read(signal.Milliamps(12))  // Demand 0.5, InRange
//	r = signal.Range4To20mA().Read(signal.Milliamps(3.2))  // Demand 0, Failed
//	s := signal.Range2To10V().Encode(0.25)                 // 4 V
//
// Signals and ranges are comparable values and travel as text ("6.2 V", "2-10 V",
// "10-0 V"), so they work in JSON, in CSV and with flag.TextVar.
//
// # Ranges
//
// 4–20 mA is IEC 60381-1 and 0–10 V is IEC 60381-2; 2–10, 0–5, 5–10 and 1–5 V and
// 0–20 mA are common practice. [NewRange] makes others, inverse ones such as 10–0 V
// included: there the demand falls as the signal rises. Inverting the range is one
// way to reverse a valve, the action of the actuator is another; doing both undoes it.
//
// A live zero (4 mA, 2 V, 1 V) tells a broken wire from a demand of 0. A range from
// zero cannot: a broken wire reads as 0, in range. The 5 V of 5–10 V is not a live
// zero either: the range is a window on a 0–10 V signal whose lower half belongs to
// another stage. [Range.Within] makes such windows, and [Sequence] lays out the
// stages of a split range with the dead zone between heating and cooling.
//
// # Limits
//
// The whole signal that the source sends decides the status, in volts or milliamps:
//
//	signal    failed at or below    in range             failed at or above
//	4–20 mA   3.6                   3.8 … 20.5           21
//	2–10 V    1.8                   1.9 … 10.25          10.5
//	1–5 V     0.9                   0.95 … 5.125         5.25
//	0–20 mA   −2                    −0.25 … 20.625       24
//	0–10 V    −1                    −0.125 … 10.3125     12
//	0–5 V     −0.5                  −0.0625 … 5.15625    6
//
// Between the columns a signal is under-range or over-range. The first line is NAMUR
// NE 43, which was written for transmitters. The next two take the same shares of the
// span: measured from 1.25 % below to 3.125 % above it, failed 2.5 % below and 6.25 %
// above. The ranges from zero take the measured band from there too, but fail only
// 10 % below and 20 % above, where no working output goes. All but the first line is
// this library's rule, with no published source. Custom ranges follow it as well.
//
// # Between controller and actuator
//
// A [Shunt] makes a voltage of a current, a little low if the input it sits on draws
// current. A [Converter] has steps: [Converter.Resolution] says how many of them a
// range uses, which is also the finest movement that a valve can be asked for.
//
// # Wiring
//
// Isolate the supply before touching a terminal, mains and 24 V alike, and let a
// competent person do mains work. Most 24 V actuators share the common of supply and
// signal: a swapped pair puts 24 V on the signal terminal and can destroy the
// controller's output, and current in a shared common shifts every voltage signal. A
// current output needs a closed loop: a voltage input behind a [Shunt] sees 0 V when
// the loop is open. An open voltage input may float to any level, so that what
// [NoSignal] means at the bench is not what the actuator makes of a cut wire. Never
// power an actuator that is not mounted on its valve: the stem moves with force.
package signal
