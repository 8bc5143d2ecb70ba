// Package control closes the loop around a valve: a PI(D) controller, the drive that
// moves the valve, the terminal and what it heats or cools, and the judgement of what
// comes out. It answers in a simulation what one would rather not find out in a
// building: will this unit control well, and which tuning suits it?
//
//	controller → signal → drive → valve and terminal → dead time and lag → sensor ↩
//
// Everything is deterministic and stepped by the caller: no clock, no goroutine, no
// random number, no allocation while stepping.
//
// # Tuning
//
// A step test in hand control gives a [Process]: gain, dead time, time constant. Rules
// turn it into a [Tuning], margins say what that is worth:
//
//	p, err := control.NewProcess(control.ProcessConfig{
//		Gain: 30 * units.Kelvin, TimeConstant: 2 * time.Minute, DeadTime: 40 * time.Second,
//	})
//	t := control.SIMC(p, 0)
//	m := p.Margins(t)            // gain margin 3.1, phase margin 61°, Ms 1.59
//
// [SIMC] (Skogestad 2003) is the rule to begin with: its one parameter trades speed for
// calm. [AMIGOPI] and [AMIGOPID] (Åström & Hägglund 2004) need no choice and are
// calmer still. [ZieglerNicholsPI] is the classic from the limit of stability, too lively
// for a valve that is to last. Tune where the loop is liveliest, usually at low load: a
// gain that triples below the point of tuning uses up a gain margin of three. That is
// the reason for equal percentage on coils; [LoopConfig.Process] gives the process under any
// load, with the delays of drive and controller in its dead time.
//
// # Words
//
// The form is the standard (ISA, ideal) one, with derivative on the filtered measurement,
// conditional integration against windup and an optional set-point weight: [Tuning] and
// [Controller] have the formulas. The proportional band is the error that moves the output
// over its whole range; many controllers ask for the gain instead, its reciprocal, some for
// the parallel form. Compare before you copy numbers. Heating is reverse-acting, cooling
// direct-acting; the [Action] of a controller is not that of an actuator.
//
// # Drives
//
// [Modulating] is an [actuator.Drive] with the faults that make loops hunt: speed, dead
// band, resolution, play. [ThreePoint] reckons its position from its pulses and drifts.
// [Thermal] is a wax element under pulse-width modulation: slow, and rippling with its
// cycle. [Ideal] is for comparing with theory.
//
// # Loop
//
//	plant, err := control.NewPlant(plantConfig, heat, 0, units.Celsius(5))
//	cfg := control.LoopConfig{Element: &drive, Plant: plant, Cycle: 5 * time.Second}
//	process, err := cfg.Process(control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(10)}, 0.1)
//	cfg.Controller, err = control.NewController(control.Config{Tuning: control.SIMC(process, 0)})
//	loop, err := control.NewLoop(cfg)
//	loop.Settle(conditions(0))
//	series := control.NewSeries(time.Second, 24*time.Hour)
//	loop.Run(conditions, &series)
//	afternoon := series.Between(12*time.Hour, 18*time.Hour)
//	swing := control.DetectHunting(afternoon.Deviation, afternoon.Step, 0.2*units.Kelvin)
//
// heat is any function of the valve's travel and the base temperature: a valve's installed curve and a
// terminal's heat. Which kind depends on what the loop controls:
//
//   - supply air behind a coil: [HeatCurve] and [NewPlant]. The base is the air that
//     enters; the heat minds that, not the air that leaves.
//   - a room with its radiator, floor, ceiling or fan coil: [RoomHeatCurve] and [NewRoom]. The
//     base is the temperature outdoors (or of the room without heat); the heat falls as the room gets
//     warmer. Without that the gain comes out 1.5 times too high for a radiator, 2.2 for a floor.
//
// The [Plant] is one lag and one dead time. Real ones have more lags: by
// Skogestad's half rule (2003) half of the second counts as dead time and half goes to the
// first, and all smaller ones are dead time.
//
// A day in steps of a second is to take 50 ms, with a modulating drive. It took 25 ms with a
// curve of a few powers on the machine where it was measured, 35 ms with a terminal.Coil whose entering air changes, and 45 to 50 ms with
// a terminal.Radiator. It took 80 to 150 ms with a terminal.WetCoil and 80 to 100 ms with the
// radiator in a room, for which steps ask twice: take [HeatCurve.Tabulated] and
// [RoomHeatCurve.Tabulated] there, with which each of them took under 30 ms.
//
// [DetectHunting] says steady, hunting (with amplitude and period) or undecided, and why,
// of any record at equal steps, a trend log included. An unstable loop may rest within its
// dead band and look steady: disturb it before judging. [MovementOf] counts strokes, starts and
// reversals, which is what hunting costs.
//
// # On a live loop
//
// A simulation is not the plant. Before a step or relay test, agree on it with whoever
// answers for the building; keep frost protection, temperature limits and safety
// functions in force and independent of the loop; stay with it, and be ready to take it
// back by hand. Hot pressurised water and steam coils scald, and a stem that moves with
// force pinches: keep hands off the valve while the loop is live, and never power an
// actuator that is not mounted on its valve. Change one thing at a time, write down the old values, and wait several times the longest lag before judging.
// Decide what the output does when the sensor fails: [Controller.Step] returns NaN and
// leaves that to you.
package control
