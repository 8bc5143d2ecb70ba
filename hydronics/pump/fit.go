package pump

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// worstFit is the greatest deviation of a point from the curve that is taken
// for a pump curve's, as a share of the greatest head given, that of the first: the
// fit's shut-off head may be extrapolated, and great because the fit is bad.
const worstFit = 0.1

// fitCurve fits H = a − b·q − c·q², b, c ≥ 0, by least squares. The constraint
// is met by leaving b or c out where the free fit has it negative; of the two
// the better is taken. It returns the greatest deviation with the curve.
func fitCurve(l *check.List, points []Point) (curve, float64) {
	flow, head := scaled(points)
	var best []float64
	least := math.Inf(1)
	for _, powers := range [][]int{{0, 1, 2}, {0, 2}, {0, 1}} {
		x, ok := leastSquares(flow, head, powers)
		if !ok || !fallingFit(x) {
			continue
		}
		if rest := squares(x, flow, head); rest < least {
			best, least = x, rest
		}
		if len(powers) == 3 {
			break
		}
	}
	if best == nil {
		l.Fault("Points", fmt.Sprintf("%d points", len(points)), "points that a falling curve can follow")
		return curve{}, 0
	}
	q, h := float64(points[len(points)-1].Flow), float64(points[0].Head)
	k := newCurve(best[0]*h, -best[1]*h/q, -best[2]*h/(q*q))
	deviation := 0.0
	for _, p := range points {
		at, _ := k.at(float64(p.Flow))
		deviation = max(deviation, math.Abs(at-float64(p.Head)))
	}
	l.Require(deviation <= worstFit*h, "Points", fmt.Sprintf("a point %v off the fitted curve", units.Pressure(deviation)),
		fmt.Sprintf("points within %v of a falling curve H = a − b·q − c·q²", units.Pressure(worstFit*h)))
	return k, deviation
}

// scaled returns flows by the last flow and heads by the first head, for the
// sake of the fit's conditioning.
func scaled(points []Point) (flow, head []float64) {
	for _, p := range points {
		flow = append(flow, float64(p.Flow/points[len(points)-1].Flow))
		head = append(head, float64(p.Head/points[0].Head))
	}
	return flow, head
}

// leastSquares fits y = Σ x[k]·t^k over the given powers by a QR factorisation
// (gonum's mat.QR). The other coefficients up to the third power are zero.
func leastSquares(t, y []float64, powers []int) (x []float64, ok bool) {
	m := mat.NewDense(len(t), len(powers), nil)
	for i := range t {
		for j, power := range powers {
			m.Set(i, j, math.Pow(t[i], float64(power)))
		}
	}
	var qr mat.QR
	qr.Factorize(m)
	var solved mat.VecDense
	if err := qr.SolveVecTo(&solved, false, mat.NewVecDense(len(y), y)); err != nil {
		return nil, false
	}
	x = make([]float64, 4)
	for j, power := range powers {
		x[power] = solved.AtVec(j)
	}
	return x, true
}

func fallingFit(x []float64) bool { return x[0] > 0 && x[1] <= 0 && x[2] <= 0 && x[1]+x[2] < 0 }

// squares returns the sum of squared deviations of the fit x.
func squares(x, t, y []float64) float64 {
	var sum float64
	for i := range t {
		rest := polynomial(x, t[i]) - y[i]
		sum += float64(rest * rest)
	}
	return sum
}

func polynomial(x []float64, t float64) float64 {
	return x[0] + float64(t*(x[1]+float64(t*(x[2]+float64(t*x[3])))))
}
