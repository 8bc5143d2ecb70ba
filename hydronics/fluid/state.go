package fluid

import "github.com/indexrun/indexrun/units"

// A State is a liquid at a temperature and a pressure where its properties are
// known: [Fluid.At] makes one, and its methods cannot fail. Density, specific
// heat, viscosity and vapour pressure are worked out once, by At; the others at
// each call. A State is an immutable value, safe for concurrent use. The zero
// State is not a liquid: its properties are zero or NaN.
type State struct {
	fluid        Fluid
	temperature  units.Temperature
	pressure     units.AbsolutePressure
	density      units.Density
	specificHeat units.SpecificHeat
	viscosity    units.DynamicViscosity
	vapour       units.AbsolutePressure
}

// String returns the fluid, its temperature and its pressure, such as
// "water, 6 °C, 300 kPa abs".
func (s State) String() string {
	return s.fluid.String() + ", " + s.temperature.String() + ", " + s.pressure.String()
}

// At returns the fluid at temperature t and absolute pressure p.
//
// Water is known from 0 to 200 °C and from its saturation pressure to 100 MPa,
// a glycol from its freezing temperature to 100 °C and from the vapour pressure
// of water (0 °C: 0.611 kPa, also below) to 10 MPa. Outside, or for a NaN, the
// error wraps a [units.FieldError] for each of t and p that is at fault.
//
// At allocates only to refuse. The pressure matters little to a liquid: 1 MPa
// more makes water 0.05 % denser. Where it is not known, a usual system
// pressure will do.
func (f Fluid) At(t units.Temperature, p units.AbsolutePressure) (State, error) {
	T, pa := t.Kelvin(), float64(p.AboveVacuum())
	vapour := vapourPressure(T)
	if !f.contains(T, pa, vapour) {
		return State{}, f.refuse(t, p)
	}
	s := State{fluid: f, temperature: t, pressure: p, vapour: pascal(vapour)}
	if f.glycol == noGlycol {
		s.fillWater(T, pa)
	} else {
		s.fillMixture(T, &mixtures[f.glycol])
	}
	return s, nil
}

func (s *State) fillWater(T, p float64) {
	g := region1(T, p)
	rho := g.density()
	s.density = units.Density(rho)
	s.specificHeat = units.SpecificHeat(g.specificHeat())
	s.viscosity = units.DynamicViscosity(viscosity(T, rho))
}

func (s *State) fillMixture(T float64, m *mixture) {
	x := float64(s.fluid.mass)
	s.density = units.Density(m.evaluate(m.density, T, x))
	s.specificHeat = units.SpecificHeat(m.evaluate(m.specificHeat, T, x))
	s.viscosity = units.DynamicViscosity(m.viscosity(T, x))
}

// Fluid returns the fluid that the state is of.
func (s State) Fluid() Fluid { return s.fluid }

// Temperature returns the temperature given to [Fluid.At].
func (s State) Temperature() units.Temperature { return s.temperature }

// Pressure returns the absolute pressure given to [Fluid.At].
func (s State) Pressure() units.AbsolutePressure { return s.pressure }

// Density returns ρ: IAPWS R7-97(2012), region 1, for water; Melinder (2010)
// for a glycol, whose series leaves out the pressure (about 0.05 % for 1 MPa).
func (s State) Density() units.Density { return s.density }

// SpecificHeat returns the isobaric specific heat capacity cp: IAPWS
// R7-97(2012), region 1, for water; Melinder (2010) for a glycol.
func (s State) SpecificHeat() units.SpecificHeat { return s.specificHeat }

// DynamicViscosity returns µ: IAPWS R12-08 at the density of IF97 for water,
// without the critical enhancement, which stays below 1.1e-9 of µ in this range;
// Melinder (2010) for a glycol.
func (s State) DynamicViscosity() units.DynamicViscosity { return s.viscosity }

// KinematicViscosity returns ν = µ/ρ.
func (s State) KinematicViscosity() units.KinematicViscosity {
	return s.viscosity.Kinematic(s.density)
}

// ThermalConductivity returns λ: IAPWS R15-11 for industrial use, with its
// critical enhancement, for water; Melinder (2010) for a glycol.
func (s State) ThermalConductivity() units.ThermalConductivity {
	T := s.temperature.Kelvin()
	if s.fluid.glycol != noGlycol {
		m := &mixtures[s.fluid.glycol]
		return units.ThermalConductivity(m.evaluate(m.conductivity, T, float64(s.fluid.mass)))
	}
	g := region1(T, float64(s.pressure.AboveVacuum()))
	return units.ThermalConductivity(conductivity(&g, float64(s.viscosity)))
}

// PrandtlNumber returns Pr = cp·µ/λ.
func (s State) PrandtlNumber() float64 {
	return float64(s.specificHeat) * float64(s.viscosity) / float64(s.ThermalConductivity())
}

// VapourPressure returns the pressure below which bubbles form, pv: that of
// water, IAPWS R7-97(2012), equation 30. For a glycol this is an upper bound,
// on the safe side for cavitation, because the glycol lowers the vapour
// pressure roughly with the mole fraction of water (Raoult's law) and hardly
// evaporates itself: a mixture of 30 % mass has about 0.9 times the vapour
// pressure of water. Below 0 °C it is the value there.
func (s State) VapourPressure() units.AbsolutePressure { return s.vapour }

// SpeedOfSound returns the speed of sound in the liquid, for water only: IAPWS
// R7-97(2012), region 1. In a pipe, elastic walls and air bubbles make pressure
// waves slower.
func (s State) SpeedOfSound() (w units.Velocity, ok bool) {
	if s.fluid.glycol != noGlycol {
		return 0, false
	}
	g := region1(s.temperature.Kelvin(), float64(s.pressure.AboveVacuum()))
	return units.Velocity(g.speedOfSound()), true
}

func pascal(p float64) units.AbsolutePressure {
	return units.Absolute(units.Pressure(p) * units.Pascal)
}
