// Package fluid gives the properties of the liquids that hydronic systems
// carry: water, and water with ethylene or propylene glycol.
//
// A [Fluid] says which liquid it is. It is a small comparable value whose zero
// value is water, made by a constructor or from text:
//
//	f, err := fluid.EthyleneGlycolByVolume(30 * units.Percent)
//	f, err := fluid.Parse("ethylene glycol 30 % volume") // or "30 vol-% MEG"
//
// A percentage always says by what. Systems are filled by volume and tables are
// printed by mass: 30 % by volume of ethylene glycol is 32.3 % by mass, and
// freezes almost 2 K lower than 30 % by mass does.
//
// [Fluid.At] takes the temperature and the absolute pressure and returns a
// [State], or an error that says which of the two is out of range. The methods
// of a State cannot fail:
//
//	s, err := f.At(units.Celsius(6), units.Absolute(3*units.Bar))
//	rho, cp, nu := s.Density(), s.SpecificHeat(), s.KinematicViscosity()
//
// A duty that a coil gets from a flow, a valve's flow coefficient, a pipe's
// friction: each depends on one of these. Take the density at the valve or pipe
// in question, the specific heat at the mean of supply and return.
//
// # Water
//
// IAPWS R7-97(2012) (IF97), region 1, for density, specific heat and speed of
// sound, region 4 for saturation; IAPWS R12-08 for viscosity and R15-11 for
// thermal conductivity, both as the releases recommend for industrial use. The
// range is 0 … 200 °C, from the saturation pressure to 100 MPa. Between 0 °C and
// the triple point, 0.01 °C, IF97 continues the liquid.
//
// The viscosity leaves out the critical enhancement, which is nowhere above
// 1.1e-9 of it here. The conductivity has it: nothing up to 155 °C, 0.22 % at
// 200 °C and saturation.
//
// # Glycols
//
// Series of Å. Melinder, Properties of Secondary Working Fluids for Indirect
// Systems, International Institute of Refrigeration, 2010, from the freezing
// temperature to 100 °C and for 0 … 60 % by mass. They know no pressure; at most
// 10 MPa is accepted.
//
// They do not meet water as the glycol vanishes. At a fraction of 0, between 0
// and 100 °C at 0.3 MPa, they miss the properties of water by up to
//
//	            density  specific heat  viscosity  conductivity  freezing
//	ethylene    0.10 %   0.06 %         1.8 %      0.7 %         0.001 K
//	propylene   0.05 %   0.07 %         1.2 %      0.6 %         0.025 K
//
// so for water, say water. Further:
//
//   - Fractions by volume are of the pure liquids at 20 °C before mixing
//     ([Fluid.MassFraction] has the formula).
//   - The vapour pressure is that of water, an upper bound ([State.VapourPressure]).
//   - They are for pure glycol in water. Products on sale hold inhibitors, and
//     are themselves sold diluted: the supplier's data sheet comes first.
//
// Cautions. Too little glycol may feed corrosion and bacteria instead of
// stopping them; suppliers name a least fraction, often 20 to 25 % (common
// practice, no published source). Ethylene glycol is poisonous. Systems above
// 100 °C hold pressurised hot water that flashes to steam when opened: let them
// cool and release the pressure first.
package fluid
