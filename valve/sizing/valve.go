package sizing

import "github.com/indexrun/indexrun/units"

// A Valve is what the equations need to know of a control valve beside its Kv.
// Take measured values at the travel in question where there are any, or
// [Style.Valve].
type Valve struct {
	// Diameter d, the nominal size of the valve and the small end of its reducers.
	Diameter units.Length
	// FL is the liquid pressure recovery factor without fittings, 0 < FL ≤ 1.
	FL float64
	// Fd is the valve style modifier: the hydraulic diameter of one flow path over
	// the diameter of a circle with the area of all, 0 < Fd ≤ 1.
	Fd float64
	// XFz is the pressure ratio xF at which cavitation begins to be heard, measured
	// at an inlet pressure of 6 bar (IEC 60534-8-2), 0 < XFz < 1; zero means the
	// estimate of [EstimateXFz].
	XFz float64
	// Holes N0 and HoleDiameter dH are how many holes a multi-hole trim, such as a
	// drilled cage, passes at the travel in question and the hydraulic diameter of
	// one. Only the estimate of XFz needs them: where that is asked of a valve with
	// Holes but without HoleDiameter, it is refused. No holes means any other trim.
	Holes        int
	HoleDiameter units.Length
}
