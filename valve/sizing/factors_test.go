package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

func TestReducerLossesAreTheReferences(t *testing.T) {
	c := reference.Compare(t, "sizing_reducers")
	for row := range c.Rows() {
		square := func(column string) float64 { return math.Pow(row.Float("d_m")/row.Float(column), 2) }
		inlet := inletLoss(square("D1_m"))
		c.CheckAbs(row, "inlet_zeta", inlet)
		c.CheckAbs(row, "sum_zeta", inlet+outletLoss(square("D2_m")))
	}
	c.Require(1e-14) // absolute, since the terms of both cancel
}

func TestReynoldsNumberIsTheReferences(t *testing.T) {
	c := reference.Compare(t, "sizing_reynolds")
	for row := range c.Rows() {
		viscous := Case{
			Liquid: Liquid{Density: 1000, Viscosity: units.KinematicViscosity(row.Float("nu_m2_s"))},
			Valve:  Valve{Diameter: units.Length(row.Float("D1_m")), FL: row.Float("FL"), Fd: row.Float("Fd")},
		}
		var l law
		l.prepare(&viscous)
		flow := units.Flow(row.Float("q_m3_s")).In(units.CubicMetrePerHour)
		c.Check(row, "Rev", l.speed(row.Float("Kv"))*flow)
	}
	c.Require(1e-12)
}

// asPrinted tells where this package reads FR as the standard prints it: all
// but the two gaps that doc.go describes.
func asPrinted(fl, n, rev float64) bool {
	tooSteep := rev >= laminarBelow && n < 1.5 && rev < 25
	tooHigh := rev < laminarBelow && fl < 0.4
	return !tooSteep && !tooHigh
}

func TestReynoldsFactorIsTheReferences(t *testing.T) {
	compared := 0
	c := reference.Compare(t, "sizing_reynolds_factor")
	for row := range c.Rows() {
		d := units.Length(row.Float("d_m")).In(units.Millimetre)
		n, _ := trimFactor(math.Cbrt(row.Float("Kv")/(d*d)), row.Bool("full_trim"))
		if !asPrinted(row.Float("FL"), n, row.Float("Rev")) {
			continue
		}
		v := viscousFactors(row.Float("FL"), math.Sqrt(row.Float("FL")))
		fr, _, _ := v.factor(row.Float("Rev"), n)
		c.Check(row, "FR", fr)
		compared++
	}
	assert.Greater(t, compared, c.Len()*9/10)
	c.Require(1e-12)
}

// printed is FR as the standard prints it, with its drop at Rev = 10.
func printed(fl, n, rev float64) float64 {
	laminar := min(0.026/fl*math.Sqrt(n*rev), 1)
	if rev < laminarBelow {
		return laminar
	}
	return min(laminar, 1+0.33*math.Sqrt(fl)/math.Pow(n, 0.25)*math.Log10(rev/1e4))
}

func TestReynoldsFactorLeavesThePrintedOneOnlyInTheGaps(t *testing.T) {
	for _, fl := range []float64{0.2, 0.38, 0.5, 0.7, 0.9, 1} {
		v := viscousFactors(fl, math.Sqrt(fl))
		for n := 1.0; n < 9.1; n += 0.3 {
			last := 0.0
			for rev := 0.01; rev < 11000; rev *= 1.03 {
				fr, _, _ := v.factor(rev, n)
				assert.GreaterOrEqual(t, fr, last, "FR falls at FL %v, n %v, Rev %v", fl, n, rev)
				last = fr
				if asPrinted(fl, n, rev) {
					assert.InEpsilon(t, printed(fl, n, rev), fr, 1e-12, "FL %v, n %v, Rev %v", fl, n, rev)
				}
			}
		}
	}
}

func TestPrintedReynoldsFactorDropsAtRev10(t *testing.T) {
	below := math.Nextafter(laminarBelow, 0)
	assert.InDelta(t, 8.2, printed(1, 1, below)/printed(1, 1, laminarBelow), 0.05, "FL 1, n 1")
	assert.InDelta(t, 1.2, printed(0.3, 9.07, below)/printed(0.3, 9.07, laminarBelow), 0.01, "FL 0.3")
	for _, fl := range []float64{0.4, 0.9, 1} {
		assert.InEpsilon(t, printed(fl, 1.5, below), printed(fl, 1.5, laminarBelow), 1e-12, "no drop at FL %v", fl)
	}
}

func TestReynoldsFactorJumpsBetweenTrims(t *testing.T) {
	v := viscousFactors(0.9, math.Sqrt(0.9))
	reducedN, _ := trimFactor(fullSizeRoot, false)
	fullN, _ := trimFactor(fullSizeRoot, true)
	reduced, _, _ := v.factor(10, reducedN)
	full, _, _ := v.factor(10, fullN)
	assert.InDelta(t, 0.2751, reduced, 5e-5)
	assert.InDelta(t, 0.2640, full, 5e-5)
}

func TestSettledFactorComesWithItsOwnFlow(t *testing.T) {
	for _, fl := range []float64{0.3, 0.6, 0.9, 1} {
		v := viscousFactors(fl, math.Sqrt(fl))
		for _, n := range []float64{1, 1.3, 2, 5, 9.07} {
			for rev := 1e-3; rev < 1e4; rev *= 1.1 {
				fr := v.settle(rev, n)
				again, _, _ := v.factor(fr*rev, n)
				assert.InEpsilon(t, fr, again, 4e-15, "FL %v, n %v, Rev %v", fl, n, rev)
			}
		}
	}
}

func TestElasticitiesAreTheDerivatives(t *testing.T) {
	c := Case{
		Liquid: Liquid{Density: 965.4, VapourPressure: units.Absolute(70100), Viscosity: 3e-3},
		Inlet:  units.Absolute(680000), Outlet: units.Absolute(220000),
		Valve:     Valve{Diameter: 0.08, FL: 0.9, Fd: 0.46},
		InletPipe: 0.1, OutletPipe: 0.09,
	}
	var l law
	l.prepare(&c)
	s := search{law: &l, viscous: viscousFactors(l.fl, math.Sqrt(l.fl)), q: 200, perQ: 1.0 / 200}
	for _, full := range []bool{false, true} {
		for _, root := range []float64{0.05, 0.1, 0.2, 0.3, 0.33, 0.36, 0.5} {
			const h = 1e-5
			up, _ := s.excess(root*math.Exp(h), full)
			down, _ := s.excess(root*math.Exp(-h), full)
			_, slope := s.excess(root, full)
			assert.InDelta(t, math.Log((1+up)/(1+down))/(2*h), slope, 1e-6, "root %v, full %v", root, full)
		}
	}
}
