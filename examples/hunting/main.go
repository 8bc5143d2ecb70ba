// Command hunting runs one control loop for a day with three choices of valve and
// actuator setting, says which of them hunts and why, and draws it.
//
//	go run -C examples ./hunting -out "$PWD/plots"
//	go run -C examples ./hunting -rule simc
//
// The loop is tuned by the same published rule each time, at half load. What differs is
// the gain at part load: a coil gives much of its heat for little flow, so a linear valve
// is liveliest where it is nearly shut, and so is a valve that is too large. The gain margin
// in the table foretells which case swings; the simulation, with the actuator's speed,
// dead band, resolution and play, shows how. A calmer rule hides the first fault and
// leaves it no margin: try simc. All data are invented.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The tuning rules, by their word on the command line.
var rules = map[string]struct {
	name, note string
	tune       func(control.Process) control.Tuning
}{
	"zn": {
		"Ziegler & Nichols 1942, lively",
		"This rule is a bound, as lively as one would set a controller. Milder rules make the difference between the cases\nsmaller: try -rule simc and -rule amigo.",
		func(p control.Process) control.Tuning { return control.ZieglerNicholsPI(p.Ultimate()) },
	},
	"simc": {
		"SIMC (Skogestad 2003), sound",
		"A livelier rule makes the difference between the cases greater: try -rule zn.",
		func(p control.Process) control.Tuning { return control.SIMC(p, 0) },
	},
	"amigo": {
		"AMIGO (Åström & Hägglund 2004), calm",
		"Livelier rules make the difference between the cases greater: try -rule simc and -rule zn.",
		control.AMIGOPI,
	},
}

// The cases. All valves are linear ones; the shaping is a switch in the actuator.
var cases = []struct {
	name    string
	kvs     units.FlowCoefficient
	shaping actuator.Shaping
}{
	{"Right size, actuator linear", 6.3 * units.Kv, actuator.Linear()},
	{"Right size, actuator equal percentage", 6.3 * units.Kv, actuator.ZeroBasedEqualPercentage(50)},
	{"As wide as the pipe, actuator equal percentage", 16 * units.Kv, actuator.ZeroBasedEqualPercentage(50)},
}

const cautions = `Cautions: a simulation is not the plant. Agree on every test with whoever answers for the building, keep
frost protection in force, stay with the loop, change one thing at a time. Isolate the supply before you touch
a switch or a terminal. Hot pressurised water scalds, a moving stem crushes fingers: shut off, cool and relieve the
pressure before a valve is changed, and never power an actuator that is not mounted on its valve.
`

func main() {
	rule := flag.String("rule", "zn", "how the controller is tuned: zn, simc or amigo")
	out := flag.String("out", "", "folder for plots, SVG and PNG; empty: none")
	flag.Parse()
	if err := run(*rule, *out, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "hunting:", err)
		os.Exit(1)
	}
}

func run(rule, out string, w io.Writer) error {
	days, err := simulateAll(rule)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "An air heater (invented), tuned at half load by %s.\n", rules[rule].name)
	fmt.Fprintf(w, "Actuator: %v for the whole stroke, resolution %.1f %%, dead band %.1f %%, play %.1f %%. Hunting is a swing beyond ±%s.\n",
		runningTime, 100*faults.Resolution, 100*faults.DeadBand, 100*faults.Hysteresis, tolerance)
	fmt.Fprintln(w, rules[rule].note)
	for _, d := range days {
		if err := report(w, d); err != nil {
			return err
		}
	}
	fmt.Fprint(w, "\n", cautions)
	if out == "" {
		return nil
	}
	return drawAll(days, out, w)
}

func simulateAll(rule string) ([]*day, error) {
	r, known := rules[rule]
	if !known {
		return nil, fmt.Errorf("-rule: got %q, want zn, simc or amigo", rule)
	}
	var days []*day
	for _, c := range cases {
		u, err := newUnit(c.name, c.kvs, c.shaping)
		if err != nil {
			return nil, err
		}
		d, err := simulate(u, r.tune)
		if err != nil {
			return nil, err
		}
		days = append(days, d)
	}
	return days, nil
}

func report(w io.Writer, d *day) error {
	authority, err := d.authority()
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%s\n%s\n", d.name, strings.Repeat("-", len(d.name)))
	fmt.Fprintf(w, "Kvs %.1f, authority %.2f; proportional band %s, integral time %v\n\n",
		d.valve.Kvs().In(units.Kv), authority.Open, d.tuning.Band.Fixed(units.Kelvin, 1), d.tuning.IntegralTime.Round(time.Second))
	fmt.Fprintln(w, " hours  air before   load  travel  gain margin  verdict                 swing  period  strokes/h  in motion")
	for _, j := range d.judged {
		strokes, _, _ := j.moved.Hourly()
		fmt.Fprintf(w, " %02.0f–%02.0f  %10s  %4.0f %%  %4.1f %%  %11.1f  %-20s  ±%s  %6s  %9.2f  %7.1f %%\n",
			j.from.Hours(), j.to.Hours(), j.air.Fixed(units.CelsiusScale, 1), 100*load(j.air), 100*j.travel, j.margin,
			verdict(j.swing), j.swing.Amplitude.Fixed(units.Kelvin, 2), period(j.swing), strokes, 100*j.moved.Duty)
	}
	fmt.Fprintf(w, "\n%s\n", advice(d, authority))
	return nil
}

func verdict(s control.Swing[units.TemperatureDifference]) string {
	switch {
	case s.Verdict == control.Undecided:
		return fmt.Sprintf("%v: %v", s.Verdict, s.Doubt)
	case s.LastHalf:
		return s.Verdict.String() + " at the end"
	}
	return s.Verdict.String()
}

func period(s control.Swing[units.TemperatureDifference]) string {
	if s.Verdict != control.Hunting {
		return "–"
	}
	return fmt.Sprintf("%.0f s", s.Period.Seconds())
}

const (
	leastAuthority = 0.3 // common practice, no published source
	leastShare     = 0.7 // of the margin at the point of tuning; this program's own
)

// nearly is what the table prints as a margin of 1.0.
const nearly = 1.05

// outlook says what a gain margin means, for a loop that swings though its gain is not
// too high, or for any other.
func outlook(margin float64, cycles bool) string {
	switch {
	case margin < 1/nearly:
		return fmt.Sprintf("the gain is %.1f times that at which the loop swings", 1/margin)
	case margin < nearly:
		return "the gain is about that at which the loop swings"
	case cycles:
		return fmt.Sprintf("the gain might rise %.1f-fold: it is dead band, play and the\nintegral part that make this loop swing", margin)
	}
	return fmt.Sprintf("the gain may rise %.1f-fold before the loop swings", margin)
}

// advice says what to change, from the stretch with the least gain margin.
func advice(d *day, authority valve.Authority) string {
	worst := d.worst()
	text := fmt.Sprintf("At %.0f %% load %s; the valve is %.1f %% open.\n", 100*load(worst.air), outlook(worst.margin, d.cycles()), 100*worst.travel)
	switch {
	case worst.swing.Verdict == control.Steady && worst.margin >= leastShare*d.tuned:
		return text + "Leave it."
	case authority.Open < leastAuthority:
		q, dp := d.coil.Design().Flow, available-restDrop
		kv := valve.CoefficientFor(q, dp, d.valve.Density())
		return text + fmt.Sprintf("Change the valve: %s at %s needs a Kv of %.1f, so a Kvs of %.1f. Then tune again.",
			q.Fixed(units.LitrePerSecond, 2), dp.Fixed(units.Kilopascal, 0), kv.In(units.Kv), valve.R5.AtLeast(kv).In(units.Kv))
	}
	return text + "Change the actuator's characteristic to equal percentage, then tune again. " +
		"A wider proportional band would\ncalm the loop as well, and make it slow at high load."
}
