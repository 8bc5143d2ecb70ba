package sizing

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/units"
)

// tooMuch refuses a flow that no Kv passes.
func (l *law) tooMuch(q units.Flow) error {
	most := units.Flow(l.greatestCapacity()) * units.CubicMetrePerHour
	want := fmt.Sprintf("less than %v, what these reducers let through at any Kv", most)
	if q < most {
		want = "a flow that a liquid of this viscosity makes through these reducers"
	}
	return &units.FieldError{Package: "sizing", Field: "Flow", Value: q.String(), Want: want}
}

// tooWide refuses a Kv at which FP would be infinite or imaginary.
func (l *law) tooWide(kv units.FlowCoefficient) error {
	limit := units.FlowCoefficient(1/math.Sqrt(-l.through)) * units.Kv
	return &units.FieldError{
		Package: "sizing", Field: "Kv", Value: kv.String(),
		Want: fmt.Sprintf("less than %v, where the standard's FP for this outlet pipe becomes infinite", limit),
	}
}

// holesUnknown refuses to estimate XFz of a multi-hole trim.
func holesUnknown(v *Valve) error {
	return &units.FieldError{
		Package: "sizing", Field: "Valve.HoleDiameter", Value: v.HoleDiameter.String(),
		Want: fmt.Sprintf("above zero for the estimate of XFz with %d holes, or a measured Valve.XFz", v.Holes),
	}
}

// outOfRange refuses numbers so far from any valve that float64 does not carry
// the result.
func outOfRange(c *Case) error {
	return &units.FieldError{
		Package: "sizing", Field: "Case", Value: fmt.Sprintf("%+v", *c),
		Want: "quantities whose result is neither zero nor infinite as a float64",
	}
}
