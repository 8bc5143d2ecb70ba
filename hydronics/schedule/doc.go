// Package schedule plans a whole schedule of terminal units: for each one the
// design flow, the valve and its setting, the actuator and its settings, what to
// expect at the controller's output, and what is wrong.
//
//	rows, err := schedule.ReadCSV(f)           // every problem of the file in one error
//	catalogue, err := schedule.ReadCatalogue(g)
//	plan, err := schedule.Select(rows, catalogue)
//	err = plan.WriteText(os.Stdout)            // or WriteCSV, or WriteJSON
//
// # The schedule
//
// A [Row] is one terminal unit. [ReadCSV] reads rows from a file whose cells carry
// their units of measure:
//
//	tag,duty,supply,difference,available pressure,branch drop,output range
//	FC-1,2.4 kW,6 °C,6 K,60 kPa,22 kPa,0-10 V
//
// Only tag, duty, supply and output range must be there, with the return
// temperature or the difference, and with the pressure over the branch or over the
// valve. The columns are
//
//	tag                 unique name; required
//	serves              free text
//	circuit             free text; totals are by circuit
//	fluid               "water" if empty; "ethylene glycol 30 % mass"
//	duty                heat; required
//	supply              temperature; required
//	return              temperature, or
//	difference          of the two: a supply below 20 °C then cools, one above 30 °C heats
//	second duty         of a change-over unit, with
//	second supply       and
//	second return       or
//	second difference
//	available pressure  over the branch, with
//	branch drop         of all but the valve at design flow; or
//	valve pressure      over the valve
//	static pressure     at the valve's inlet, gauge if it does not say "abs"
//	shut-off head       of the pump
//	valve kind          any (if empty), pressure-independent, two-way, rotary-two-way, rotary-pressure-independent
//	response            equal-percentage (if empty) or linear
//	output range        of the controller, such as "0-10 V"; required
//	output action       rising-opens (if empty) or rising-closes
//	output low          limit of the output
//	output high         limit of the output
//	at zero signal      any (if empty), open, closed or hold
//	at open wire        likewise
//	at power loss       likewise
//	flow tolerance      ±10 % if empty
//	noise limit         45 dB(A) at 1 m if empty
//
// Case, spaces, hyphens and underscores of a column's name do not matter.
//
// # The catalogue
//
// A [Catalogue] is what can be bought: [ValveModel] and [ActuatorModel] with every
// setting that they offer. [ReadCatalogue] reads it from JSON.
//
// # The plan
//
// [Select] weighs every valve of the wanted kind with every actuator that can be
// mounted on it by the findings that each pair brings, and takes the pair with the
// least weight. It leaves nothing out because it is bad: a unit that no pair
// serves well gets the best pair and the warnings. Each [Finding] says what is
// wrong and what can be done.
//
// How it decides, in short:
//
//   - flow: heat over mean heat capacity and difference, at the density of the
//     return ([hydronics.Duty]);
//   - pressure-independent valves: the setting is the design flow, or the nearest
//     end of the settings table. Between rows the mark is linear in the flow and the
//     least pressure linear in the square of the flow ([valve.Setting]);
//   - two-way valves: the open valve drops (q/Kv)², which must fit into what the
//     branch leaves for it; what remains is for a balancing valve;
//   - actuator: the input range is the controller's from its lower limit on, its
//     whole one, what a shunt of 500 Ω or 250 Ω makes of that, each also turned over,
//     or else the one on which the ends of the output read nearest to 0 and 1; the
//     action follows from what a rising output must do and
//     from which end of the stem closes, and is the first on offer where that cannot
//     be set; the stroke is adapting where that covers the valve's, or else the
//     nearest (the first of two that are equally near); the feedback is in the range
//     of the input, or the first on offer; the shaping is the one whose flow
//     coefficient misses the response wanted by least at its worst of fifty points,
//     the response being linear or zero-based equal percentage of ratio 50;
//   - viscosity: a two-way valve's coefficient is multiplied by the Reynolds factor
//     of IEC 60534-2-1 at design flow, for a contoured globe plug that opens with the
//     flow, or a segmented ball, unless the catalogue gives FL and Fd, with the bore of
//     the connection as the valve's size. The flows of a pressure-independent valve's
//     table, measured with water, are multiplied by the ratio of that factor to the
//     one of water of 20 °C. Without that bore it is left out;
//   - the liquid is taken as it is in the return, where control valves commonly stand,
//     for boiling as it is where it is hottest: give a valve in the supply the
//     temperatures there. Of two duties the one with the larger flow sizes the valve,
//     and for cavitation the liquid that boils sooner counts;
//   - a setting that stops the stem changes the stroke that the actuator must make, and
//     the curve that its shaping works on;
//   - velocity in the connection, cavitation with the whole pressure over the
//     throttled valve (IEC 60534-8-4's xFz, where the static pressure is given) and
//     noise at design flow (IEC 60534-8-4) are compared with their limits, where the
//     catalogue gives the bore of the connection;
//   - failure positions: the actuator's choices are tried against the wishes by
//     running its model.
//
// # Cautions
//
// A plan is computed from the data that it was given. It does not replace the
// design, the maker's instructions or the judgement of licensed people, and local
// codes come first. Hot pressurised water, mains and 24 V wiring and moving stems
// injure; an actuator is never powered unless it is mounted on its valve.
package schedule
