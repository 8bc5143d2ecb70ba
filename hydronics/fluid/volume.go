package fluid

// waterDensity is that of water at 20 °C and 0.1 MPa in kg/m³ (IF97: 998.206).
const waterDensity = 998.2

// massOfVolume turns a volume fraction into a mass fraction: the volumes are
// those of the pure liquids at 20 °C before they are mixed,
// x = φ·ρg/(φ·ρg + (1 − φ)·ρw).
func (m *mixture) massOfVolume(volume float64) float64 {
	glycol, water := float64(volume*m.pureDensity), float64((1-volume)*waterDensity)
	return glycol / (glycol + water)
}

// volumeOfMass is the inverse of massOfVolume.
func (m *mixture) volumeOfMass(mass float64) float64 {
	glycol, water := mass/m.pureDensity, (1-mass)/waterDensity
	return glycol / (glycol + water)
}
