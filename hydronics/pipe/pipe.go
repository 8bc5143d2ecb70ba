package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Config describes a run of round pipe of one size, with what is in it.
type Config struct {
	// Length of the run along its axis, above zero. A fitting without pipe is
	// not a Pipe: give it the pipe it sits in.
	Length units.Length

	// Bore is the inside diameter, above zero: [Size.Bore] of a table.
	Bore units.Length

	// Roughness ε of the wall, 0 … 0.05 of the bore: [Material.Roughness].
	Roughness units.Length

	// Losses is the sum of the loss coefficients of fittings and components,
	// by the velocity in this bore.
	Losses Loss

	// Density and Viscosity of the fluid at its mean temperature, above zero.
	Density   units.Density
	Viscosity units.DynamicViscosity
}

// A Pipe is the law between the flow through a run of pipe and its pressure
// loss,
//
//	Δp = (f·L/D + K + K₁/Re) · ρv²/2
//
// with the friction factor of [FrictionFactor] and the coefficients of [Loss]
// (Darcy–Weisbach; F. M. White, Fluid Mechanics, equations 6.10 for friction and
// 6.78 for losses, numbers from memory). It is a two-terminal law: odd, continuous and strictly
// rising through zero, with a continuous slope that is nowhere zero. NaN gives
// NaN; infinity, and all that is beyond [MaxReynolds], gives infinity.
//
// A Pipe is an immutable value; the zero Pipe is no pipe, its methods return
// zero or NaN.
type Pipe struct {
	config   Config
	friction friction
	perFlow  float64 // Re of a flow of 1 m³/s
	scale    float64 // Δp = scale·P(Re), P = φ + k·Re² + k1·Re
	k, k1    float64 // losses as friction numbers: K·D/L and K₁·D/L
	end      float64 // P at the end of the critical zone
}

// New checks cfg and makes the pipe; the error names every fault.
func New(cfg Config) (Pipe, error) {
	l := check.List{Package: "pipe"}
	check.Positive(&l, "Length", cfg.Length)
	if check.Positive(&l, "Bore", cfg.Bore) {
		check.Within(&l, "Roughness", cfg.Roughness, 0, MaxRelativeRoughness*cfg.Bore)
	}
	check.NotNegative(&l, "Losses.Constant", cfg.Losses.Constant)
	check.NotNegative(&l, "Losses.Laminar", cfg.Losses.Laminar)
	check.Positive(&l, "Density", cfg.Density)
	check.Positive(&l, "Viscosity", cfg.Viscosity)
	if err := l.Err(); err != nil {
		return Pipe{}, err
	}
	length, bore, rho := float64(cfg.Length), float64(cfg.Bore), float64(cfg.Density)
	nu := float64(cfg.Viscosity.Kinematic(cfg.Density))
	p := Pipe{
		config:   cfg,
		friction: newFriction(float64(cfg.Roughness) / bore),
		perFlow:  4 / (math.Pi * bore * nu),
		scale:    rho * nu * nu * length / (2 * bore * bore * bore),
		k:        cfg.Losses.Constant * bore / length,
		k1:       cfg.Losses.Laminar * bore / length,
	}
	p.end, _ = p.number(turbulentStart)
	return p, nil
}

// Config returns what the pipe was made from, to be changed and made again.
func (p Pipe) Config() Config { return p.config }

// Equal reports whether p and q are the same pipe.
func (p Pipe) Equal(q Pipe) bool { return p == q }

// Pressure returns the pressure loss Δp of a flow; a reverse flow has a negative
// one.
func (p Pipe) Pressure(q units.Flow) units.Pressure {
	number, _ := p.number(p.reynolds(q))
	return units.Pressure(math.Copysign(float64(p.scale*number), float64(q)))
}

// PressureSlope returns the derivative dΔp/dq of [Pipe.Pressure] in SI,
// Pa/(m³/s). It is above zero everywhere.
func (p Pipe) PressureSlope(q units.Flow) float64 {
	_, slope := p.number(p.reynolds(q))
	return p.scale * p.perFlow * slope
}

// PressureAndSlope returns [Pipe.Pressure] and [Pipe.PressureSlope] for the
// price of one.
func (p Pipe) PressureAndSlope(q units.Flow) (units.Pressure, float64) {
	number, slope := p.number(p.reynolds(q))
	dp := math.Copysign(float64(p.scale*number), float64(q))
	return units.Pressure(dp), p.scale * p.perFlow * slope
}

// number returns P(Re) = φ + k·Re² + k1·Re, which is Δp/scale, and dP/dRe.
func (p *Pipe) number(re float64) (number, slope float64) {
	phi, phiSlope := p.friction.at(re)
	if phi > math.MaxFloat64 {
		return phi, phiSlope // no loss of zero times infinity
	}
	number = phi + float64(re*(p.k1+float64(p.k*re)))
	slope = phiSlope + p.k1 + float64(2*p.k*re)
	return number, slope
}

func (p *Pipe) reynolds(q units.Flow) float64 { return math.Abs(float64(q)) * p.perFlow }

// Reynolds returns the Reynolds number v·D/ν, without a sign.
func (p Pipe) Reynolds(q units.Flow) float64 { return p.reynolds(q) }

// Velocity returns the mean velocity of a flow, with its sign.
func (p Pipe) Velocity(q units.Flow) units.Velocity {
	return q.Velocity(units.CircleArea(p.config.Bore))
}

// FrictionFactor returns the Darcy friction factor at a flow; +Inf at zero,
// where 64/Re has no bound. Beyond [MaxReynolds] it is that at MaxReynolds.
func (p Pipe) FrictionFactor(q units.Flow) float64 { return p.friction.factor(p.reynolds(q)) }

// Gradient returns the friction loss per length of straight pipe, without
// fittings, with the sign of the flow.
func (p Pipe) Gradient(q units.Flow) units.PressureGradient {
	phi, _ := p.friction.at(p.reynolds(q))
	loss := math.Copysign(float64(p.scale*phi), float64(q))
	return units.PressureGradient(loss / float64(p.config.Length))
}
