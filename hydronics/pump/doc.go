// Package pump holds centrifugal pumps: head curves, the affinity laws, speed
// control, the operating point, power, pumps side by side and one behind the
// other, and suction head.
//
// # One pump
//
// [New] makes a [Pump] from points of its curve, by least squares, or from its
// shut-off head and duty point. Heads are pressure differences at the density
// that is pumped; [Head] converts from metres of the liquid.
//
//	p, err := pump.New(pump.Config{
//		Points: []pump.Point{
//			{Flow: 0, Head: 62 * units.Kilopascal},
//			{Flow: 1 * units.LitrePerSecond, Head: 57 * units.Kilopascal},
//			{Flow: 2 * units.LitrePerSecond, Head: 42 * units.Kilopascal},
//		},
//		Efficiency: 0.55,
//		Drive:      0.8,
//	})
//
// The curve is H = a − b·q − c·q² with b, c ≥ 0. It falls strictly, so that each
// head has one flow and a circuit has one operating point; data with a rising
// head are refused. [Pump.Head] and [Pump.Flow] with their slopes make it a
// two-terminal law for networks, defined in reverse flow and beyond runout too.
// [Pump.AtSpeed] applies the affinity laws.
//
// # Operating point
//
// A [System] takes static + R·q². [Pump.Operate] returns the [State] where both
// meet: flow, head, speed, efficiency, shaft and electrical power, and a
// [Status] if something is to be noted. [Pump.OperateOn] does so on any [Law]: a
// run of pipe, a resistance, a valve, or a sum of them.
//
// # Control
//
// [NewControlled] puts a pump, or several in parallel, under speed control:
// constant pressure, proportional pressure, or a pressure held at the index unit
// ([Mode]). Within the speed bounds the head follows the set line, beyond them
// the pump's curve.
//
// # Several pumps
//
// [Parallel] and [Series] make a [Bank], of equal or unequal pumps; in parallel
// each has its check valve.
//
// # Suction
//
// [Suction.NPSH] returns the net positive suction head available and the margin
// to the one required.
//
// Hot water under pressure: shut-off head and static pressure add up at the
// pump's outlet. Check that sum against the ratings of everything downstream,
// and never run a pump against a shut valve for long, since the water in it
// boils.
//
// # Sources
//
// Affinity laws: ISO 9906:2012, 6.1.2. Net positive suction head: ISO 17769-1:2012,
// 2.1.5. Both are in F. M. White, Fluid Mechanics, chapter 11, equations 11.19 to
// 11.28, with pumps in parallel and in series in section 11.6 (all numbers from
// memory). The modes of control, the form of the curve and the tolerance of its
// fit are common practice, no published source.
//
// # Errors
//
// Constructors report every fault as a *units.FieldError; methods of the models
// cannot fail, do not allocate and may be used concurrently.
package pump
