package main

import (
	"errors"
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/indexrun/indexrun/units"
)

// write prints what the library says of the unit.
func (u *unit) write(w io.Writer) error {
	d, authority := u.coil.Design(), u.cases[0].authority
	_, err := fmt.Fprintf(w, "A heating coil (invented): %v at %v/%v, air from %v, %v\n"+
		"A valve of Kvs %v in a branch of %v: authority %.2f by the open flow, %.2f by the design flow\n\n",
		d.Heat, d.Conditions.Supply, d.Return, d.Conditions.Air, d.Flow, kvs, available, authority.Open, authority.Design)
	return errors.Join(err, u.writeRanking(w), u.cases[0].write(w), u.writeHalf(w))
}

// columns lays out rows of cells that tabs separate; cells of numbers are to the right.
func columns(w io.Writer, flags uint, write func(io.Writer)) error {
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', flags)
	write(table)
	return table.Flush()
}

func (u *unit) writeRanking(w io.Writer) error {
	return columns(w, 0, func(w io.Writer) {
		fmt.Fprintln(w, "actuator on valve, straightest first\tdeviation\tgain ratio\tleast load")
		for _, r := range u.ranking {
			fmt.Fprintf(w, "%v\t%4.1f %%\t%4.1f\t%2.0f %%\n", r.Pairing, 100*r.Deviation, r.GainRatio(), 100*r.LeastLoad.Share)
		}
	})
}

// write prints the response of a case, volt by volt.
func (f *fitted) write(w io.Writer) error {
	_, err := fmt.Fprintf(w, "\n%v:\n", f.Pairing)
	return errors.Join(err, columns(w, tabwriter.AlignRight, func(w io.Writer) {
		fmt.Fprintln(w, "signal\ttravel\tKv/Kvs\tflow\theat\tof full\treturn\tgain\t")
		for volt := range 11 {
			opening := float64(volt) / 10
			s := f.chain.SignalAt(opening)
			r := f.chain.Respond(s)
			fmt.Fprintf(w, "%v\t%.3f\t%.3f\t%s\t%s\t%.0f %%\t%s\t%.2f\t\n", s, r.Travel, r.Coefficient,
				r.Flow.Fixed(units.LitrePerHour, 0), r.Heat.Fixed(units.Kilowatt, 2), 100*f.chain.HeatShare(opening),
				r.Return.Fixed(units.CelsiusScale, 1), f.chain.Gain(opening))
		}
	}))
}

// writeHalf prints which signal gives half the heat, and the least load.
func (u *unit) writeHalf(w io.Writer) error {
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	half := u.coil.Design().Heat / 2
	for _, f := range u.cases {
		s, err := f.chain.SignalForHeat(half)
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintf(w, "%v: %v at %.2f V, least load controlled %v\n", f.Pairing, half, s.Number(), f.least.Heat); err != nil {
			return err
		}
	}
	return nil
}
