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
}

func judge(u unit) (judged, error) {
	t, err := u.build(u.design)
	if err != nil {
		return judged{}, err
	}
	j := judged{unit: u, terminal: t}
	for _, authority := range authorities {
		c, err := choose(hydronics.PairingConfig{Terminal: t, Authority: authority})
		if err != nil {
			return judged{}, err
		}
		j.choices = append(j.choices, c)
	}
	if j.below, err = breakEven(t, deviation); err != nil {
		return judged{}, err
	}
	j.calmer, err = breakEven(t, gainRatio)
	return j, err
}

// tables judges the units and writes what belongs between the markers.
func tables(all []unit) (string, error) {
	var facts, advice, numbers strings.Builder
	for _, u := range all {
		j, err := judge(u)
		if err != nil {
			return "", fmt.Errorf("%v: %w", u, err)
		}
		facts.WriteString(j.factsRow())
		advice.WriteString(j.adviceRow())
		numbers.WriteString(j.numberRows())
	}
	return factsHead + facts.String() + adviceHead + advice.String() + numbersHead + numbers.String() + "\n", nil
}

const (
	factsHead = `
### Heat against flow

| terminal, supply/return/air in °C | drop : distance | heat at 10 % flow | at 20 % | at 50 % | flow for 50 % heat | for 90 % | handbook value beside it |
|---|--:|--:|--:|--:|--:|--:|---|
`
	adviceHead = `
### What to set, by authority

| terminal | drop : distance | 1 | 0.7 | 0.5 | 0.3 | 0.1 | E50 is straighter than linear below | E50 has less gain ratio below |
|---|--:|---|---|---|---|---|--:|--:|
`
	numbersHead = `
### The numbers

Each group: gain ratio, deviation, least load.

| terminal | authority | linear | E50 | best | its numbers |
|---|--:|---|---|---|---|
`
)

func (j *judged) factsRow() string {
	row := fmt.Sprintf("| %v | %.2f ", j, j.steepness())
	for _, flow := range []float64{0.1, 0.2, 0.5} {
		row += fmt.Sprintf("| %.0f %% ", 100*j.terminal.HeatShare(flow))
	}
	for _, heat := range []float64{0.5, 0.9} {
		row += fmt.Sprintf("| %.0f %% ", 100*j.terminal.FlowShare(heat))
	}
	return row + "| " + j.beside + " |\n"
}

func (j *judged) adviceRow() string {
	row := fmt.Sprintf("| %v | %.2f ", j, j.steepness())
	for _, c := range j.choices {
		row += "| " + c.cell() + " "
	}
	return row + "| " + j.below + " | " + j.calmer + " |\n"
}

func (j *judged) numberRows() string {
	var rows strings.Builder
	for _, c := range j.choices {
		fmt.Fprintf(&rows, "| %v | %.1f | %s | %s | %s | %s |\n", j, c.authority, figures(c.linear), figures(c.equal), short(c.best.Pairing), figures(c.best))
	}
	return rows.String()
}
