package valve

import (
	"math"

	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
)

const (
	// DefaultProportionalBand is the band of a valve that does not state one:
	// just enough for a flow that still rises with the pressure.
	DefaultProportionalBand units.Ratio = 0.001

	// unstatedRange is the range of pressure that the band spans where no
	// greatest pressure is stated (common practice, no published source).
	unstatedRange = 400 * units.Kilopascal
)

// PressureIndependentConfig describes a pressure-independent control valve as
// its data sheet does. A field that is 0 is not stated, unless its comment asks
// for it.
type PressureIndependentConfig struct {
	// Settings is the table of the dial, marks and flows rising; required. One
	// row is a valve of fixed flow.
	Settings []Setting
	// SettingKind tells whether a setting narrows the orifice or shortens the
	// lift.
	SettingKind SettingKind
	// MinPressureShare is the share of a setting's flow that passes at its
	// MinPressure, 0.5 … 1; 0 is 1.
	MinPressureShare units.Ratio
	// ProportionalBand is by how much the flow of the open valve rises from its
	// least pressure to MaxPressure (or over 400 kPa if that is not stated), as
	// a share of the flow of the setting; up to 0.5; 0 is
	// DefaultProportionalBand. Real regulators can also let the flow fall with
	// pressure; that is refused, since a network of such valves need not have a
	// single steady state.
	ProportionalBand units.Ratio

	Stem   Stem           // PushToClose is the zero value
	Stroke units.Length   // full stroke, 0.1 mm … 1 m; required unless rotary
	Angle  units.Angle    // full angle of a rotary valve, 1° … 360°; required if rotary
	Curve  Characteristic // inherent characteristic at the highest setting; required

	// Rangeability is the inherent rangeability Kvs/Kvr, as in [TwoWayConfig].
	Rangeability float64
	// ClosingTravel is the relative travel below which the curve runs straight
	// to the leakage, as in [TwoWayConfig].
	ClosingTravel float64
	// Leakage is the coefficient of the shut orifice as a share of the open
	// one, as in [TwoWayConfig]: of the open one at the same setting if
	// settings are area-limiting, at the highest setting if they are
	// lift-limiting.
	Leakage units.Ratio

	MaxPressure units.Pressure // greatest pressure difference the valve is rated for
	SeatArea    units.Area     // on which the pressure acts against the stem
	SpringForce units.Force    // of the valve's own spring
	Density     units.Density  // at the valve; 0 is ReferenceDensity
}

// PressureIndependent is a pressure-independent control valve at one setting of
// its dial. It is an immutable value of one word, safe for concurrent use; the
// With methods return another one. The zero PressureIndependent is no valve:
// its numbers are NaN.
//
// # Law
//
// With q_s the flow of the setting, φ the relative coefficient at the travel and
// q = φ·q_s, the valve regulates above p(φ) = p_c + (p_s − p_c)·φ², which is
// p_c + (q/Kv_r)²: p_c across the orifice, the rest across the wide-open
// regulator. p_s is the least pressure for the whole flow of the setting,
// MinPressure/share²; it is kept as the table has it, whatever the fit of
// [Regulator] makes of the table. Then
//
//	Δp ≥ p(φ):  q = φ·q_s·(1 + g·(Δp − p(φ))),  g = band/(MaxPressure − p_s)
//	Δp < p(φ):  q = φ·q_s·√(Δp/p(φ)): orifice and wide-open regulator in series
//
// with a kink in the slope at p(φ), and the second line backwards too. Below 1
// Pa the second line is laminar. The hysteresis of real regulators, by which
// the flow also depends on where the pressure came from, is not part of the
// law: it counts as a tolerance.
type PressureIndependent struct{ model *pressureIndependent }

type pressureIndependent struct {
	body            // of the whole stroke
	limit   float64 // greatest usable travel
	scale   float64 // 1/φ of the whole stroke there
	flow    float64 // q_s at the density
	control float64 // p_c
	excess  float64 // p_s − p_c
	drift   float64 // g
	setting Setting // with the flow of ReferenceDensity
	density units.Density
	sheet   *sheet
}

var noPressureIndependent = pressureIndependent{
	body: noTwoWay.body, limit: math.Inf(1), scale: math.NaN(),
	flow: math.NaN(), control: math.NaN(), excess: math.NaN(), drift: math.NaN(),
	setting: Setting{Mark: math.NaN(), Flow: units.Flow(math.NaN()), MinPressure: units.Pressure(math.NaN())},
	density: units.Density(math.NaN()), sheet: &sheet{},
}

// NewPressureIndependent makes a valve from its description, at its highest
// setting, or reports every fault of the description.
func NewPressureIndependent(cfg PressureIndependentConfig) (PressureIndependent, error) {
	sh, err := newSheet(cfg)
	if err != nil {
		return PressureIndependent{}, err
	}
	return sh.at(sh.config.Settings[len(sh.config.Settings)-1], densityOr(cfg.Density)), nil
}

func (v PressureIndependent) get() *pressureIndependent {
	if v.model == nil {
		return &noPressureIndependent
	}
	return v.model
}

// relative returns φ at relative travel h.
func (m *pressureIndependent) relative(h float64) float64 {
	if h >= m.limit {
		return 1
	}
	return m.body.at(h) * m.scale
}

// onset returns p(φ), the least pressure for the whole regulated flow.
func (m *pressureIndependent) onset(phi float64) float64 {
	return m.control + float64(m.excess*phi*phi)
}

// Stem says how the closing element is moved.
func (v PressureIndependent) Stem() Stem { return v.get().sheet.config.Stem }

// Stroke returns the full stroke, 0 for a rotary valve.
func (v PressureIndependent) Stroke() units.Length { return v.get().sheet.config.Stroke }

// Angle returns the full angle, 0 for a valve with a stroke.
func (v PressureIndependent) Angle() units.Angle { return v.get().sheet.config.Angle }

// SeatArea returns the area the pressure acts on, 0 if not stated.
func (v PressureIndependent) SeatArea() units.Area { return v.get().sheet.config.SeatArea }

// SpringForce returns the force of the valve's own spring, 0 if not stated.
func (v PressureIndependent) SpringForce() units.Force { return v.get().sheet.config.SpringForce }

// MaxPressure returns the rated pressure difference, 0 if not stated.
func (v PressureIndependent) MaxPressure() units.Pressure { return v.get().sheet.config.MaxPressure }

// Density returns the density at the valve.
func (v PressureIndependent) Density() units.Density { return v.get().density }

// GreatestUsableTravel returns the relative travel at which the setting stops
// the stem: 1 unless the settings are lift-limiting.
func (v PressureIndependent) GreatestUsableTravel() float64 { return min(v.get().limit, 1) }

// RelativeCoefficient returns φ at relative travel h of the full stroke: the
// share of the orifice's coefficient at the greatest usable travel of this
// setting, and so the share of [PressureIndependent.SetFlow] that is regulated.
// It is the leakage at 0, and exactly 1 from the greatest usable travel on.
func (v PressureIndependent) RelativeCoefficient(h float64) float64 { return v.get().relative(h) }

// TravelFor returns the relative travel of a relative coefficient: 0 for the
// leakage and less, the greatest usable travel for 1 and more.
func (v PressureIndependent) TravelFor(phi float64) float64 {
	m := v.get()
	if phi >= 1 {
		return m.limit
	}
	return min(m.inverse(phi/m.scale), m.limit)
}

// Flow returns q at relative travel h and pressure difference dp across the
// valve, by the law in the comment of the type.
func (v PressureIndependent) Flow(h float64, dp units.Pressure) units.Flow {
	_, q := v.CoefficientAndFlow(h, dp)
	return q
}

// CoefficientAndFlow returns what RelativeCoefficient and Flow do, in the time of
// one of them.
func (v PressureIndependent) CoefficientAndFlow(h float64, dp units.Pressure) (float64, units.Flow) {
	m := v.get()
	phi, ok := m.onLine(h)
	if phi *= m.scale; !ok || h >= m.limit {
		phi = m.relative(h)
	}
	q := phi * m.flow
	onset := m.onset(phi)
	switch over := float64(dp) - onset; {
	case over >= 0:
		return phi, units.Flow(q + float64(q*float64(m.drift*over)))
	case dp >= sqrtlaw.Floor:
		return phi, units.Flow(q * math.Sqrt(float64(dp)/onset))
	}
	return phi, units.Flow(sqrtlaw.Flow(q/math.Sqrt(onset), float64(dp)))
}

// GreatestFlow returns the flow of the open valve at dp.
func (v PressureIndependent) GreatestFlow(dp units.Pressure) units.Flow { return v.Flow(1, dp) }

// Pressure returns the pressure difference of a flow at relative travel h.
// Above the regulated flow the law is so flat that a relative rounding error of
// q of 1e-16 moves the pressure by 1e-16/band of its range.
func (v PressureIndependent) Pressure(h float64, q units.Flow) units.Pressure {
	m := v.get()
	phi := m.relative(h)
	regulated := phi * m.flow
	onset := m.onset(phi)
	if float64(q) > regulated {
		return units.Pressure(onset + (float64(q)-regulated)/regulated/m.drift)
	}
	return units.Pressure(sqrtlaw.Pressure(regulated/math.Sqrt(onset), float64(q)))
}

// Slope returns dq/dΔp at relative travel h, in m³/(s·Pa); at the kink it is
// that of the regulated side.
func (v PressureIndependent) Slope(h float64, dp units.Pressure) float64 {
	m := v.get()
	phi := m.relative(h)
	q := phi * m.flow
	onset := m.onset(phi)
	if float64(dp) >= onset {
		return q * m.drift
	}
	return sqrtlaw.Slope(q/math.Sqrt(onset), float64(dp))
}

// Regime says what the regulator does at relative travel h and pressure
// difference dp. Starved is below the least pressure as the settings table
// defines it: less than MinPressureShare of the regulated flow passes.
func (v PressureIndependent) Regime(h float64, dp units.Pressure) Regime {
	m := v.get()
	share := m.sheet.share()
	least := share * share * m.onset(m.relative(h))
	greatest := float64(v.MaxPressure())
	switch {
	case dp < 0:
		return Reversed
	case greatest > 0 && float64(dp) > greatest:
		return AboveLimit
	case float64(dp) < least:
		return Starved
	case float64(dp) >= least:
		return Regulated
	}
	return UnknownRegime
}

// TravelForFlow returns the relative travel at which the valve passes q at dp,
// 0 if q is no more than its leakage. The error is an [UnreachableError].
func (v PressureIndependent) TravelForFlow(q units.Flow, dp units.Pressure) (float64, error) {
	m := v.get()
	of, err := share(q, v.GreatestFlow(dp))
	switch {
	case err != nil:
		return 0, err
	case of == 1:
		return m.limit, nil
	}
	return v.TravelFor(m.coefficientFor(float64(q), float64(dp))), nil
}

// coefficientFor returns the φ at which q passes at dp: the inverse of the law
// over the travel, for a flow between nothing and the greatest.
func (m *pressureIndependent) coefficientFor(q, dp float64) float64 {
	over := dp - m.control
	if over >= 0 {
		// Up to φ = starving the valve regulates, and there it passes that
		// share.
		starving := math.Sqrt(over / m.excess)
		if r := q / m.flow; !(r > starving) {
			return cubic(r, 1+m.drift*over, m.drift*m.excess)
		}
	}
	w := q / sqrtlaw.Flow(m.flow, dp)
	return math.Sqrt(w * w * m.control / (1 - w*w*m.excess))
}

// cubic returns the φ at which φ·(a − b·φ²) = r, where that rises; Newton's
// method from below, where the law is concave, so that it never oversteps the
// root.
func cubic(r, a, b float64) float64 {
	phi := r / a
	for range 50 {
		next := phi + (r-phi*(a-b*phi*phi))/(a-3*b*phi*phi)
		if !(next > phi) {
			break
		}
		phi = next
	}
	return phi
}
