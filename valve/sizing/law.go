package sizing

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// law is a case in the units of the standard's constants: m³/h, bar, mm. Flows
// and coefficients are called q and c, the standard's letters.
type law struct {
	ff, fl float64
	room   units.Pressure // p1 − FF·pv
	free   float64        // Δp·ρ0/ρ: c·√free is the flow without fittings, choking and viscosity
	choke  float64        // FL²·(p1 − FF·pv)·ρ0/ρ: c·√choke is the choked flow without fittings
	bare   float64        // √ of the lesser: c·bare is the flow without viscosity if there are no fittings

	reducers bool
	through  float64 // Σζ/(N2·d⁴): FP = 1/√(1 + through·c²)
	inlet    float64 // FL²·(ζ1+ζB1)/(N2·d⁴): FLP = FL/√(1 + inlet·c²)

	area     float64 // d²
	rootFL   float64 // √FL
	velocity float64 // Rev = velocity·q·(bend + 1/c²)^¼
	bend     float64 // FL²/(N2·D1⁴)
}

// prepare sets l to a valid case.
func (l *law) prepare(c *Case) {
	pv, fl := c.Liquid.VapourPressure, c.Valve.FL
	d := c.Valve.Diameter.In(units.Millimetre)
	perBar := referenceDensity / (float64(c.Liquid.Density) * float64(units.Bar))
	l.ff, l.fl = criticalPressureRatioFactor(pv, c.Liquid.criticalPressure()), fl
	l.room = c.Inlet.AboveVacuum() - units.Pressure(l.ff*float64(pv.AboveVacuum()))
	l.free = float64(c.Inlet.Sub(c.Outlet)) * perBar
	l.choke = fl * fl * float64(l.room) * perBar
	l.area = d * d
	l.rootFL = math.Sqrt(fl)
	l.velocity = n4 * c.Valve.Fd / (float64(c.Liquid.Viscosity) * l.rootFL)
	perHead := 1 / (n2 * l.area * l.area)
	l.bend = fl * fl * perHead
	l.reducers = c.InletPipe > 0 || c.OutletPipe > 0
	if l.reducers {
		l.addReducers(c, perHead)
	} else {
		l.bare = math.Sqrt(lesser(l.free, l.choke))
	}
}

// criticalPressureRatioFactor returns FF = 0.96 − 0.28·√(pv/pc), IEC
// 60534-2-1:2011, 6.2, equation (4) (from memory): the pressure in the vena contracta
// of a choked valve over pv.
func criticalPressureRatioFactor(pv, pc units.AbsolutePressure) float64 {
	return 0.96 - float64(0.28*math.Sqrt(float64(pv.AboveVacuum()/pc.AboveVacuum())))
}

// capacity returns the turbulent flow of a Kv, choking and fittings included, and its
// elasticity d(ln q)/d(ln c):
//
//	q = c·min(FP·√(Δp·ρ0/ρ), FLP·√((p1 − FF·pv)·ρ0/ρ))
//
// which is equations (1) to (3) of IEC 60534-2-1:2011, 6.1 and 6.2 (from memory), in
// one line, since FP²·Δp_choked is FLP²·(p1 − FF·pv). Both sides of min rise with c.
func (l *law) capacity(c float64) (q, slope float64) {
	if !l.reducers {
		return c * l.bare, 1
	}
	drive, head := l.governing(c)
	return c * math.Sqrt(drive/head), 1 / head
}

// governing returns free or choke, whichever lets less through between reducers, and
// its part of heads.
func (l *law) governing(c float64) (drive, head float64) {
	through, inlet := l.heads(c)
	if through > 0 && l.free*inlet < l.choke*through {
		return l.free, through
	}
	return l.choke, inlet
}

// heads returns 1/FP² and (FL/FLP)². The first is not above zero beyond the
// Kv at which an outlet expander would regain more than there is.
func (l *law) heads(c float64) (through, inlet float64) {
	return 1 + float64(l.through*c*c), 1 + float64(l.inlet*c*c)
}

// turbulentKv is the inverse of capacity, and where the standard's iteration of
// turbulent sizing ends. ok is false if no Kv passes q between these reducers.
func (l *law) turbulentKv(q float64) (c float64, ok bool) {
	if !l.reducers {
		return q / l.bare, true
	}
	square := q * q
	rest := lesser(l.free-float64(l.through*square), l.choke-float64(l.inlet*square))
	if !(rest > 0) {
		return 0, false
	}
	c = q / math.Sqrt(rest)
	head, _ := l.heads(c)
	return c, head > 0
}

// lesser is min with a branch, which mostly goes one way, and so does not wait for
// choking, which is seldom.
func lesser(a, b float64) float64 {
	if b < a {
		return b
	}
	return a
}

// greatestCapacity returns the limit of what capacity can give at any Kv: +Inf
// without reducers.
func (l *law) greatestCapacity() float64 {
	if l.through < 0 {
		return math.Sqrt(l.choke / (l.inlet - l.through))
	}
	return math.Sqrt(min(l.free/l.through, l.choke/l.inlet))
}
