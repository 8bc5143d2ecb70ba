package terminal

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// CoilConfig describes a water-to-air coil by its design point.
type CoilConfig struct {
	Heat   units.Power  // at design, above zero for cooling too; required
	Design Temperatures // Air is that of the air entering; required

	// AirFlow is the volume flow of air at AirDensity, which stays constant.
	// Either it or LeavingAir is required.
	AirFlow    units.Flow
	AirDensity units.Density     // 0 is StandardAirDensity
	LeavingAir units.Temperature // of the air behind the coil at design

	Arrangement Arrangement // zero is CounterFlow
	// WaterShare is the share of the whole thermal resistance that the water
	// side has at design, 0 … 95 %, the rest being the wall, the fins and the
	// air. 0 is a conductance that does not change with the flow. Finned coils
	// have 10 to 35 % (common practice, no published source).
	WaterShare units.Ratio
	// LaminarFloor is the least coefficient on the water side as a share of that
	// at design; 0 is DefaultLaminarFloor.
	LaminarFloor units.Ratio

	Fluid    fluid.Fluid            // zero is water
	Pressure units.AbsolutePressure // of the water; zero is 300 kPa abs
}

// Coil is a heating coil, or a cooling coil on which nothing condenses, at
// constant air flow. The conductance is found from the design point, by
// [Arrangement.Conductance]; at other flows the water's part follows
//
//	1/UA = (1 − r)/UAd + r/UAd/max((q/qd)^0.8, floor)
//
// with r the water's share at design (series resistances, and the law of Dittus
// and Boelter while the flow is turbulent: Incropera, "Fundamentals of Heat and
// Mass Transfer", chapters 8 and 11). The floor stands for laminar flow; the
// dip that real coils show between the two, at Re 2300 to 4000, is not in the
// model, and the heat has a kink in its slope where the floor begins.
//
// A cooling coil whose surface lies below the dew point of the air needs a
// [WetCoil]: this model would give it too little heat. The zero Coil is none: its
// numbers are NaN.
type Coil struct{ handle }

// NewCoil checks the configuration and returns the coil.
func NewCoil(c CoilConfig) (Coil, error) {
	l := check.List{Package: packageName}
	check.Positive(&l, "Heat", c.Heat)
	design := c.Design.check(&l, "Design")
	check.Enum(&l, "Arrangement", c.Arrangement, CrossFlowMixed)
	side := newWaterSide(&l, c.WaterShare, c.LaminarFloor)
	if design {
		c.checkAir(&l)
	}
	properties := newLiquid(&l, c.Fluid, c.Pressure, c.Design, "Design")
	if err := l.Err(); err != nil {
		return Coil{}, err
	}
	flow := float64(c.Heat) / (properties.capacity() * c.Design.spread())
	side.per = 1 / flow
	m := model{kind: sensible, liquid: properties, exchanger: exchanger{
		arrangement: c.Arrangement, air: c.airCapacity(), resistance: c.resistance(&l), side: side,
	}}
	m.settle(flow, c.Design, Conditions{Supply: c.Design.Supply, Air: c.Design.Air})
	return Coil{newHandle(m, l.Err())}, l.Err()
}

func (c *CoilConfig) checkAir(l *check.List) {
	if c.LeavingAir.IsZero() {
		l.Require(c.AirFlow > 0 && c.AirFlow <= math.MaxFloat64, "AirFlow", c.AirFlow, "a finite value above zero, or LeavingAir")
		check.Within(l, "AirDensity", c.AirDensity, 0, mostAirDensity)
		return
	}
	l.Require(c.AirFlow == 0, "AirFlow", c.AirFlow, "none where LeavingAir is given")
	supply, _ := c.Design.ends()
	change := c.Design.direction() * float64(c.LeavingAir.Sub(c.Design.Air))
	l.Require(change > 0 && change < supply, "LeavingAir", c.LeavingAir, "between entering air and supply")
}

// airCapacity is ṁ·cp of the air in W/K.
func (c *CoilConfig) airCapacity() float64 {
	if c.LeavingAir.IsZero() {
		return airMass(c.AirFlow, c.AirDensity) * dryAirHeat
	}
	return float64(c.Heat) / math.Abs(float64(c.LeavingAir.Sub(c.Design.Air)))
}

// resistance is 1/UA at design in K/W; a fault if the arrangement cannot give
// the heat.
func (c *CoilConfig) resistance(l *check.List) float64 {
	water, air := float64(c.Heat)/c.Design.spread(), c.airCapacity()
	excess, _ := c.Design.ends()
	ideal := min(water, air) * excess
	ua, most := c.Arrangement.conductance(float64(c.Heat)/ideal, water, air)
	l.Require(ua > 0, "Heat", c.Heat, "less than "+units.Power(most*ideal).String()+
		", the most of "+c.Arrangement.String()+" at these temperatures and this air flow")
	return 1 / ua
}

// Equal reports whether c and d are the same coil at the same design.
func (c Coil) Equal(d Coil) bool { return c.equal(d.handle) }
