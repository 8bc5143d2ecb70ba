package schedule

import (
	"math"

	"github.com/indexrun/indexrun/hydronics/fluid"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
	"github.com/indexrun/indexrun/valve/noise"
	"github.com/indexrun/indexrun/valve/sizing"
)

const (
	// FastestConnection is the velocity in a valve's connection that is still
	// quiet and does not erode (common practice, no published source).
	FastestConnection = 2 * units.MetrePerSecond

	// leastFactor is the Reynolds factor that goes without saying: less than the
	// tolerance of a coefficient.
	leastFactor = 0.90

	// quietPower is the product of flow and pressure drop below which a valve that
	// does not cavitate stays below quietLevel (a test asserts it), so that its
	// noise need not be worked out for a limit above that.
	quietPower units.Power = 20
	quietLevel SoundLevel  = 40

	// usualWall is the wall of the pipe behind the valve that noise passes through:
	// that of steel pipe of small bore, EN 10255 (from memory).
	usualWall = 2.6 * units.Millimetre
)

// sizingValve is the valve as IEC 60534-2-1 sees it.
func (v *ValveModel) sizingValve() sizing.Valve {
	style := sizing.GlobeContouredOpening
	if v.Stem == valve.Rotary {
		style = sizing.BallSegmented
	}
	typical := style.Valve(v.Connection)
	if v.FL > 0 {
		typical.FL = v.FL
	}
	if v.Fd > 0 {
		typical.Fd = v.Fd
	}
	typical.XFz = v.XFz
	return typical
}

// sizingCase is the valve with a liquid between two pressures.
func (v *ValveModel) sizingCase(inlet units.AbsolutePressure, drop units.Pressure, liquid *fluid.State) sizing.Case {
	drop = min(drop, inlet.AboveVacuum()-units.Pascal) // no pressure is below vacuum
	return sizing.Case{
		Liquid: sizing.Liquid{
			Density: liquid.Density(), VapourPressure: liquid.VapourPressure(), Viscosity: liquid.KinematicViscosity(),
		},
		Inlet: inlet, Outlet: inlet.Add(-drop), Valve: v.sizingValve(),
	}
}

// reynoldsFactor is FR of a coefficient at a flow, by IEC 60534-2-1. It depends on
// these and the viscosity only, so that the inlet pressure is one at which nothing
// chokes; the drop at which the standard's equations give the flow is found by a
// secant on the logarithms, where flow is nearly a power of the drop.
func (v *ValveModel) reynoldsFactor(kv units.FlowCoefficient, flow units.Flow, liquid *fluid.State) float64 {
	if v.Connection == 0 {
		return 1
	}
	drop := valve.PressureDrop(kv, flow, liquid.Density())
	lastDrop, lastMiss := units.Pressure(0), 0.0
	exponent := turbulentExponent
	for range reynoldsSteps {
		inlet := liquid.VapourPressure().Add(100 * drop)
		r, err := sizing.Flow(kv, v.sizingCase(inlet, drop, liquid))
		if err != nil {
			return 1 // a coefficient or a flow beyond sense: found elsewhere
		}
		miss := math.Log(float64(r.Flow / flow))
		if math.Abs(miss) < 1e-14 || r.FR == 1 {
			return r.FR
		}
		if lastDrop > 0 && miss != lastMiss {
			exponent = (miss - lastMiss) / math.Log(float64(drop/lastDrop))
		}
		lastDrop, lastMiss = drop, miss
		drop *= units.Pressure(math.Exp(-miss / exponent))
	}
	return float64(valve.CoefficientFor(flow, drop, liquid.Density()) / kv)
}

const (
	// turbulentExponent is that of the drop in the flow; it is 1 in laminar flow.
	turbulentExponent = 0.5
	// reynoldsSteps bounds the secant, which takes five steps as a rule.
	reynoldsSteps = 20
)

// judgeConnection finds a velocity that is too high.
func (v *ValveModel) judgeConnection(n *need, found *findings) {
	if v.Connection == 0 {
		return
	}
	if speed := n.flow.Velocity(units.CircleArea(v.Connection)); speed > FastestConnection {
		found.addScaled(FastConnection, velocityOf(speed), velocityOf(FastestConnection), float64(speed/FastestConnection))
	}
}

// judgeCavitation compares the greatest pressure ratio, that of the throttled valve
// with the whole pressure over it, with the one at which cavitation begins. Of a
// change-over unit's two liquids it takes the one that boils sooner.
func (v *ValveModel) judgeCavitation(n *need, fit *valveFit, found *findings) {
	if fit.quiet = true; n.row.StaticPressure.IsZero() || v.Connection == 0 || !(fit.needs > 0) {
		return
	}
	kv := valve.CoefficientFor(n.flow, fit.drop(v, n), n.density)
	c, err := sizing.CavitationAt(kv, v.sizingCase(n.row.StaticPressure, n.total, &n.volatile))
	if err == nil && c.State != sizing.NotCavitating {
		fit.quiet = false
		found.addScaled(Cavitation, shareOf(c.XF), shareOf(c.XF*c.Margin), 1/c.Margin)
	}
}

// drop is the pressure over the open valve at design flow: a pressure-independent
// valve takes all there is, a two-way valve what its coefficient takes.
func (fit *valveFit) drop(v *ValveModel, n *need) units.Pressure {
	if v.Kind.independent() {
		return max(n.has, fit.needs)
	}
	return fit.needs
}

// judgeNoise works out the noise at design flow, for the chosen valve only, and where
// the static pressure is known, on which noise depends as much.
func (v *ValveModel) judgeNoise(n *need, fit *valveFit, found *findings) {
	drop := fit.drop(v, n)
	if v.Connection == 0 || n.row.StaticPressure.IsZero() || !(drop > 0) || fit.quiet && drop.Power(n.flow) < quietPower && n.noiseLimit() >= quietLevel {
		return
	}
	c := v.sizingCase(n.row.StaticPressure, drop, &n.liquid)
	c.InletPipe, c.OutletPipe = v.Connection, v.Connection
	level, err := noise.Predict(noise.Config{
		Case: c, Kv: valve.CoefficientFor(n.flow, drop, n.density), Flow: n.flow, Pipe: noise.Pipe{Wall: usualWall},
	})
	if err != nil {
		return // flashing, which has no law of noise: found as cavitation
	}
	// Deep in cavitation the method's level falls again: more pressure counts no less.
	if limit := n.noiseLimit(); SoundLevel(level.GreatestLevel) > limit {
		found.add(Noise, levelOf(SoundLevel(level.GreatestLevel)), levelOf(limit))
	}
}

func (n *need) noiseLimit() SoundLevel {
	if n.row.NoiseLimit > 0 {
		return n.row.NoiseLimit
	}
	return DefaultNoiseLimit
}
