// Package wiring works out what a site cable does to the 24 V supply and to the
// control signal of the actuators on it.
//
// # A cable and its devices
//
// A [Config] describes a cable with devices along it, the supply and the controller
// each at one of its ends; [New] solves the network and returns a [Chain]:
//
//	chain, err := wiring.New(wiring.Config{
//		Supply:  wiring.Supply{Voltage: 24 * units.Volt}, // alternating
//		Cable:   wiring.Cable{Conductor: wiring.IEC60228(1*units.SquareMillimetre, wiring.Class2)},
//		Signal:  signal.Volts(10),
//		Devices: []wiring.Device{{Name: "V1", Length: 30 * units.Metre, Load: wiring.Load{Power: 5 * wiring.VoltAmpere}}},
//	})
//	at, _ := chain.At(0) // at.Supply, at.Margin, at.Seen, at.Offset, at.Ripple
//
// [Chain.WriteText] writes the results with their cautions. [Chain.Transfer] is the law
// from the signal sent to the signal seen, and back, without allocation.
//
// # Which way the signal errs
//
// A drive measures its signal against its own common. If the same conductor carries
// the supply back, the current lifts or lowers that common by I·R:
//
//	supply and controller         common of the drive    it sees      a valve that a rising signal opens
//	at the same end               lifted                 too little   never opens fully
//	at opposite ends              lowered                too much     never closes fully
//
// With a valve that a rising signal closes the last column changes places: with both
// at the same end it never closes fully. [Transfer.Limits] gives the figures. A
// common of its own for the signal ([SeparateCommon]) takes the error away, but only
// where the drive keeps its two commons apart inside. Where it joins them, the two
// conductors are one of twice the section ([Conductor.Cores]), as long as they are
// joined at the controller too. A current signal is not altered; its [Loop] must have
// the voltage to drive it.
//
// # Direct and alternating supply
//
// What shifts a direct signal is the direct component of the current in the common. On
// a direct supply that is all of it. On an alternating supply it is the mean: for a
// half-wave rectified load 2/π of the effective current, for a full-wave one none. The
// rest is ripple at the mains frequency and is reported as such. Half-wave loads draw
// their current in every second half wave, so that its crest, and the drop of the
// supply, is √2 times what the effective current suggests. See [Rectification].
//
// Alternating drops are added as if every current were in phase with the supply, which
// is right for resistive loads and on the safe side for others. The reactance of the
// cable is left out; below 10 mm² it is a few per cent of the resistance or less
// (common practice, no published source).
//
// # Method
//
// The cable is a ladder without loops other than those through the devices. Kirchhoff's
// laws give each device's voltage as its open-circuit value less the sum of resistance
// times current over the stretches of conductor that two devices share, signed by the
// two directions. That system is linear in the currents and is solved as it is. What
// loads draw depends on their voltage ([LoadModel]); Newton's method, started from the
// voltage without load, falls monotonically to the solution in which the cable works,
// or finds that there is none ([ErrOverload]).
//
// # Other questions
//
// Every result has a WriteText, which prints it with the cautions.
// [GreatestLength] and [ChooseConductor] turn the question round. [NewLoop] is the
// burden of a 4–20 mA loop; for the resistor that makes a voltage of it see
// signal.Shunt. [NewDivider] is a source with output resistance on loaded inputs.
// [NewTransformer] adds apparent powers and picks a size.
//
// # Cautions
//
// Isolate and lock off the supply, mains and 24 V alike, before touching a terminal,
// and prove it dead. Mains work is for licensed persons under the local code, which
// also rules the separation of mains and extra-low voltage, the fusing of the 24 V side
// and the greatest power of a limited circuit. A swapped pair puts 24 V on a signal
// terminal and can destroy the controller. Half-wave and full-wave loads must not share
// a transformer through a common: that joins half the bridge across the supply. Many
// half-wave loads magnetise a transformer by their direct current. Never power an
// actuator that is not mounted on its valve. Calculated values do not replace a
// measurement at the terminals.
//
// # Sources
//
// Conductors: IEC 60228, ASTM B258, IEC 60028. Rectified currents: any textbook of
// power electronics, such as Mohan, Undeland & Robbins. Everything else is Ohm's and
// Kirchhoff's law or common practice, and says which. Values marked "from memory" were
// not looked up.
package wiring
