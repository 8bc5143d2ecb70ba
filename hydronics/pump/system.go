package pump

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// SystemConfig describes what a pump works against.
type SystemConfig struct {
	// Static is the part that does not depend on flow: zero in a closed circuit,
	// a difference of level in an open one.
	Static units.Pressure

	// Loss is a flow above zero and what the circuit loses at that flow besides
	// Static, above zero.
	Loss Point
}

// A System is the law Δp = static + R·q² of a circuit. It is immutable.
type System struct{ static, resistance float64 }

// NewSystem checks cfg and makes the system; the error names every fault.
func NewSystem(cfg SystemConfig) (System, error) {
	l := check.List{Package: "pump"}
	l.Require(!math.IsNaN(float64(cfg.Static)) && !math.IsInf(float64(cfg.Static), 0), "Static", cfg.Static, "a finite value")
	r := resistance(&l, "Loss", cfg.Loss)
	if err := l.Err(); err != nil {
		return System{}, err
	}
	return System{float64(cfg.Static), r}, nil
}

// resistance returns Δp/q² of a loss.
func resistance(l *check.List, field string, loss Point) float64 {
	check.Positive(l, field+".Flow", loss.Flow)
	check.Positive(l, field+".Head", loss.Head)
	return float64(loss.Head) / float64(loss.Flow*loss.Flow)
}

// Pressure returns what a flow takes; a reverse flow gets its loss back.
func (s System) Pressure(q units.Flow) units.Pressure {
	return units.Pressure(s.static + float64(s.resistance*float64(q)*math.Abs(float64(q))))
}

// Equal reports whether s and o are the same system.
func (s System) Equal(o System) bool { return s == o }

// flow returns the flow that a pressure above the static one drives.
func (s System) flow(head float64) float64 { return math.Sqrt((head - s.static) / s.resistance) }

// meet returns the flow at which the curve, whose a is above the static
// pressure, meets the system: the root of a quadratic, and a few steps of
// Newton's method for the smoothed start of the curve.
func (k *curve) meet(s System) float64 {
	q := positiveRoot(k.c+s.resistance, k.b, k.a-s.static)
	if q >= k.q0 {
		return q
	}
	for range 8 {
		head, slope := k.at(q)
		q -= (head - s.static - float64(s.resistance*q*q)) / (slope - float64(2*s.resistance*q))
	}
	return q
}
