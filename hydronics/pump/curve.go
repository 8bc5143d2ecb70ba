package pump

import (
	"math"

	"github.com/indexrun/indexrun/units"
)

// curve is the law H = a − b·q − c·q·|q| with a > 0, b, c ≥ 0 and b + c > 0, in
// pascal and m³/s. It falls strictly and is odd about (0, a), so that reverse
// flow meets a rising head.
//
// Where b is zero the slope would vanish at q = 0, which no network solver can
// use. Within q0, a ten-thousandth of the flow at zero head, q·|q| is therefore
// replaced by q·(q0² + q²)/(2·q0), which meets it in value and slope. Heads
// differ by 0.074·c·q0² at most, below 1e-9 of a.
type curve struct{ a, b, c, q0 float64 }

const smoothShare = 1e-4

func newCurve(a, b, c float64) curve {
	return curve{a: a, b: b, c: c, q0: smoothShare * positiveRoot(c, b, a)}
}

// runout returns the flow at zero head.
func (k *curve) runout() float64 { return k.q0 / smoothShare }

// at returns the head and dH/dq.
func (k *curve) at(q float64) (head, slope float64) {
	square, twice := q*math.Abs(q), 2*math.Abs(q)
	if twice < 2*k.q0 {
		square = q * (k.q0/2 + float64(q*q)/(2*k.q0))
		twice = k.q0/2 + float64(1.5*q*q)/k.q0
	}
	return k.a - float64(k.b*q) - float64(k.c*square), -k.b - float64(k.c*twice)
}

// flow is the inverse of at.
func (k *curve) flow(head float64) float64 {
	lost := k.a - head
	q := positiveRoot(k.c, k.b, math.Abs(lost))
	if q < k.q0 {
		q = k.nearZero(math.Abs(lost))
	}
	return math.Copysign(q, lost)
}

// nearZero solves the cubic within q0. The law is convex there, so that Newton's
// method comes down from the tangent at zero without overshoot.
func (k *curve) nearZero(lost float64) float64 {
	linear, cubic := k.b+k.c*k.q0/2, k.c/(2*k.q0)
	q := math.Min(lost/linear, k.q0)
	for range 8 {
		q2 := q * q
		q -= (float64(q*(linear+float64(cubic*q2))) - lost) / (linear + float64(3*cubic*q2))
	}
	return q
}

// atSpeed applies the affinity laws for the speed ratio n: flow goes with n,
// head with n².
func (k *curve) atSpeed(n float64) curve {
	return curve{a: k.a * n * n, b: k.b * n, c: k.c, q0: k.q0 * n}
}

// speed returns the ratio n at which the curve passes through (q, head):
// a·n² − b·q·n − (head + c·q²) = 0. Zero if no speed reaches so low.
func (k *curve) speed(q, head float64) float64 {
	rest := head + float64(k.c*q*q)
	if rest <= 0 {
		return 0
	}
	half := k.b * q / 2
	return (half + math.Sqrt(float64(half*half)+float64(k.a*rest))) / k.a
}

// positiveRoot solves a·x² + b·x = c without cancellation, for a, b, c ≥ 0.
func positiveRoot(a, b, c float64) float64 {
	if c == 0 {
		return 0
	}
	return 2 * c / (b + math.Sqrt(float64(b*b)+float64(4*a*c)))
}

// A Point is a flow and the head at that flow.
type Point struct {
	Flow units.Flow
	Head units.Pressure
}
