package control

import "math"

// folded is the mean cycle of a swing: every whole cycle, stretched to the same
// length, laid over the others in parts.
type folded struct {
	parts int
	sum   [mostParts]float64
	count [mostParts]float64
}

const (
	leastParts = 24
	mostParts  = 96
)

// newFolded chooses the number n of parts by the point of a triangle of the height of the even
// cycles. Its part is lower by 1.5/n of the height, and uncertain by noise·√(n/values): n makes
// them alike. Each takes four values or more of a cycle, if cycles are not short.
func newFolded(e *evenness, noise float64) folded {
	values := float64(e.count) * e.period
	n := math.Min(math.Cbrt(square(1.5*e.height/noise)*values), e.period/4)
	return folded{parts: int(clamp(n, leastParts, mostParts))}
}

// fold adds the cycle from one place up to another, without the line.
func fold[Q ~float64](f *folded, x []Q, r *record, from, to int) {
	for i := from; i < to; i++ {
		part := (i - from) * f.parts / (to - from)
		f.sum[part] += r.rest(i, float64(x[i]))
		f.count[part]++
	}
}

// empty reports whether there was no cycle.
func (f *folded) empty() bool { return f.count == [mostParts]float64{} }

// amplitude is half the difference between the highest and the lowest part. Cycles of
// fewer values than there are parts leave some out, often nearly all of them the same:
// what has less than half its share of the values is noise still, and does not count.
func (f *folded) amplitude() float64 {
	var all float64
	for _, n := range f.count {
		all += n
	}
	parts := newSpan()
	for i, n := range f.count[:f.parts] {
		if 2*n*float64(f.parts) > all {
			parts.add(f.sum[i] / n)
		}
	}
	return parts.size() / 2
}
