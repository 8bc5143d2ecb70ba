package valve

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
)

// TwoWayConfig describes a two-way control valve as its data sheet does. A
// field that is 0 is not stated, unless its comment asks for it.
type TwoWayConfig struct {
	Kvs units.FlowCoefficient // rated coefficient of the open valve; required

	Stem   Stem           // PushToClose is the zero value
	Stroke units.Length   // full stroke, 0.1 mm … 1 m; required unless rotary
	Angle  units.Angle    // full angle of a rotary valve, 1° … 360°; required if rotary
	Curve  Characteristic // inherent characteristic; required

	// Rangeability is the inherent rangeability Kvs/Kvr: the range within which
	// the curve is true to its law (IEC 60534-2-4). If stated, the closing
	// region ends at Kvr.
	Rangeability float64
	// ClosingTravel is the relative travel below which the curve runs straight
	// to the leakage, up to 0.5. If 0 it is [DefaultClosingTravel], or where
	// Kvr or twice the leakage is reached if that is more.
	ClosingTravel float64
	// Leakage is the coefficient of the shut valve as a share of Kvs, up to 10
	// %; see [LeakageClass.Share]. Less than [LeastLeakage] counts as that.
	Leakage units.Ratio

	MaxPressure units.Pressure // greatest pressure difference the valve is rated for
	SeatArea    units.Area     // on which the pressure acts against the stem
	SpringForce units.Force    // of the valve's own spring
	Density     units.Density  // at the valve; 0 is ReferenceDensity
}

// TwoWay is a two-way control valve: q = Kv(h)·√(Δp/1 bar · ρ0/ρ). It is an
// immutable value of one word, safe for concurrent use. The zero TwoWay is no
// valve: its numbers are NaN.
type TwoWay struct{ model *twoWay }

type twoWay struct {
	body
	k      float64 // K of q = K·√Δp, fully open
	config TwoWayConfig
}

var noTwoWay = twoWay{k: math.NaN(), body: body{closing: math.Inf(1), leakage: math.NaN()}}

// NewTwoWay makes a valve from its description, or reports every fault of it.
func NewTwoWay(cfg TwoWayConfig) (TwoWay, error) {
	l := check.List{Package: packageName}
	check.Positive(&l, "Kvs", cfg.Kvs)
	m := twoWay{body: newBody(&l, cfg.body()), config: cfg}
	if err := l.Err(); err != nil {
		return TwoWay{}, err
	}
	m.k = conductance(cfg.Kvs, densityOr(cfg.Density))
	return TwoWay{&m}, nil
}

func (c *TwoWayConfig) body() *bodyConfig {
	return &bodyConfig{curve: c.Curve, plainConfig: plainConfig{
		stroke: c.Stroke, angle: c.Angle, stem: c.Stem,
		closingTravel: c.ClosingTravel, rangeability: c.Rangeability, leakage: c.Leakage,
		seatArea: c.SeatArea, springForce: c.SpringForce, maxPressure: c.MaxPressure, density: c.Density,
	}}
}

func densityOr(rho units.Density) units.Density {
	if rho == 0 {
		return ReferenceDensity
	}
	return rho
}

func (v TwoWay) get() *twoWay {
	if v.model == nil {
		return &noTwoWay
	}
	return v.model
}

// Config returns the description the valve was made from.
func (v TwoWay) Config() TwoWayConfig { return v.get().config }

// Equal reports whether v and w were made from equal descriptions.
func (v TwoWay) Equal(w TwoWay) bool {
	if (v.model == nil) != (w.model == nil) {
		return false
	}
	a, b := &v.get().config, &w.get().config
	return v.model == w.model || a.Kvs == b.Kvs && a.body().equal(b.body())
}

// WithDensity returns the valve with a liquid of that density in it.
func (v TwoWay) WithDensity(rho units.Density) (TwoWay, error) {
	cfg := v.Config()
	cfg.Density = rho
	return NewTwoWay(cfg)
}

// Stem says how the closing element is moved.
func (v TwoWay) Stem() Stem { return v.get().config.Stem }

// Stroke returns the full stroke, 0 for a rotary valve.
func (v TwoWay) Stroke() units.Length { return v.get().config.Stroke }

// Angle returns the full angle, 0 for a valve with a stroke.
func (v TwoWay) Angle() units.Angle { return v.get().config.Angle }

// SeatArea returns the area the pressure acts on, 0 if not stated.
func (v TwoWay) SeatArea() units.Area { return v.get().config.SeatArea }

// SpringForce returns the force of the valve's own spring, 0 if not stated.
func (v TwoWay) SpringForce() units.Force { return v.get().config.SpringForce }

// MaxPressure returns the rated pressure difference, 0 if not stated.
func (v TwoWay) MaxPressure() units.Pressure { return v.get().config.MaxPressure }

// Density returns the density at the valve.
func (v TwoWay) Density() units.Density { return densityOr(v.get().config.Density) }

// Kvs returns the coefficient of the open valve.
func (v TwoWay) Kvs() units.FlowCoefficient { return v.get().config.Kvs }

// GreatestUsableTravel returns 1.
func (v TwoWay) GreatestUsableTravel() float64 { return 1 }

// RelativeCoefficient returns φ = Kv/Kvs at relative travel h: the law of the
// curve from the closing travel on, a straight line to the leakage below it. It
// is the leakage at 0 and 1 at 1, exactly, and clamps outside.
func (v TwoWay) RelativeCoefficient(h float64) float64 { return v.get().at(h) }

// Coefficient returns Kv at relative travel h: φ(h)·Kvs.
func (v TwoWay) Coefficient(h float64) units.FlowCoefficient {
	return units.FlowCoefficient(v.RelativeCoefficient(h)) * v.Kvs()
}

// TravelFor returns the relative travel of a relative coefficient: 0 for the
// leakage and less, 1 for 1 and more.
func (v TwoWay) TravelFor(phi float64) float64 { return v.get().inverse(phi) }

// Flow returns q at relative travel h and pressure difference dp. Below 1 Pa the
// law is laminar, so that it has a slope at zero.
func (v TwoWay) Flow(h float64, dp units.Pressure) units.Flow {
	_, q := v.CoefficientAndFlow(h, dp)
	return q
}

// CoefficientAndFlow returns what RelativeCoefficient and Flow do, in the time of
// one of them.
func (v TwoWay) CoefficientAndFlow(h float64, dp units.Pressure) (float64, units.Flow) {
	m := v.get()
	phi := m.at(h)
	return phi, units.Flow(sqrtlaw.Flow(m.k*phi, float64(dp)))
}

// GreatestFlow returns the flow of the open valve at dp.
func (v TwoWay) GreatestFlow(dp units.Pressure) units.Flow { return v.Flow(1, dp) }

// Pressure returns the pressure difference of a flow at relative travel h.
func (v TwoWay) Pressure(h float64, q units.Flow) units.Pressure {
	m := v.get()
	return units.Pressure(sqrtlaw.Pressure(m.k*m.at(h), float64(q)))
}

// Slope returns dq/dΔp at relative travel h, in m³/(s·Pa).
func (v TwoWay) Slope(h float64, dp units.Pressure) float64 {
	m := v.get()
	return sqrtlaw.Slope(m.k*m.at(h), float64(dp))
}

// TravelForFlow returns the relative travel at which the valve passes q at dp;
// 0 if q is no more than its leakage. The error is an [UnreachableError].
func (v TwoWay) TravelForFlow(q units.Flow, dp units.Pressure) (float64, error) {
	phi, err := share(q, v.GreatestFlow(dp))
	if err != nil {
		return 0, err
	}
	return v.TravelFor(phi), nil
}

// rounding is by how much, relatively, a flow may exceed the greatest one and
// still count as that: what conversions of units lose.
const rounding = 1e-12

// share returns q as a share of the greatest flow, 0 … 1.
func share(q, greatest units.Flow) (float64, error) {
	if q == 0 {
		return 0, nil
	}
	x := float64(q / greatest)
	if !(x >= 0 && x <= 1+rounding) {
		return 0, &UnreachableError{Wanted: q, Greatest: greatest}
	}
	return min(x, 1), nil
}
