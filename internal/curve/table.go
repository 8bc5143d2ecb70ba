package curve

import (
	"math"
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
		if p, q := points[i-1], points[i]; !(q.X > p.X && q.Y > p.Y) {
			return fault("table", q, "x and y both above those of the point before, "+text(p))
		}
	}
	return nil
}

func (t *table) at(x float64) float64 { return t.spline.Predict(x) }

// inverse solves the cubic of the segment that holds y, by Newton steps kept
// inside a shrinking bracket.
func (t *table) inverse(y float64) float64 {
	i, found := slices.BinarySearchFunc(t.points, y, func(p Point, y float64) int {
		switch {
		case p.Y < y:
			return -1
		case p.Y > y:
			return 1
		}
		return 0
	})
	if found {
		return t.points[i].X
	}
	lo, hi := t.points[i-1].X, t.points[i].X
	x := lo + (hi-lo)*(y-t.points[i-1].Y)/(t.points[i].Y-t.points[i-1].Y)
	for range 100 {
		miss := t.at(x) - y
		if miss == 0 || hi-lo <= 1e-16 {
			break
		}
		if miss > 0 {
			hi = x
		} else {
			lo = x
		}
		next := x - miss/t.spline.PredictDerivative(x)
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if math.Abs(next-x) <= 1e-16 {
			break
		}
		x = next
	}
	return x
}
