package sizing

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// A Case is what one valve sees: the liquid, the pressures, the valve and its
// pipes. The zero value is not usable; every function of the package checks the
// case and reports all its faults joined, each a *[units.FieldError].
type Case struct {
	Liquid Liquid
	// Inlet p1 and Outlet p2 are the absolute pressures before and after the valve
	// with its reducers, p1 > p2 > 0. A drop of dp means an outlet of p1.Add(-dp). An
	// outlet below the vapour pressure means flashing and is allowed.
	Inlet, Outlet units.AbsolutePressure
	Valve         Valve
	// InletPipe D1 and OutletPipe D2 are the inside diameters of the pipes at the wide
	// ends of short concentric reducers; zero means the valve's own diameter. A pipe
	// smaller than the valve is refused: the standard has no equation for it.
	InletPipe, OutletPipe units.Length
}

// valid is the quick form of faults: true if and only if there are none. It is
// apart so that a good case costs no allocation.
func (c *Case) valid() bool {
	p1, pv := c.Inlet.AboveVacuum(), c.Liquid.VapourPressure.AboveVacuum()
	p2, pc := c.Outlet.AboveVacuum(), c.Liquid.criticalPressure().AboveVacuum()
	v := &c.Valve
	return positive(c.Liquid.Density) && positive(c.Liquid.Viscosity) &&
		pv > 0 && pv < p1 && pv <= pc && positive(pc) &&
		positive(p1) && p2 > 0 && p2 < p1 &&
		positive(v.Diameter) && share(v.FL) && share(v.Fd) && v.XFz >= 0 && v.XFz < 1 &&
		v.Holes >= 0 && v.HoleDiameter >= 0 && v.HoleDiameter <= math.MaxFloat64 &&
		pipeFits(c.InletPipe, v.Diameter) && pipeFits(c.OutletPipe, v.Diameter)
}

func positive[Q ~float64](v Q) bool { return v > 0 && v <= math.MaxFloat64 }

func share(x float64) bool { return x > 0 && x <= 1 }

func pipeFits(pipe, valve units.Length) bool {
	return pipe == 0 || pipe >= valve && pipe <= math.MaxFloat64
}

// faults lists what is wrong with the case.
func (c *Case) faults(l *check.List) {
	c.liquidFaults(l)
	c.pressureFaults(l)
	v := &c.Valve
	check.Positive(l, "Valve.Diameter", v.Diameter)
	l.Require(share(v.FL), "Valve.FL", v.FL, "above 0, up to 1")
	l.Require(share(v.Fd), "Valve.Fd", v.Fd, "above 0, up to 1 (for a tapered needle see NeedleFd)")
	l.Require(v.XFz >= 0 && v.XFz < 1, "Valve.XFz", v.XFz, "between 0 and 1, or 0 for an estimate")
	l.Require(v.Holes >= 0, "Valve.Holes", v.Holes, "how many holes, or 0 for a trim that is not multi-hole")
	check.NotNegative(l, "Valve.HoleDiameter", v.HoleDiameter)
	smallest := fmt.Sprintf("at least the valve's diameter, %v, or 0 for the same", v.Diameter)
	l.Require(pipeFits(c.InletPipe, v.Diameter), "InletPipe", c.InletPipe, smallest)
	l.Require(pipeFits(c.OutletPipe, v.Diameter), "OutletPipe", c.OutletPipe, smallest)
}

func (c *Case) liquidFaults(l *check.List) {
	pv, pc := c.Liquid.VapourPressure, c.Liquid.criticalPressure()
	check.Positive(l, "Liquid.Density", c.Liquid.Density)
	check.Positive(l, "Liquid.Viscosity", c.Liquid.Viscosity)
	if !l.Require(positive(pc.AboveVacuum()), "Liquid.CriticalPressure", pc, "a finite pressure above vacuum, or 0 for water's") {
		pc = units.Absolute(units.Pressure(math.Inf(1)))
	}
	switch {
	case !(pv.AboveVacuum() > 0):
		l.Fault("Liquid.VapourPressure", pv, "a pressure above vacuum")
	case pv.Compare(pc) > 0:
		l.Fault("Liquid.VapourPressure", pv, fmt.Sprintf("at most the critical pressure, %v", pc))
	case pv.Compare(c.Inlet) >= 0:
		l.Fault("Liquid.VapourPressure", pv, fmt.Sprintf("below the inlet pressure, %v, or what arrives is no liquid", c.Inlet))
	}
}

func (c *Case) pressureFaults(l *check.List) {
	l.Require(positive(c.Inlet.AboveVacuum()), "Inlet", c.Inlet, "a finite pressure above vacuum")
	switch {
	case !(c.Outlet.AboveVacuum() > 0):
		l.Fault("Outlet", c.Outlet, "a pressure above vacuum")
	case !(c.Outlet.AboveVacuum() < c.Inlet.AboveVacuum()):
		l.Fault("Outlet", c.Outlet, fmt.Sprintf("below the inlet pressure, %v", c.Inlet))
	}
}

// fault returns the faults of a case and of the flow or Kv that came with it.
func fault[Q ~float64](c *Case, field string, v Q) error {
	l := check.List{Package: "sizing"}
	check.Positive(&l, field, v)
	c.faults(&l)
	return l.Err()
}
