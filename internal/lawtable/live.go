package main

import (
	"errors"
	"fmt"
)

// fixed are the tables without random points, and why: a live comparison takes
// them as recorded.
var fixed = map[string]string{
	"bacnet":              "the codes of a published list",
	"control_margins":     "made by Octave, not by Python: remade by hand",
	"control_response":    "made by Octave, not by Python: remade by hand",
	"control_step":        "made by Octave, not by Python: remade by hand",
	"control_ultimate":    "made by Octave, not by Python: remade by hand",
	"fittings_ends":       "two printed values",
	"glycol_checks":       "a grid recorded from another script",
	"pipe_roughness":      "a printed table",
	"pipe_sizes":          "a printed table",
	"plan":                "the demonstration plan: one schedule, one result",
	"pump_operation":      "made by the EPANET engine on Node: remade by hand",
	"response_linearity":  "a grid: each point takes hundreds of solutions",
	"sizing_iec_examples": "the standard's worked examples",
	"sizing_styles":       "a printed table",
	"sizing_variants":     "variants of a worked example",
	"ucum":                "the codes of a published list",
	"units":               "the definitions of the units, all of them",
	"water_grid":          "a grid",
	"water_if97_table35":  "a printed table",
	"water_if97_table36":  "a printed table",
	"water_if97_table5":   "a printed table",
	"water_r12_08_table4": "a printed table",
	"water_r15_11_table4": "a printed table",
	"water_r15_11_table7": "a printed table",
	"wetcoil":             "its limit is the error of the method, found on the recorded sample",
}

// checkLive requires that every law was compared in so many points of a live
// table, unless it is one of the fixed ones, whose reason it notes.
func checkLive(laws []law, live func(name string) bool, least int) error {
	var faults []error
	for i := range laws {
		l := &laws[i]
		switch reason := fixed[l.Name]; {
		case !live(l.Name) && reason == "":
			faults = append(faults, fmt.Errorf("%s: the recorded table was taken, want a live one or a reason in fixed", l.Name))
		case !live(l.Name):
			l.recorded = reason
		case reason != "":
			faults = append(faults, fmt.Errorf("%s: is live, but fixed has a reason why not: %s", l.Name, reason))
		case l.points < least:
			faults = append(faults, fmt.Errorf("%s: compared in %d points, want %d", l.Name, l.points, least))
		}
	}
	return errors.Join(faults...)
}
