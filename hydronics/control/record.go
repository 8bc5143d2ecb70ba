package control

import (
	"iter"
	"math"
	"time"
)

// record holds what is known of a record of values before its cycles are counted.
type record struct {
	count         int
	middle, slope float64 // of the straight line, about the middle place
	power         float64 // variance about the line
	noise         float64 // standard deviation
	tolerance     float64
	shape         float64 // of the swing, the square of its amplitude over its power
}

// newRecord fits the line; it is false if there is nothing to judge.
func newRecord[Q ~float64](x []Q, step time.Duration, tolerance float64) (r record, ok bool) {
	r = record{count: len(x), tolerance: tolerance, shape: pointed}
	if len(x) < leastRecord || step <= 0 || !(tolerance > 0) {
		return r, false
	}
	n := float64(len(x))
	half := (n - 1) / 2
	var sum, moment float64
	for i, v := range x {
		sum += float64(v)
		moment += float64(float64(v) * (float64(i) - half))
	}
	r.middle, r.slope = sum/n, moment*12/(n*(n*n-1))
	if !(math.Abs(sum) <= math.MaxFloat64) {
		return r, false
	}
	var bends float64
	for i := range x {
		r.power += square(r.rest(i, float64(x[i]))) / n
		if i >= 2 {
			bends += square(float64(x[i])-2*float64(x[i-1])+float64(x[i-2])) / (6 * (n - 2))
		}
	}
	r.noise = math.Sqrt(bends)
	return r, r.power+bends <= math.MaxFloat64
}

// rest is a value without the line.
func (r *record) rest(i int, v float64) float64 {
	return v - r.middle - float64(r.slope*(float64(i)-float64(r.count-1)/2))
}

// size is the amplitude of the sine with a power, less that of the noise.
func (r *record) size(power float64) float64 {
	return math.Sqrt(sinusoidal * math.Max(0, power-square(r.noise)))
}

// The shapes of a sine, and of a triangle or a saw, than which a limit cycle is not more
// pointed.
const (
	sinusoidal = 2
	pointed    = 3
)

// chance is the power beside its own that white noise may seem to have among n values: three
// times its standard deviation of 1.4·noise²/√n (from the variances of both powers and
// what they share).
func (r *record) chance(n int) float64 { return 3 * 1.4 * square(r.noise) / math.Sqrt(float64(n)) }

// beyond reports whether a swing of a shape, with the power of all values, is surely above the
// tolerance.
func (r *record) beyond(shape float64) bool {
	return shape*(r.power-square(r.noise)-r.chance(r.count)) > square(r.tolerance)
}

// within reports whether a swing of a shape, with the power of n values, is surely below
// the tolerance.
func (r *record) within(shape, power float64, n int) bool {
	limit := square(r.tolerance) / shape
	return power < limit || !r.coarse() && math.Max(0, power-square(r.noise))+r.chance(n) < limit
}

// coarse reports whether the values swing from one to the next.
func (r *record) coarse() bool { return square(r.noise) > alternating*r.power }

// drowned reports whether what there is may be noise alone.
func (r *record) drowned() bool { return r.power-square(r.noise) < r.chance(r.count) }

// level forgets the slope of the line if the values lie closer together without: waves
// that begin and end anywhere have one, though they stand on level ground. It returns half of
// what lies between the highest and the lowest value then.
func level[Q ~float64](r *record, x []Q) float64 {
	tilted, plain := newSpan(), newSpan()
	for i, v := range x {
		tilted.add(r.rest(i, float64(v)))
		plain.add(float64(v))
	}
	if plain.size() <= tilted.size() {
		r.slope = 0
		return plain.size() / 2
	}
	return tilted.size() / 2
}

// variance is the mean square about the mean.
func variance[Q ~float64](x []Q) float64 {
	var mean, power float64
	for _, v := range x {
		mean += float64(v) / float64(len(x))
	}
	for _, v := range x {
		power += square(float64(v)-mean) / float64(len(x))
	}
	return power
}

// averaging returns the width, an odd number of values, that brings the noise below
// a tenth of the swing.
func (r *record) averaging() int {
	const share = 10
	need := square(share * r.noise / r.size(r.power))
	most := float64(r.count) / (8 * leastCycles) // an eighth of the longest cycle that can be counted
	return 2*int(math.Min(need, most)/2) + 1
}

// averaged iterates over the places and values of the moving average of the rest.
func averaged[Q ~float64](x []Q, r *record, width int) iter.Seq2[int, float64] {
	return func(yield func(int, float64) bool) {
		var sum float64
		for i, v := range x {
			sum += r.rest(i, float64(v))
			if i >= width {
				sum -= r.rest(i-width, float64(x[i-width]))
			}
			if i >= width-1 && !yield(i, sum/float64(width)) {
				return
			}
		}
	}
}
