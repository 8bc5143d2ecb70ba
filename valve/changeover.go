package valve

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/sqrtlaw"
	"github.com/indexrun/indexrun/units"
)

// SideConfig describes one circuit of a change-over valve. A field that is 0 is
// not stated, unless its comment asks for it.
type SideConfig struct {
	// Kvs is the coefficient of the circuit fully open: that of its supply
	// passage and its return passage in series, as the terminal unit sees them;
	// required.
	Kvs units.FlowCoefficient
	// Opening is the part of the rotation over which the circuit goes from open
	// to shut; required.
	Opening units.Angle
	// Curve is the inherent characteristic over the circuit's own opening, from
	// 0 shut to 1 open; required.
	Curve Characteristic
	// Rangeability is the inherent rangeability, as in [TwoWayConfig].
	Rangeability float64
	// ClosingTravel is the opening below which the curve runs straight to the
	// leakage, as in [TwoWayConfig].
	ClosingTravel float64
	// Leakage is the coefficient of the shut circuit as a share of its Kvs, as in
	// [TwoWayConfig].
	Leakage units.Ratio
}

// ChangeOverConfig describes a change-over valve as its data sheet does.
type ChangeOverConfig struct {
	Angle  units.Angle // whole rotation, 1° … 360°; required
	First  SideConfig  // circuit that is open at the start of the rotation
	Second SideConfig  // circuit that is open at its end
	// CrossLeakage is the coefficient of the way from one circuit into the other
	// as a share of the greater Kvs, up to 10 %; it is taken to be the same at
	// every position. Less than [LeastLeakage] counts as that.
	CrossLeakage units.Ratio

	MaxPressure units.Pressure // greatest pressure difference the valve is rated for
	Density     units.Density  // at the valve; 0 is ReferenceDensity
}

// ChangeOver is a valve with one rotary actuator for two circuits, such as a
// six-port ball valve: it connects a terminal unit with one coil to the heating
// or to the cooling pipes of a four-pipe system, or to neither; the other way round
// it hands the water of a two-pipe system to one of the two coils of a unit. Its
// rotation is a share of its whole angle:
//
//	0 … o1       the first circuit goes from open to shut
//	o1 … 1−o2    closed middle
//	1−o2 … 1     the second circuit goes from shut to open
//
// with o the Opening of each circuit over the whole angle (a trade shape; common
// practice, no published source). The usual sequence is heating first, closed
// middle, cooling. An actuator mounted on the whole angle has the rotation as its
// relative travel: 0 is its closed end, and its shaping should be linear, since
// each circuit has its own curve.
//
// In the closed middle the unit is shut off on both sides. Liquid that warms up
// there expands: the valve, or the unit, needs a way to relieve the pressure.
//
// It is an immutable value of one word, safe for concurrent use. The zero
// ChangeOver is no valve: its numbers are NaN.
type ChangeOver struct{ model *changeOver }

type changeOver struct {
	first, second TwoWay
	spanOne       float64 // opening of the first circuit over the whole angle
	spanTwo       float64 // of the second
	cross         float64 // K of the way across, q = K·√Δp
	config        ChangeOverConfig
}

var noChangeOver = changeOver{spanOne: math.NaN(), spanTwo: math.NaN(), cross: math.NaN()}

// NewChangeOver makes a valve from its description, or reports every fault of it.
func NewChangeOver(cfg ChangeOverConfig) (ChangeOver, error) {
	l := check.List{Package: packageName}
	check.Within(&l, "Angle", cfg.Angle, units.Degree, 360*units.Degree)
	first, err := NewTwoWay(cfg.side(&cfg.First))
	addPartFaults(&l, "First", true, err)
	second, err := NewTwoWay(cfg.side(&cfg.Second))
	addPartFaults(&l, "Second", false, err)
	if sum := cfg.First.Opening + cfg.Second.Opening; sum >= cfg.Angle {
		l.Fault("Angle", cfg.Angle, "more than both openings together, "+sum.String()+", which leaves a closed middle")
	}
	check.Within(&l, "CrossLeakage", cfg.CrossLeakage, 0, 0.1)
	if err := l.Err(); err != nil {
		return ChangeOver{}, err
	}
	across := max(cfg.First.Kvs, cfg.Second.Kvs) * units.FlowCoefficient(max(cfg.CrossLeakage, LeastLeakage))
	return ChangeOver{&changeOver{
		first: first, second: second,
		spanOne: float64(cfg.First.Opening / cfg.Angle), spanTwo: float64(cfg.Second.Opening / cfg.Angle),
		cross: conductance(across, densityOr(cfg.Density)), config: cfg,
	}}, nil
}

// side is a circuit as a two-way valve.
func (c *ChangeOverConfig) side(s *SideConfig) TwoWayConfig {
	return TwoWayConfig{
		Kvs: s.Kvs, Curve: s.Curve, Rangeability: s.Rangeability, ClosingTravel: s.ClosingTravel,
		Leakage: s.Leakage, Stem: Rotary, Angle: s.Opening, MaxPressure: c.MaxPressure, Density: c.Density,
	}
}

func (v ChangeOver) get() *changeOver {
	if v.model == nil {
		return &noChangeOver
	}
	return v.model
}

// Config returns the description the valve was made from.
func (v ChangeOver) Config() ChangeOverConfig { return v.get().config }

// Equal reports whether v and w were made from equal descriptions.
func (v ChangeOver) Equal(w ChangeOver) bool {
	if (v.model == nil) != (w.model == nil) {
		return false
	}
	a, b := v.get(), w.get()
	return a == b || a.first.Equal(b.first) && a.second.Equal(b.second) &&
		a.config.Angle == b.config.Angle && a.config.CrossLeakage == b.config.CrossLeakage
}

// WithDensity returns the valve with a liquid of that density in it.
func (v ChangeOver) WithDensity(rho units.Density) (ChangeOver, error) {
	cfg := v.Config()
	cfg.Density = rho
	return NewChangeOver(cfg)
}

// Angle returns the whole rotation.
func (v ChangeOver) Angle() units.Angle { return v.get().config.Angle }

// First returns the first circuit as a two-way valve, whose relative travel is
// the circuit's own opening: see [ChangeOver.Openings].
func (v ChangeOver) First() TwoWay { return v.get().first }

// Second returns the second circuit as a two-way valve, whose relative travel is
// the circuit's own opening: see [ChangeOver.Openings].
func (v ChangeOver) Second() TwoWay { return v.get().second }

// Openings returns how far each circuit is open, 0 shut … 1 open, at a rotation.
// At most one of the two is above 0. A rotation outside 0 … 1 counts as the end
// nearest to it.
func (v ChangeOver) Openings(rotation float64) (first, second float64) {
	m := v.get()
	return ramp(1 - rotation/m.spanOne), ramp(1 - (1-rotation)/m.spanTwo)
}

// ramp keeps a travel within 0 … 1.
func ramp(h float64) float64 { return min(max(h, 0), 1) }

// Middle returns the rotations between which both circuits are shut.
func (v ChangeOver) Middle() (from, to float64) {
	m := v.get()
	return m.spanOne, 1 - m.spanTwo
}

// Open tells which circuit is open at a rotation, however little.
func (v ChangeOver) Open(rotation float64) Side {
	switch from, to := v.Middle(); {
	case rotation < from:
		return FirstSide
	case rotation > to:
		return SecondSide
	}
	return NeitherSide
}

// RotationFor returns the rotation at which a circuit is open by a share of 0 …
// 1 of its own: the inverse of [ChangeOver.Openings]. For neither side it is the
// middle of the closed middle.
func (v ChangeOver) RotationFor(side Side, opening float64) float64 {
	m := v.get()
	opening = ramp(opening)
	switch side {
	case FirstSide:
		return float64((1 - opening) * m.spanOne)
	case SecondSide:
		return 1 - float64((1-opening)*m.spanTwo)
	}
	return (m.spanOne + (1 - m.spanTwo)) / 2
}

// Coefficients returns Kv of both circuits at a rotation; that of a shut circuit
// is its leakage.
func (v ChangeOver) Coefficients(rotation float64) (first, second units.FlowCoefficient) {
	m := v.get()
	one, two := v.Openings(rotation)
	return m.first.coefficient(one), m.second.coefficient(two)
}

// Flows returns the flows of both circuits at a rotation, each at the pressure
// difference over its two passages in the valve; see [TwoWay.Flow] for their
// laws.
func (v ChangeOver) Flows(rotation float64, first, second units.Pressure) (one, two units.Flow) {
	m := v.get()
	a, b := v.Openings(rotation)
	return m.first.Flow(a, first), m.second.Flow(b, second)
}

// CrossFlow returns what leaks from one circuit into the other where the first
// stands dp above the second. It makes one system lose water to the other until
// their pressures meet, and warms chilled water.
func (v ChangeOver) CrossFlow(dp units.Pressure) units.Flow {
	return units.Flow(sqrtlaw.Flow(v.get().cross, float64(dp)))
}
