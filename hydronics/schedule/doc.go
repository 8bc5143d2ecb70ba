// Package schedule plans a whole schedule of terminal units: for each one the
// design flow, the valve and its setting, the actuator and its settings, what to
// expect at the controller's output, and what is wrong.
//
//	rows, err := schedule.ReadCSV(f)           // every problem of the file in one error
//	catalogue, err := schedule.ReadCatalogue(g)
//	plan, err := schedule.Select(rows, catalogue)
//	err = plan.WriteText(os.Stdout)
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
//	tag                 unique name                    serves, circuit     free text; totals are by circuit
//	fluid               "water" if empty               duty, supply, return, difference
//	second duty …       of a change-over unit          available pressure  over the branch
//	branch drop         all but the valve              valve pressure      over the valve, in place of these two
//	static pressure     gauge, at the valve            shut-off head       of the pump
//	valve kind          any, pressure-independent, two-way, rotary-two-way, rotary-pressure-independent
//	response            equal-percentage (if empty) or linear
//	output range        of the controller              output action       rising-opens (if empty) or rising-closes
//	output low, high    its limits                     flow tolerance      ±10 % if empty
//	noise limit         45 dB(A) at 1 m if empty
//	at zero signal, at open wire, at power loss        any (if empty), open, closed or hold
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
//   - pressure-independent valves: the setting is the design flow, interpolated in
//     the settings table; the valve needs the least pressure of that setting;
//   - two-way valves: the open valve drops (q/Kv)², which must fit into what the
//     branch leaves for it; what remains is for a balancing valve;
//   - actuator: the input range is the controller's, or what a 500 Ω shunt makes of
//     it; the action follows from what a rising output must do and from which end
//     of the stem closes; the shaping is the one that brings valve and actuator
//     together nearest to the response wanted;
//   - thick liquids: a two-way valve's coefficient is lowered by the Reynolds
//     factor of IEC 60534-2-1;
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
