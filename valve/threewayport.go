package valve

import "github.com/indexrun/indexrun/units"

// PortConfig describes the way through a three-way valve between one of its
// ports and the common port AB. A field that is 0 is not stated, unless its
// comment asks for it.
type PortConfig struct {
	// Kvs is the coefficient of the port fully open. It is required of the
	// control port; 0 at the bypass port is that of the control port.
	Kvs units.FlowCoefficient
	// Curve is the inherent characteristic over the port's own opening, from 0
	// where this port is shut to 1 where it is open; required unless the bypass
	// is complementary.
	Curve Characteristic `json:",omitzero"`
	// Rangeability is the inherent rangeability of the port, as in
	// [TwoWayConfig].
	Rangeability float64
	// ClosingTravel is the opening below which the curve runs straight to the
	// leakage, as in [TwoWayConfig].
	ClosingTravel float64
	// Leakage is the coefficient of the shut port as a share of its Kvs, as in
	// [TwoWayConfig]. That of a bypass port is often stated as far greater than
	// that of the control port, or not at all (common practice, no published
	// source).
	Leakage units.Ratio
	// SeatArea is the area that the pressure acts on with this port shut.
	SeatArea units.Area
}

// equal compares without ==, which a custom curve need not have.
func (p *PortConfig) equal(q *PortConfig) bool {
	return p.Curve.Equal(q.Curve) && p.Kvs == q.Kvs && p.Rangeability == q.Rangeability &&
		p.ClosingTravel == q.ClosingTravel && p.Leakage == q.Leakage && p.SeatArea == q.SeatArea
}
