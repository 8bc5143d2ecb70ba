// Command response follows one unit from the signal to the heat: a heating coil with
// its valve and actuator. It ranks the pairings of shaping and characteristic, prints
// what the best of them does at each signal beside two usual ones, and with -out draws
// the curves. Coil, valve and branch are invented.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
)

func main() {
	out := flag.String("out", "", "folder for the plots, as SVG and PNG; it is made if need be; empty: no plots")
	flag.Parse()
	if err := run(*out, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "response:", err)
		os.Exit(1)
	}
}

func run(out string, w io.Writer) error {
	u, err := newUnit()
	if err != nil {
		return err
	}
	if err := u.write(w); err != nil {
		return err
	}
	if out == "" {
		_, err = fmt.Fprintln(w, "\nFor the curves as SVG and PNG: -out and a folder.")
	} else {
		err = u.draw(out, w)
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(w, "\n", cautions)
	return err
}

// cautions go below every result.
const cautions = `Cautions: unit, valve and actuator are invented, and a prediction is no measurement: what a setting promises, a test on
site has to show, and the makers' instructions, local codes and licensed practice come first. Mains and 24 V wiring, hot water under
pressure and moving stems injure: isolate, let cool, relieve the pressure, and never power an actuator that is not mounted on its valve.
`
