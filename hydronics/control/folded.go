package control

import "math"

// folded is the mean cycle of a swing: every whole cycle, stretched to the same
// length, laid over the others in parts.
type folded struct {
	sum   [cycleParts]float64
	count [cycleParts]float64
}

const cycleParts = 24

// fold adds the cycle from one place up to another, without the line.
func fold[Q ~float64](f *folded, x []Q, r *record, from, to int) {
	for i := from; i < to; i++ {
		part := (i - from) * cycleParts / (to - from)
		f.sum[part] += r.rest(i, float64(x[i]))
		f.count[part]++
	}
}

// empty reports whether there was no cycle.
func (f *folded) empty() bool { return f.count == [cycleParts]float64{} }

// amplitude is half the difference between the highest and the lowest part. Cycles of
// fewer values than there are parts leave some out, often nearly all of them the same:
// what has less than half its share of the values is noise still, and does not count.
func (f *folded) amplitude() float64 {
	var all float64
	for _, n := range f.count {
		all += n
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i, n := range f.count {
		if n > all/(2*cycleParts) {
			low, high = math.Min(low, f.sum[i]/n), math.Max(high, f.sum[i]/n)
		}
	}
	return (high - low) / 2
}
