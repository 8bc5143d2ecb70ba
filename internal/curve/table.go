package curve

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// Point is one row of a tabulated curve.
type Point struct{ X, Y float64 }

// table is a monotone cubic through points: the method of Fritsch and Butland
// (SIAM J. Sci. Stat. Comput. 5, 1984), from gonum.
type table struct {
	points []Point
	spline interp.FritschButland
}

// leastStep keeps the slopes of a table finite and its inverse meaningful.
const leastStep = 1e-6

func newTable(points []Point) (*table, error) {
	if err := tableRules(points); err != nil {
		return nil, err
	}
	t := &table{points: slices.Clone(points)}
	xs, ys := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		xs[i], ys[i] = p.X, p.Y
	}
	if err := t.spline.Fit(xs, ys); err != nil {
		return nil, fault("table", err, "points that a monotone cubic can be fitted to")
	}
	return t, nil
}

func tableRules(points []Point) error {
	if len(points) < 2 {
		return fault("table", len(points), "two points or more")
	}
	first, last := points[0], points[len(points)-1]
	if first.X != 0 || !(first.Y >= 0 && first.Y < 1) {
		return fault("table", first, "a first point at x = 0 with a value of 0 … 1")
	}
	if last != (Point{1, 1}) {
		return fault("table", last, "a last point of 1:1")
	}
	for i := 1; i < len(points); i++ {
		if p, q := points[i-1], points[i]; !(q.X-p.X >= leastStep && q.Y-p.Y >= leastStep) {
			return fault("table", q, "x and y both above those of the point before, "+text(p)+", by 1e-6 or more")
		}
	}
	return nil
}

func (t *table) at(x float64) float64 { return t.spline.Predict(x) }

// inverse returns the x of a y within the table.
func (t *table) inverse(y float64) float64 {
	i, found := slices.BinarySearchFunc(t.points, y, func(p Point, y float64) int { return cmp.Compare(p.Y, y) })
	if found {
		return t.points[i].X
	}
	return t.solve(y, t.points[i-1], t.points[i])
}

// solve finds the x of a y between two points, by Newton steps kept inside a
// shrinking bracket. It ends when a step no longer moves x.
func (t *table) solve(y float64, left, right Point) float64 {
	lo, hi := left.X, right.X
	x := lo + (hi-lo)*(y-left.Y)/(right.Y-left.Y)
	for range 100 {
		miss := t.at(x) - y
		switch {
		case miss > 0:
			hi = x
		case miss < 0:
			lo = x
		default:
			return x
		}
		next := x - miss/t.spline.PredictDerivative(x)
		if next != x && !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if next == x {
			break
		}
		x = next
	}
	return x
}
