package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/valve"
)

// findings says in words what the tables hold, from the same numbers, so that the two
// cannot part.
func findings(units []judged) (string, error) {
	lines := []string{heatFinding(units), linearFinding(units)}
	lines = append(lines, overtakenFinding(units), lowAuthorityFinding(units))
	lines = append(lines, circuitFindings(units)...)
	swing, err := swingFinding(units)
	text := findingsHead + straightest(units) + customary(units) + "\n"
	for _, line := range append(lines, swing) {
		if line != "" {
			text += "- " + line + "\n"
		}
	}
	return text, err
}

const findingsHead = `
### In short

The straightest curve, over the units of a table below, from the one that bends least to the one that bends most:

| units | drop : distance | authority 1 | 0.7 | 0.5 | 0.3 | 0.1 |
|---|---|---|---|---|---|---|
`

// band is a range of steepness.
type band struct{ from, to float64 }

// The bands of the words; no unit is between them.
var bands = []band{{0, 0.25}, {0.28, 0.4}, {0.45, 0.65}, {0.75, 1}}

func (b band) has(j *judged) bool { return j.steepness() >= b.from-1e-9 && j.steepness() <= b.to+1e-9 }

func within(units []judged, b band) []judged {
	var some []judged
	for i := range units {
		if b.has(&units[i]) {
			some = append(some, units[i])
		}
	}
	return some
}

// span writes the range of a quantity that units have, with a verb of fmt.
func span(format string, values []float64) string {
	low, high := fmt.Sprintf(format, slices.Min(values)), fmt.Sprintf(format, slices.Max(values))
	if low == high {
		return low
	}
	return low + " to " + high
}

// steepnessOf is the range of drop : distance that units really have.
func steepnessOf(units []judged) string { return span("%.2f", each(units, (*judged).steep)) }

func (j *judged) steep() float64 { return j.steepness() }

func each(units []judged, of func(*judged) float64) []float64 {
	var values []float64
	for i := range units {
		values = append(values, of(&units[i]))
	}
	return values
}

// straightest is the table of the range of the best, by band and kind.
func straightest(units []judged) string {
	rows := ""
	for _, b := range bands {
		if some := within(units, b); len(some) > 0 {
			var all [][]choice
			for _, j := range some {
				all = append(all, j.choices)
			}
			rows += fmt.Sprintf("| throttled | %s %s|\n", steepnessOf(some), bestOf(all))
		}
	}
	for _, b := range bands {
		var some []judged
		var all [][]choice
		for _, j := range within(units, b) {
			for _, p := range j.pumps {
				all = append(all, p.choices)
			}
			if len(j.pumps) > 0 {
				some = append(some, j)
			}
		}
		if len(some) > 0 {
			rows += fmt.Sprintf("| with a pump of their own | %s %s|\n", steepnessOf(some), bestOf(all))
		}
	}
	return rows
}

// bestOf writes, for each authority, the least and the most bent of the best.
func bestOf(all [][]choice) string {
	row := ""
	for i := range authorities {
		var best []hydronics.RankedPairing
		for _, choices := range all {
			best = append(best, choices[i].best)
		}
		byBend := func(a, b hydronics.RankedPairing) int { return cmp.Compare(bend(a.Pairing), bend(b.Pairing)) }
		low, high := slices.MinFunc(best, byBend), slices.MaxFunc(best, byBend)
		row += "| " + short(low.Pairing)
		if short(low.Pairing) != short(high.Pairing) {
			row += " to " + short(high.Pairing)
		}
		row += " "
	}
	return row
}

// bend is how far a pairing is below the straight line half way.
func bend(p hydronics.Pairing) float64 { return 0.5 - p.Curve.At(p.Shaping.At(0.5)) }

func heatFinding(units []judged) string {
	var parts []string
	for _, b := range bands {
		if some := within(units, b); len(some) > 0 {
			half := span("%.0f", each(some, func(j *judged) float64 { return 100 * j.terminal.HeatShare(0.5) }))
			parts = append(parts, fmt.Sprintf("%s %% at a drop of %s", half, steepnessOf(some)))
		}
	}
	return "Half the flow gives this much of the heat, by the drop over the distance: " + strings.Join(parts, ", ") + "."
}

// linearFinding tells what a linear valve makes of small drops.
func linearFinding(units []judged) string {
	some := within(units, band{0, bands[1].to})
	if len(some) == 0 {
		return ""
	}
	off := allOf(some, func(c choice) float64 { return 100 * c.linear.Deviation })
	ratio := allOf(some, func(c choice) float64 { return c.linear.GainRatio() })
	best := 0
	for _, j := range some {
		for _, c := range j.choices {
			if c.best.Pairing.String() == linear.String() {
				best++
			}
		}
	}
	return fmt.Sprintf("*Linear* is the straightest in %d of the %d cases at drops of %s: it is off by %s %% there, with a gain ratio of %s.",
		best, len(off), steepnessOf(some), span("%.0f", off), span("%.1f", ratio))
}

func allOf(units []judged, of func(choice) float64) []float64 {
	var values []float64
	for _, j := range units {
		for _, c := range j.choices {
			values = append(values, of(c))
		}
	}
	return values
}

// customary is the table of how E50 does beside the straightest.
func customary(units []judged) string {
	rows := customaryHead
	for _, b := range bands {
		some := within(units, b)
		for i, authority := range authorities {
			if len(some) == 0 || authority != 1 && authority != 0.5 {
				continue
			}
			rows += fmt.Sprintf("| %s | %g | %s | %s |\n", steepnessOf(some), authority,
				offAndRatio(some, func(j *judged) hydronics.RankedPairing { return j.choices[i].equal }),
				offAndRatio(some, func(j *judged) hydronics.RankedPairing { return j.choices[i].best }))
		}
	}
	return rows
}

const customaryHead = `
The customary equal percentage 50 beside the straightest, units throttled by their valve:

| drop : distance | authority | E50 | the straightest |
|---|--:|---|---|
`

func offAndRatio(units []judged, of func(*judged) hydronics.RankedPairing) string {
	return fmt.Sprintf("off by %s %%, gain ratio %s",
		span("%.0f", each(units, func(j *judged) float64 { return 100 * of(j).Deviation })),
		span("%.1f", each(units, func(j *judged) float64 { return of(j).GainRatio() })))
}

// overtakenFinding tells where linear is straighter than equal percentage; the units
// are in order of their drop.
func overtakenFinding(units []judged) string {
	var below []string
	always := math.NaN()
	for i := range units {
		j := &units[i]
		if j.below != "any" {
			below = append(below, fmt.Sprintf("%v only below an authority of %s", j, j.below))
		} else if len(below) == 0 {
			always = j.steepness()
		}
	}
	text := fmt.Sprintf("Throttled by its valve, a unit with a drop of up to %.2f is straighter with E50 than with linear at every authority", always)
	if len(below) > 0 {
		text += "; " + strings.Join(below, "; ") + ". Above those authorities the usual advice is wrong"
	}
	return text + "."
}

// lowAuthorityFinding tells what is left at the lowest authority.
func lowAuthorityFinding(units []judged) string {
	last := len(authorities) - 1
	poor := 0
	for _, j := range units {
		if j.choices[last].poor() {
			poor++
		}
	}
	text := fmt.Sprintf("At an authority of %.1f even the straightest of %d of the %d units is marked **!**.", authorities[last], poor, len(units))
	least := slices.MaxFunc(units, func(a, b judged) int {
		return cmp.Compare(a.choices[last].equal.LeastLoad.Share, b.choices[last].equal.LeastLoad.Share)
	})
	c := least.choices[last]
	return text + fmt.Sprintf(" The worst off, %v, controls nothing below %.0f %% of its heat with E50, and nothing below %.0f %% with a linear valve.",
		&least, 100*c.equal.LeastLoad.Share, 100*c.linear.LeastLoad.Share)
}

// circuitFindings tell how units with a pump of their own do.
func circuitFindings(units []judged) []string {
	var lines []string
	for k, p := range pumpedCircuits {
		var cases []choice
		for _, j := range units {
			if j.pumped {
				cases = append(cases, j.pumps[k].choices...)
			}
		}
		if len(cases) == 0 {
			continue
		}
		straighter := 0
		var off, ratio []float64
		for _, c := range cases {
			if c.equal.Deviation < c.linear.Deviation {
				straighter++
			}
			off, ratio = append(off, 100*c.best.Deviation), append(ratio, c.best.GainRatio())
		}
		lines = append(lines, fmt.Sprintf("A pump of the unit's own, *%s*: E50 is straighter than linear in %d of %d cases; the straightest is off by %s %%, with a gain ratio of %s.",
			p.name, straighter, len(cases), span("%.0f", off), span("%.1f", ratio)))
	}
	return lines
}

// swingFinding tells how constant the flow of units is that a three-way valve mixes for.
func swingFinding(units []judged) (string, error) {
	var parts []string
	for _, curve := range []valve.Characteristic{linear.Curve, equal.Curve} {
		var shares []float64
		for _, j := range units {
			if !j.pumped {
				continue
			}
			c, err := mixing(j.terminal, swingAuthority, curve)
			if err != nil {
				return "", err
			}
			r, design := c.ConsumerRange(), j.terminal.Design().Flow
			shares = append(shares, 100*float64(r.Least/design), 100*float64(r.Greatest/design))
		}
		if len(shares) > 0 {
			parts = append(parts, fmt.Sprintf("%s %% of its design flow with a control port of %v", span("%.0f", shares), curve))
		}
	}
	if len(parts) == 0 {
		return "", nil
	}
	return fmt.Sprintf("In the mixing circuit the unit's flow, meant to stay, is %s (authority %g).", strings.Join(parts, ", "), swingAuthority), nil
}

const swingAuthority = 0.5
