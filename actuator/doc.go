// Package actuator models the drives that move control valves: from the
// electrical signal at the input to the place of the stem, and back.
//
// # From signal to stem
//
// A [Config] holds what the data sheet says and what the jumpers are set to; [New]
// checks it, [Actuator.MountOn] puts the drive on a valve of a given stroke, and
// [Mounted.Respond] says where it goes. Each step of the [Position] it returns is a
// fraction:
//
//	signal → demand → opening demand → shaping → relative travel → stem extension
//
// Demand is the signal as a share of its range. The opening demand is what the valve
// should do: the demand itself if a rising signal opens, one minus it if it
// closes. The shaping bends it, counted from the closed end, so that equal percentage
// stays equal percentage whatever the action. Relative travel is that of the valve,
// 0 closed and 1 open. Extension is how far the stem is out, as a fraction of the
// valve's stroke. [Mounted.SignalFor] goes the other way.
//
// # Action, stem and failure
//
// These are three ideas, never one switch.
//
//   - [Action]: a rising signal extends the stem (direct) or retracts it (reverse).
//   - The closing end ([End]): a push-to-close valve is closed with the stem
//     extended, a push-to-open valve with the stem retracted.
//   - What happens without a signal or without power: [OpenWire], [BelowLiveZero],
//     [PowerLoss]. The failures differ, and so may what they do to the valve:
//     [Actuator.Outcome] answers for one drive, and [WriteFailureTable], with its
//     example, for all of them.
//
// A reverse drive on a push-to-close valve opens on a rising signal, and so does a
// direct drive on a push-to-open valve; the other two pairs close.
//
// # Stroke
//
// A drive in the mode [Fixed] spreads its signal over the stroke that is set. Set
// shorter than the valve's, it never opens the valve fully, and its feedback says
// that it does. Set longer, a part of the signal does nothing: the top if a rising
// signal opens, the bottom if it closes. A [SelfAdapting] drive spreads the signal
// over the travel it finds; it gives up resolution instead, and takes a plug that is
// stuck half way for a short valve. [Mounted.Mismatch] puts figures on all this, and
// [Mounted.Obstructed] shows the stuck plug: compare the found travel with the
// valve's stroke.
//
// Rotary drives have an angle in place of a stroke and a torque in place of a force;
// to extend is to turn clockwise.
//
// # Force and time
//
// [Actuator.CloseOff] gives the pressure that a valve shuts against: on a
// push-to-close valve it is the drive's force that shuts, on a push-to-open valve the
// valve's own spring, which the drive must beat. [Mounted.RunningTime] and
// [Mounted.CalibrationTime] give times; a [Drive] is the whole in time, from power-up
// through calibration to tracking and, when the power fails, to where its spring
// leaves the stem, stepped without a clock.
//
// # Cautions
//
// Never power an actuator that is not mounted on its valve. It seeks an end stop that
// is not there, runs its stem out to the full extension and stays there
// ([EndStopNotFound]), and can then not be mounted until it has been switched off and
// its stem wound back. A moving stem crushes fingers. Mount first, power second, and
// let calibration end before judging a signal.
//
// Switch off and lock out the supply before touching the wiring, and do not connect
// mains to a 24 V drive. The valve under the drive may hold hot water under pressure,
// and without a drive a push-to-close valve opens. What the model says about a
// failure is what the settings say; prove it on site.
//
// # Sources
//
// Terms follow IEC 60534-1, signals IEC 60381-1 and -2. How drives calibrate, fail and
// report is common practice with no published source. What the comments mark "from
// memory" was not looked up.
package actuator
