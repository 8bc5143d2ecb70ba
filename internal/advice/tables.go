package main

import (
	"fmt"
	"strings"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
)

// authorities are the columns; a pressure-independent valve counts as 1.
var authorities = []float64{1, 0.7, 0.5, 0.3, 0.1}

// judged is a unit with the choices for it.
type judged struct {
	unit
	terminal terminal.Terminal
	choices  []choice // one for each of the authorities
	below    string   // where equal percentage begins to be better, by deviation
	calmer   string   // and by gain ratio
	pumps    []inCircuit
}

// inCircuit is a unit in a circuit with a pump of its own.
type inCircuit struct {
	circuit string
	choices []choice
}

// judge ranks the pairings for a unit at all authorities.
func judge(u unit) (judged, error) {
	t, err := u.model.build(u.design)
	if err != nil {
		return judged{}, err
	}
	j := judged{unit: u, terminal: t}
	j.choices, err = chooseAll(func(authority float64) (hydronics.PairingConfig, error) {
		return hydronics.PairingConfig{Terminal: t, Authority: authority}, nil
	})
	if err != nil {
		return judged{}, err
	}
	if j.below, err = breakEven(t, deviation); err != nil {
		return judged{}, err
	}
	if j.calmer, err = breakEven(t, gainRatio); err != nil || !u.pumped {
		return j, err
	}
	for _, p := range pumpedCircuits {
		c := inCircuit{circuit: p.name}
		c.choices, err = chooseAll(func(authority float64) (hydronics.PairingConfig, error) {
			circuit, err := p.make(t, authority, linear.Curve) // the ranking puts others in its place
			return hydronics.PairingConfig{Terminal: t, Circuit: circuit}, err
		})
		if err != nil {
			return judged{}, err
		}
		j.pumps = append(j.pumps, c)
	}
	return j, nil
}

// tables judges the units and writes what belongs between the markers.
func tables(all []unit) (string, error) {
	var units []judged
	for _, u := range all {
		j, err := judge(u)
		if err != nil {
			return "", fmt.Errorf("%v: %w", u, err)
		}
		units = append(units, j)
	}
	var page strings.Builder
	words, err := findings(units)
	if err != nil {
		return "", err
	}
	page.WriteString(words)
	for _, table := range []struct {
		head string
		rows func(*judged) string
	}{
		{legendHead, (*judged).legendRow}, {factsHead, (*judged).factsRow}, {adviceHead, (*judged).adviceRow},
		{circuitHead, (*judged).circuitRows}, {numbersHead, (*judged).numberRows}, {circuitNumbersHead, (*judged).circuitNumberRows},
	} {
		page.WriteString(table.head)
		for i := range units {
			page.WriteString(table.rows(&units[i]))
		}
	}
	return page.String() + "\n", nil
}

const (
	legendHead = `
### The units

Each has the liquid water, the air flow constant, and 5 kW (floors what follows from K_H·A). Temperatures are supply/return/air in °C, the
air being that before a coil, or of the room. Rated temperatures are those of the design.

| terminal, supply/return/air in °C | drop : distance | inputs |
|---|--:|---|
`
	factsHead = `
### Heat against flow

| terminal | drop : distance | heat at 10 % flow | at 20 % | at 50 % | school formula (5) at 50 % | flow for 50 % heat | for 90 % | what others say |
|---|--:|--:|--:|--:|--:|--:|--:|---|
`
	adviceHead = `
### What to set, by authority: units that the valve throttles

| terminal | drop : distance | 1 | 0.7 | 0.5 | 0.3 | 0.1 | E50 is straighter than linear below | E50 has less gain ratio below |
|---|--:|---|---|---|---|---|--:|--:|
`
	circuitHead = `
### What to set, by authority: units with a pump of their own

The unit's flow stays and its supply temperature is mixed. *Injection*: a two-way valve throttles what the source injects, the
common pipe has no resistance. *Mixing*: a three-way valve, bypass port linear 50 with the Kvs of the control port, between headers without pressure;
bypass pipe as tight as the primary circuit. The source has the design supply temperature. At the design flow the pump has 40 kPa; control
port and what carries its flow alone drop 10 kPa, of which the port has the share that is its authority.

| terminal | drop : distance | circuit | 1 | 0.7 | 0.5 | 0.3 | 0.1 |
|---|--:|---|---|---|---|---|---|
`
	numbersHead = `
### The numbers: units that the valve throttles

Each group: gain ratio, deviation, least load.

| terminal | authority | linear | E50 | best | its numbers |
|---|--:|---|---|---|---|
`
	circuitNumbersHead = `
### The numbers: units with a pump of their own

| terminal | circuit | authority | linear | E50 | best | its numbers |
|---|---|--:|---|---|---|---|
`
)

func (j *judged) legendRow() string {
	return fmt.Sprintf("| %v | %.2f | %s |\n", j, j.steepness(), j.model.inputs())
}

func (j *judged) factsRow() string {
	row := fmt.Sprintf("| %v | %.2f ", j, j.steepness())
	for _, flow := range []float64{0.1, 0.2, 0.5} {
		row += fmt.Sprintf("| %.0f %% ", 100*j.terminal.HeatShare(flow))
	}
	if share, ok := j.schoolHeat(0.5); ok {
		row += fmt.Sprintf("| %.0f %% ", 100*share)
	} else {
		row += "| – "
	}
	for _, heat := range []float64{0.5, 0.9} {
		row += fmt.Sprintf("| %.0f %% ", 100*j.terminal.FlowShare(heat))
	}
	return row + "| " + j.beside() + " |\n"
}

func (j *judged) adviceRow() string {
	return fmt.Sprintf("| %v | %.2f %s| %s | %s |\n", j, j.steepness(), cells(j.choices), j.below, j.calmer)
}

func (j *judged) circuitRows() string {
	var rows strings.Builder
	for _, p := range j.pumps {
		fmt.Fprintf(&rows, "| %v | %.2f | %s %s|\n", j, j.steepness(), p.circuit, cells(p.choices))
	}
	return rows.String()
}

// cells are the recommendations, each with its stroke before it.
func cells(choices []choice) string {
	row := ""
	for _, c := range choices {
		row += "| " + c.cell() + " "
	}
	return row
}

func (j *judged) numberRows() string { return numbers(j.String(), j.choices) }

func (j *judged) circuitNumberRows() string {
	var rows strings.Builder
	for _, p := range j.pumps {
		rows.WriteString(numbers(j.String()+" | "+p.circuit, p.choices))
	}
	return rows.String()
}

func numbers(name string, choices []choice) string {
	var rows strings.Builder
	for _, c := range choices {
		fmt.Fprintf(&rows, "| %s | %.1f | %s | %s | %s | %s |\n", name, c.authority, figures(c.linear), figures(c.equal), short(c.best.Pairing), figures(c.best))
	}
	return rows.String()
}
